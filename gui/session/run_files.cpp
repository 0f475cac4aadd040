#include "gui/session/run_files.hpp"

#include "gui/records/bench_file.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/schemas.hpp"

#include <QFileInfo>
#include <QSettings>

#include <nlohmann/json.hpp>

#include <algorithm>

namespace zeroline::session {

namespace {

constexpr qsizetype kMostRecent = 12;

} // namespace

records::Read<verification::WorkOrder> order_from_text(const std::string& text)
{
    const auto tree = records::parse_json(text);
    records::check_schema(tree, "work-order");
    return {text, verification::parse_work_order(tree)};
}

records::Read<trace::Instrument> instrument_from_text(const std::string& text)
{
    const auto tree = records::parse_json(text);
    records::check_schema(tree, "instrument");
    return {text, trace::parse_instrument(tree)};
}

records::Read<verification::Bench> bench_from_text(const std::string& text)
{
    const auto tree = records::parse_json(text);
    records::check_schema(tree, "bench");
    return {records::recorded_part(tree).dump(2) + "\n", verification::parse_bench(tree)};
}

records::Read<verification::Bench> bench_of(const std::string& organisation, const std::string& address)
{
    verification::Bench bench;
    bench.organisation = organisation;
    bench.address = address;
    return bench_from_text(verification::to_json(bench).dump());
}

std::string text_of(const verification::WorkOrder& order) { return verification::to_json(order).dump(2) + "\n"; }

std::string text_of(const trace::Instrument& instrument) { return trace::to_json(instrument).dump(2) + "\n"; }

QStringList RecentFiles::files() const
{
    QStringList there;
    for (const auto& file : QSettings().value(QStringLiteral("recent/") + kind_).toStringList()) {
        if (QFileInfo(file).isFile()) {
            there << file;
        }
    }
    return there;
}

void RecentFiles::used(const QString& file) const
{
    auto all = files();
    const auto path = QFileInfo(file).absoluteFilePath();
    all.removeAll(path);
    all.prepend(path);
    QSettings().setValue(QStringLiteral("recent/") + kind_, all.mid(0, kMostRecent));
}

} // namespace zeroline::session
