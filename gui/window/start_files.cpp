// Files that are dropped on the start page, or judged by what is chosen there.

#include "acquisition/trace/input_error.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/start_page.hpp"

namespace zeroline::window {

using trace::InputError;

void StartPage::take_file(const QString& file)
{
    if (file.endsWith(QLatin1String(".csv"), Qt::CaseInsensitive)) {
        Q_EMIT wantsTrace(file);
        return;
    }
    QString refused;
    try {
        static_cast<void>(records::load_work_order(file.toStdString()));
        return choose_order(file);
    } catch (const InputError& error) {
        refused = QString::fromUtf8(error.what());
    }
    try {
        static_cast<void>(records::load_instrument(file.toStdString()));
        return choose_instrument(file);
    } catch (const InputError&) {
        show_trouble(tr("Neither a record, nor a trace, an order or an instrument. %1").arg(refused));
    }
}

records::EvidenceFiles StartPage::files_for(const QString& trace) const
{
    for (const auto& file : {order_->file(), instrument_->file()}) {
        if (file.isEmpty() || file == FileChoice::kDemonstration) {
            throw InputError(trace.toStdString(), "a trace alone says little",
                             "the order and the instrument it belongs to, chosen here first; not those built in");
        }
    }
    records::EvidenceFiles files;
    files.trace = trace.toStdString();
    files.order = order_->file().toStdString();
    files.instrument = instrument_->file().toStdString();
    return files;
}

} // namespace zeroline::window
