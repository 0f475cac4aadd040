#include "gui/register/unit_register.hpp"

#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/register/schema.hpp"
#include "gui/register/unit_standing.hpp"

#include <algorithm>
#include <set>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

/// As of the newest calibration that is known of it.
void put_instrument(const Database& database, const Value& instrument)
{
    database.insert("instrument", instrument,
                    "(name, serial) DO UPDATE SET certificate = excluded.certificate, calibrated_on = "
                    "excluded.calibrated_on, calibration_due = excluded.calibration_due WHERE excluded.calibrated_on "
                    ">= instrument.calibrated_on");
}

Value of_record(Value row, const Entry& entry)
{
    row["record_number"] = entry.record_number();
    return row;
}

/// Whether a point is in the register already, be it at another place: two benches may check one instrument on one day
/// with one gauge, and each counts its own points. `met` are rows that were a point's own; each is one point only.
bool is_among(const Rows& known, const Value& point, std::set<std::string>& met)
{
    return std::any_of(known.begin(), known.end(), [&](const Rows& row) {
        auto there = Value(row), asked = point;
        const bool of_older_program = there.at("kind").is_null(); // which knew a point by its place
        if (of_older_program ? there.at("place") != asked.at("place")
                             : (asked["place"] = there.at("place"), there != asked)) {
            return false;
        }
        return met.insert(there.dump()).second;
    });
}

/// `wanted`, or where another point has it, the first behind all.
Value free_place(const Rows& known, const Value& wanted)
{
    auto behind = wanted.get<std::int64_t>();
    bool is_taken = false;
    for (const auto& row : known) {
        const auto place = row["place"].get<std::int64_t>();
        is_taken = is_taken || place == wanted;
        behind = std::max(behind, place + 1);
    }
    return is_taken ? Value(behind) : wanted;
}

} // namespace

std::string body_of(const Entry& entry)
{
    Value body{{"verification", entry.verification}, {"figures", entry.figures}, {"files", entry.files}};
    if (!entry.procedure.is_null()) {
        body["procedure"] = entry.procedure;
    }
    if (!entry.kept_out.is_null()) {
        body["kept_out"] = entry.kept_out;
    }
    return body.dump();
}

std::string event_sha256(const Rows& event)
{
    auto said = event;
    said.erase("sha256");
    said.erase("signature");
    if (said["public_key"] == "") {
        said.erase("public_key"); // of a program that did not sign
    }
    if (said["own_before_sha256"].is_null()) {
        said.erase("own_before_sha256"); // of a program that wrote one chain only
    }
    return records::sha256(Value(said).dump());
}

UnitRegister UnitRegister::open(const std::string& place)
{
    auto database = Database::open(place);
    migrate(database, moment_now());
    return UnitRegister(std::move(database));
}

Rows UnitRegister::last_event() const
{
    return database_.run("SELECT number, time, sha256 FROM event ORDER BY number DESC LIMIT 1");
}

bool UnitRegister::has_event(std::int64_t number, const std::string& sha256) const
{
    return !database_.run("SELECT 1 FROM event WHERE number = ? AND sha256 = ?", {number, sha256}).empty();
}

void UnitRegister::add_event(const std::string& kind, const Value& record_number, const std::string& body,
                             const records::SigningKey& key) const
{
    const auto last = last_event();
    const auto signer = records::base64(key.public_key());
    const auto own =
        database_.run("SELECT sha256 FROM event WHERE public_key = ? ORDER BY number DESC LIMIT 1", {signer});
    Rows event{{"number", last.empty() ? 1 : last[0]["number"].get<std::int64_t>() + 1},
               {"time", moment_now()},
               {"kind", kind},
               {"record_number", record_number},
               {"body", body},
               {"before_sha256", last.empty() ? "" : last[0]["sha256"].get<std::string>()},
               {"own_before_sha256", own.empty() ? "" : own[0]["sha256"].get<std::string>()},
               {"public_key", signer}};
    const auto sha256 = event_sha256(event);
    event["sha256"] = sha256;
    event["signature"] = records::base64(key.sign(sha256));
    database_.insert("event", Value(event));
}

bool UnitRegister::add_addenda(const Entry& entry, const records::SigningKey& key) const
{
    bool added = false;
    for (const auto& addendum : entry.addenda) {
        const auto body = Value{{"name", addendum.name}, {"manifest_sha256", addendum.manifest_sha256}}.dump();
        const auto known =
            database_.run("SELECT 1 FROM event WHERE record_number = ? AND kind = 'addendum' AND body = ?",
                          {entry.record_number(), body});
        if (known.empty()) {
            add_event("addendum", entry.record_number(), body, key);
            added = true;
        }
    }
    return added;
}

void UnitRegister::add_record(const Entry& entry, const records::SigningKey& key) const
{
    database_.insert("unit", entry.unit, "(asset) DO UPDATE SET serial = excluded.serial, model = excluded.model");
    if (!entry.instrument.is_null()) {
        put_instrument(database_, entry.instrument);
    }
    database_.insert("verification", entry.verification);
    if (!entry.procedure.is_null()) {
        database_.insert("procedure", of_record(entry.procedure, entry));
    }
    if (!entry.kept_out.is_null()) {
        database_.insert("kept_out", of_record(entry.kept_out, entry));
    }
    for (const auto& figure : entry.figures) {
        database_.insert("figure", figure);
    }
    keep_standing(database_, entry.unit.at("asset"));
    add_event("record", entry.record_number(), body_of(entry), key);
}

Added UnitRegister::add(const Entry& entry, const records::SigningKey& key) const
{
    auto added = Added::nothing;
    database_.in_one_step([&] {
        const auto known =
            database_.run("SELECT manifest_sha256 FROM verification WHERE record_number = ?", {entry.record_number()});
        if (known.empty()) {
            add_record(entry, key);
        } else if (known[0]["manifest_sha256"].get<std::string>() !=
                   entry.verification.at("manifest_sha256").get<std::string>()) {
            throw InputError(entry.folder.string(),
                             "record " + entry.record_number() + " is registered with another manifest",
                             "the record as it was sealed first; this one was signed again, or is another");
        }
        database_.insert("folder", {{"record_number", entry.record_number()}, {"path", entry.folder.string()}},
                         "(record_number) DO UPDATE SET path = excluded.path");
        (void)add_checks(entry.instrument_checks, key);
        for (const auto& signature : entry.signatures) {
            database_.insert("signature", of_record(signature, entry), "DO NOTHING");
        }
        const bool more = add_addenda(entry, key);
        added = known.empty() ? Added::record : more ? Added::addenda : Added::nothing;
    });
    return added;
}

/// One event for those that are new.
bool UnitRegister::add_checks(const std::vector<Value>& checks, const records::SigningKey& key) const
{
    std::vector<Value> added;
    std::set<std::string> met;
    for (auto check : checks) {
        const auto known = database_.run(
            "SELECT * FROM instrument_check WHERE instrument_name = ? AND "
            "instrument_serial = ? AND day = ? AND certificate = ? ORDER BY place",
            {check.at("instrument_name"), check.at("instrument_serial"), check.at("day"), check.at("certificate")});
        if (!is_among(known, check, met)) {
            check["place"] = free_place(known, check.at("place"));
            met.insert(check.dump());
            database_.insert("instrument_check", check);
            added.push_back(check);
        }
    }
    if (!added.empty()) {
        add_event("instrument checks", nullptr, Value(added).dump(), key);
    }
    return !added.empty();
}

bool UnitRegister::add_instrument(const InstrumentEntry& entry, const records::SigningKey& key) const
{
    bool added = false;
    database_.in_one_step([&] {
        put_instrument(database_, entry.instrument);
        added = add_checks(entry.checks, key);
    });
    return added;
}

std::optional<fs::path> UnitRegister::folder_of(const std::string& record_number) const
{
    const auto rows = database_.run("SELECT path FROM folder WHERE record_number = ?", {record_number});
    return rows.empty() ? std::nullopt : std::optional<fs::path>(rows[0]["path"].get<std::string>());
}

std::size_t UnitRegister::add_units(const std::vector<Value>& units, const records::SigningKey& key) const
{
    std::size_t added = 0;
    database_.in_one_step([&] {
        for (auto unit : units) {
            const auto asset = unit.at("asset").get<std::string>();
            if (asset.empty()) {
                throw InputError("unit", "no asset number", "the number by which the organisation knows the unit");
            }
            if (database_.run("SELECT 1 FROM unit WHERE asset = ?", {asset}).empty()) {
                add_event("unit", nullptr, unit.dump(), key);
                unit["added"] = moment_now();
                database_.insert("unit", unit);
                keep_standing(database_, asset);
                ++added;
            }
        }
    });
    return added;
}

void UnitRegister::approve(const Value& file, const records::SigningKey& key) const
{
    database_.in_one_step([&] { add_event("approved", nullptr, file.dump(), key); });
}

Rows UnitRegister::approved() const
{
    auto files = Rows::array();
    for (const auto& row : database_.run("SELECT time, body FROM event WHERE kind = 'approved' ORDER BY number")) {
        auto file = Rows(records::parse_ordered_json(row["body"].get<std::string>()));
        file["approved"] = row["time"];
        files.push_back(std::move(file));
    }
    return files;
}

} // namespace zeroline::unit_register
