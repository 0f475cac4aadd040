#include "gui/register/last_event.hpp"

#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include <QDateTime>

namespace zeroline::unit_register {

namespace fs = std::filesystem;

namespace {

fs::path kept_beside(const fs::path& register_file) { return fs::path(register_file).concat(".last-event.json"); }

QDateTime moment_of(const std::string& rfc3339)
{
    return QDateTime::fromString(QString::fromStdString(rfc3339), Qt::ISODate);
}

} // namespace

void remember_last_event(const fs::path& register_file, const UnitRegister& units)
{
    try {
        if (const auto last = units.last_event(); !last.empty()) {
            const auto file = kept_beside(register_file);
            std::error_code none;
            fs::remove(file, none);
            records::write_file_whole(
                file, Value{{"register", units.place()}, {"number", last[0]["number"]}, {"sha256", last[0]["sha256"]}}
                          .dump());
        }
    } catch (const std::exception&) { // the next save keeps a later one
    }
}

std::string lost_events(const fs::path& register_file, const UnitRegister& units)
{
    const auto file = kept_beside(register_file);
    if (std::error_code none; !fs::exists(file, none)) {
        return {};
    }
    const auto kept = records::load_json(file);
    if (kept.value("register", "") != units.place() ||
        units.has_event(kept.value("number", std::int64_t{0}), kept.value("sha256", ""))) {
        return {};
    }
    return "event " + kept.value("number", Value()).dump() +
           ", which this bench saw, is not in the register: an older copy is in its place, or its end was taken off";
}

std::string clock_that_ran_back(const UnitRegister& units, const std::string& now)
{
    constexpr qint64 kClocksDiffer_s = 300;
    const auto last = units.last_event();
    if (last.empty()) {
        return {};
    }
    const auto time = last[0]["time"].get<std::string>();
    return moment_of(now).secsTo(moment_of(time)) <= kClocksDiffer_s
               ? std::string()
               : "the clock stands at " + now + ", and the register's last entry is of " + time +
                     ": one of them is wrong";
}

} // namespace zeroline::unit_register
