#include "gui/window/home_lines.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/print/pages.hpp"
#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QLocale>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

QString lines_of(const std::filesystem::path& folder)
{
    print::PageOptions options;
    options.language = QLocale().name().toStdString();
    try {
        return QString::fromStdString(print::home_lines(folder, options));
    } catch (const trace::InputError&) {
        return {}; // what is wrong with the record stands on top of the page
    }
}

} // namespace

HomeLines::HomeLines(QWidget* parent) : QFrame(parent)
{
    named(this, "homeLinesCard", tr("copy for home in five lines"));
    setProperty("card", true);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kCard_px, kGap_px, kCard_px, kGap_px);
    layout->setSpacing(kGap_px);
    layout->addWidget(heading(tr("For the person at home, to copy by hand where there is no printer")));
    layout->addWidget(lines_ = text_label("homeLines", tr("copy for home in five lines")));
    lines_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    hide();
}

void HomeLines::show_record(const std::filesystem::path& folder)
{
    lines_->setText(folder.empty() ? QString() : lines_of(folder));
    setVisible(!lines_->text().isEmpty());
}

} // namespace zeroline::window
