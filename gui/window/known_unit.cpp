#include "gui/window/known_unit.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/run_files.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/register_rows.hpp"

namespace zeroline::window {

namespace fs = std::filesystem;
using unit_register::Rows;

namespace {

struct Known {
    Rows last; ///< of history(); null: none
    QString order;
};

/// A copy to be used and edited: what is sealed stays as it is. One that is there already may have been edited.
QString copied_order(const fs::path& record, const fs::path& beside)
{
    const auto order = record / "order.json";
    const auto copy = beside / "orders" / (record.filename().string() + ".json");
    try {
        if (!fs::exists(copy)) {
            const auto text = records::read_file(order);
            fs::create_directories(copy.parent_path());
            records::write_file_whole(copy, text);
        }
        return QString::fromStdString(copy.string());
    } catch (const std::exception&) {
        return {}; // the record is not where it was: the unit is known all the same
    }
}

Known known(const unit_register::UnitRegister& units, const std::string& asset, const fs::path& beside)
{
    const auto last = units.last_of(asset);
    if (last.empty()) {
        return {};
    }
    const auto& folder = last[0]["folder"];
    return {last[0], folder.is_string() ? copied_order(folder.get<std::string>(), beside) : QString()};
}

} // namespace

KnownUnit::KnownUnit(QWidget* parent) : QLabel(parent)
{
    named(this, "knownUnit", tr("what the register knows of this unit"));
    setWordWrap(true);
    hide();
}

QString KnownUnit::order_used_for(const QString& asset)
{
    for (const auto& file : session::RecentFiles(QStringLiteral("orders")).files()) {
        try {
            if (QString::fromStdString(records::load_work_order(file.toStdString()).meaning.unit.asset) == asset) {
                return file;
            }
        } catch (const trace::InputError&) {
            continue; // told when it is chosen
        }
    }
    return {};
}

void KnownUnit::look_for(const QString& asset)
{
    asset_ = asset;
    hide();
    if (reader_ == nullptr || asset.isEmpty()) {
        return;
    }
    reader_->ask<Known>(
        [wanted = asset.toStdString(), beside = reader_->file().parent_path()](const auto& units) {
            return known(units, wanted, beside);
        },
        [this, asset](const Known& known) {
            if (asset != asset_ || known.last.is_null()) {
                return;
            }
            const auto& last = known.last;
            const bool here = last["origin"] == "captured-here";
            setText(tr("Last visit %1: %2%3")
                        .arg(register_text("day", last["day"]), register_text("verdict", last["verdict"]),
                             here ? QString() : u' ' + register_text("origin", last["origin"])) +
                    (last["next_due"].is_null()
                         ? QString()
                         : u' ' + tr("Due %1.").arg(register_text("next_due", last["next_due"]))));
            show();
            Q_EMIT found(asset, known.order);
        });
}

} // namespace zeroline::window
