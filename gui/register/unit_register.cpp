#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/register/schema.hpp"

#include <QDateTime>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

std::string now()
{
    const auto moment = QDateTime::currentDateTime();
    return moment.toOffsetFromUtc(moment.offsetFromUtc()).toString(Qt::ISODate).toStdString();
}

} // namespace

std::string body_of(const Value& verification, const std::vector<Value>& figures)
{
    return Value{{"verification", verification}, {"figures", figures}}.dump();
}

std::string event_sha256(const Rows& event)
{
    auto said = event;
    said.erase("sha256");
    return records::sha256(Value(said).dump());
}

UnitRegister UnitRegister::open(const fs::path& file)
{
    auto database = Database::open(file);
    migrate(database, now());
    return UnitRegister(std::move(database));
}

/// Columns are named by this program; values are bound.
void UnitRegister::insert(const std::string& table, const Value& row, const std::string& otherwise) const
{
    std::string columns, marks;
    std::vector<Value> values;
    for (const auto& [column, value] : row.items()) {
        columns += (columns.empty() ? "" : ", ") + column;
        marks += marks.empty() ? "?" : ", ?";
        values.push_back(value);
    }
    database_.run("INSERT INTO " + table + " (" + columns + ") VALUES (" + marks + ")" +
                      (otherwise.empty() ? "" : " ON CONFLICT " + otherwise),
                  values);
}

void UnitRegister::add_event(const std::string& kind, const std::string& record_number, const std::string& body) const
{
    const auto last = database_.run("SELECT number, sha256 FROM event ORDER BY number DESC LIMIT 1");
    Rows event{{"number", last.empty() ? 1 : last[0]["number"].get<std::int64_t>() + 1},
               {"time", now()},
               {"kind", kind},
               {"record_number", record_number},
               {"body", body},
               {"before_sha256", last.empty() ? "" : last[0]["sha256"].get<std::string>()}};
    event["sha256"] = event_sha256(event);
    insert("event", Value(event));
}

bool UnitRegister::add_addenda(const Entry& entry) const
{
    bool added = false;
    for (const auto& addendum : entry.addenda) {
        const auto body = Value{{"name", addendum.name}, {"manifest_sha256", addendum.manifest_sha256}}.dump();
        const auto known =
            database_.run("SELECT 1 FROM event WHERE record_number = ? AND kind = 'addendum' AND body = ?",
                          {entry.record_number(), body});
        if (known.empty()) {
            add_event("addendum", entry.record_number(), body);
            added = true;
        }
    }
    return added;
}

void UnitRegister::add_record(const Entry& entry) const
{
    insert("unit", entry.unit, "(asset) DO UPDATE SET serial = excluded.serial, model = excluded.model");
    if (!entry.instrument.is_null()) {
        insert("instrument", entry.instrument,
               "(name, serial) DO UPDATE SET certificate = excluded.certificate, calibrated_on = "
               "excluded.calibrated_on, calibration_due = excluded.calibration_due WHERE excluded.calibrated_on >= "
               "instrument.calibrated_on");
    }
    insert("verification", entry.verification);
    for (const auto& figure : entry.figures) {
        insert("figure", figure);
    }
    add_event("record", entry.record_number(), body_of(entry.verification, entry.figures));
}

Added UnitRegister::add(const Entry& entry) const
{
    auto added = Added::nothing;
    database_.in_one_step([&] {
        const auto known =
            database_.run("SELECT manifest_sha256 FROM verification WHERE record_number = ?", {entry.record_number()});
        if (known.empty()) {
            add_record(entry);
        } else if (known[0]["manifest_sha256"] != entry.verification.at("manifest_sha256")) {
            throw InputError(entry.folder.string(),
                             "record " + entry.record_number() + " is registered with another manifest",
                             "the record as it was sealed first; this one was signed again, or is another");
        }
        insert("folder", {{"record_number", entry.record_number()}, {"path", entry.folder.string()}},
               "(record_number) DO UPDATE SET path = excluded.path");
        const bool more = add_addenda(entry);
        added = known.empty() ? Added::record : more ? Added::addenda : Added::nothing;
    });
    return added;
}

std::optional<fs::path> UnitRegister::folder_of(const std::string& record_number) const
{
    const auto rows = database_.run("SELECT path FROM folder WHERE record_number = ?", {record_number});
    return rows.empty() ? std::nullopt : std::optional<fs::path>(rows[0]["path"].get<std::string>());
}

void UnitRegister::backup(const fs::path& file) const
{
    if (std::error_code none; fs::symlink_status(file, none).type() != fs::file_type::not_found) {
        throw InputError(file.string(), "is there already", "a file that does not exist yet; nothing is overwritten");
    }
    database_.run("VACUUM INTO ?", {file.string()});
}

} // namespace zeroline::unit_register
