#include "gui/register/schema.hpp"

#include "gui/register/unit_standing.hpp"

#include <QDateTime>

namespace zeroline::unit_register {

namespace {

using Step = std::vector<std::string>;

/// A step is the same on both databases. Two things differ in how they are written: a text's order, which on a server
/// is that of its bytes only if one says so, and a trigger.
std::string on_server(std::string statement)
{
    const std::string text = " TEXT", by_bytes = R"( TEXT COLLATE "C")";
    for (auto at = statement.find(text); at != std::string::npos; at = statement.find(text, at + by_bytes.size())) {
        statement.replace(at, text.size(), by_bytes);
    }
    return statement;
}

Step keep_in_file(const std::string& table)
{
    Step triggers;
    for (const std::string change : {"UPDATE", "DELETE"}) {
        triggers.push_back("CREATE TRIGGER " + table + "_keeps_" + change + " BEFORE " + change + " ON " + table +
                           " BEGIN SELECT RAISE(ABORT, 'the register only grows: " + table +
                           " rows are never changed or removed'); END");
    }
    return triggers;
}

Step keep_on_server(const std::string& table)
{
    return {"CREATE OR REPLACE FUNCTION the_register_only_grows() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE "
            "EXCEPTION 'the register only grows: % rows are never changed or removed', TG_TABLE_NAME; END $$",
            "CREATE TRIGGER " + table + "_keeps BEFORE UPDATE OR DELETE OR TRUNCATE ON " + table +
                " FOR EACH STATEMENT EXECUTE FUNCTION the_register_only_grows()"};
}

/// Stands in a step for the triggers that keep a table's rows.
constexpr const char* kKeep = "KEEP ";
/// Stands before a statement that a server needs not.
constexpr const char* kInFile = "FILE ";
/// Stands in a step for taking how every unit stands from its verifications.
constexpr const char* kStanding = "STANDING";

Step first_step()
{
    return {
        "CREATE TABLE unit (asset TEXT PRIMARY KEY, serial TEXT NOT NULL, model TEXT NOT NULL)",
        "CREATE TABLE instrument (name TEXT NOT NULL, serial TEXT NOT NULL, certificate TEXT NOT NULL, "
        "calibrated_on TEXT NOT NULL, calibration_due TEXT NOT NULL, PRIMARY KEY (name, serial))",
        "CREATE TABLE verification (record_number TEXT PRIMARY KEY, asset TEXT NOT NULL REFERENCES unit (asset), "
        "instrument_name TEXT, instrument_serial TEXT, work_order TEXT NOT NULL, occasion TEXT NOT NULL, "
        "day TEXT NOT NULL, began_utc TEXT NOT NULL, verdict TEXT NOT NULL, unit_accuracy TEXT NOT NULL, "
        "critical INTEGER NOT NULL, "
        "origin TEXT NOT NULL CHECK (origin IN ('captured-here', 'imported', 'simulated')), signer TEXT NOT NULL, "
        "signed TEXT NOT NULL, signing_key TEXT NOT NULL, manifest_sha256 TEXT NOT NULL, next_due TEXT, "
        "FOREIGN KEY (instrument_name, instrument_serial) REFERENCES instrument (name, serial))",
        "CREATE INDEX verification_of_unit ON verification (asset, began_utc)",
        "CREATE INDEX verification_by_instrument ON verification (instrument_serial, day)",
        "CREATE TABLE figure (record_number TEXT NOT NULL REFERENCES verification (record_number), "
        "place INTEGER NOT NULL, measurand TEXT NOT NULL, preset TEXT NOT NULL, compared_with TEXT NOT NULL, "
        "unit TEXT NOT NULL, target DOUBLE PRECISION, lower_limit DOUBLE PRECISION, upper_limit DOUBLE PRECISION, "
        "mean DOUBLE PRECISION, mean_uncertainty DOUBLE PRECISION, worst DOUBLE PRECISION, "
        "worst_uncertainty DOUBLE PRECISION, verdict TEXT NOT NULL, PRIMARY KEY (record_number, place))",
        "CREATE TABLE event (number INTEGER PRIMARY KEY, time TEXT NOT NULL, kind TEXT NOT NULL, "
        "record_number TEXT NOT NULL REFERENCES verification (record_number), body TEXT NOT NULL, "
        "before_sha256 TEXT NOT NULL, sha256 TEXT NOT NULL UNIQUE)",
        "CREATE INDEX event_of_record ON event (record_number)",
        "CREATE TABLE folder (record_number TEXT PRIMARY KEY REFERENCES verification (record_number), "
        "path TEXT NOT NULL)",
        "KEEP verification",
        "KEEP figure",
        "KEEP event",
    };
}

/// Events are signed, and need no verification; units may come in before they are verified.
Step second_step()
{
    return {
        "ALTER TABLE unit ADD COLUMN added TEXT",
        "CREATE TABLE signed_event (number INTEGER PRIMARY KEY, time TEXT NOT NULL, kind TEXT NOT NULL, "
        "record_number TEXT REFERENCES verification (record_number), body TEXT NOT NULL, before_sha256 TEXT NOT NULL, "
        "sha256 TEXT NOT NULL UNIQUE, public_key TEXT NOT NULL, signature TEXT NOT NULL)",
        "INSERT INTO signed_event SELECT number, time, kind, record_number, body, before_sha256, sha256, '', '' FROM "
        "event",
        "DROP TABLE event",
        "ALTER TABLE signed_event RENAME TO event",
        "CREATE INDEX event_of_record ON event (record_number)",
        "CREATE INDEX event_of_kind ON event (kind)",
        "KEEP event",
    };
}

/// A chain of events for each bench; what instruments showed at their calibrations; indexes from which the newest
/// verification of a unit, and a record by its number or order, are read without the rows.
Step third_step()
{
    return {
        "ALTER TABLE event ADD COLUMN own_before_sha256 TEXT",
        "CREATE INDEX event_of_bench ON event (public_key, number)",
        "CREATE TABLE instrument_check (instrument_name TEXT NOT NULL, instrument_serial TEXT NOT NULL, "
        "certificate TEXT NOT NULL, day TEXT NOT NULL, place INTEGER NOT NULL, next_due TEXT NOT NULL, "
        "unit TEXT NOT NULL, reference DOUBLE PRECISION NOT NULL, indicated DOUBLE PRECISION NOT NULL, "
        "expanded_uncertainty DOUBLE PRECISION NOT NULL, allowed_drift DOUBLE PRECISION, "
        "PRIMARY KEY (instrument_name, instrument_serial, day, certificate, place), "
        "FOREIGN KEY (instrument_name, instrument_serial) REFERENCES instrument (name, serial))",
        "KEEP instrument_check",
        "DROP INDEX verification_of_unit",
        "CREATE INDEX verification_of_unit ON verification (asset, began_utc, record_number)",
        "CREATE INDEX verification_of_unit_from ON verification (asset, origin, began_utc, record_number)",
        "FILE CREATE INDEX verification_by_words ON verification (asset, LOWER(record_number || ' ' || work_order))",
    };
}

/// Where a check of an instrument is from, and the limit of a second gauge's errors; the procedure a run went by; who
/// signed, the record and each addendum.
Step fourth_step()
{
    return {
        "ALTER TABLE instrument_check ADD COLUMN kind TEXT",
        "ALTER TABLE instrument_check ADD COLUMN error_limit DOUBLE PRECISION",
        "CREATE TABLE procedure (record_number TEXT PRIMARY KEY REFERENCES verification (record_number), "
        "name TEXT NOT NULL, revision TEXT NOT NULL, sha256 TEXT NOT NULL)",
        "KEEP procedure",
        "CREATE TABLE signature (record_number TEXT NOT NULL REFERENCES verification (record_number), "
        "addendum TEXT NOT NULL, kind TEXT NOT NULL, signer TEXT NOT NULL, role TEXT NOT NULL, "
        "meaning TEXT NOT NULL, signed TEXT NOT NULL, PRIMARY KEY (record_number, addendum))",
        "KEEP signature",
    };
}

/// Why a unit was kept out of use after a verification, and what stood in for it.
Step fifth_step()
{
    return {
        "CREATE TABLE kept_out (record_number TEXT PRIMARY KEY REFERENCES verification (record_number), "
        "reason TEXT NOT NULL, loaner TEXT NOT NULL)",
        "KEEP kept_out",
    };
}

/// How a unit stands, in its own row (unit_standing.hpp).
Step sixth_step()
{
    return {
        "ALTER TABLE unit ADD COLUMN last_record TEXT",
        "ALTER TABLE unit ADD COLUMN held_record TEXT",
        "ALTER TABLE unit ADD COLUMN next_due TEXT",
        "ALTER TABLE unit ADD COLUMN state TEXT",
        "ALTER TABLE unit ADD COLUMN verifications INTEGER",
        "ALTER TABLE unit ADD COLUMN listed INTEGER",
        "ALTER TABLE unit ADD COLUMN words TEXT",
        kStanding,
        "FILE DROP INDEX verification_by_words",
    };
}

const std::vector<Step>& steps()
{
    static const std::vector<Step> all = {first_step(),  second_step(), third_step(),
                                          fourth_step(), fifth_step(),  sixth_step()};
    return all;
}

void take(const Database& database, const std::string& statement)
{
    if (statement == kStanding) {
        keep_every_standing(database);
        return;
    }
    if (statement.starts_with(kInFile)) {
        if (!database.is_on_server()) {
            database.run(statement.substr(std::string(kInFile).size()));
        }
        return;
    }
    if (!statement.starts_with(kKeep)) {
        database.run(database.is_on_server() ? on_server(statement) : statement);
        return;
    }
    const auto table = statement.substr(std::string(kKeep).size());
    for (const auto& one : database.is_on_server() ? keep_on_server(table) : keep_in_file(table)) {
        database.run(one);
    }
}

std::size_t form_of(const Database& database)
{
    const auto* there = database.is_on_server() ? "SELECT 1 FROM pg_catalog.pg_tables WHERE schemaname = 'zeroline' "
                                                  "AND tablename = 'migration'"
                                                : "SELECT 1 FROM sqlite_master WHERE name = 'migration'";
    return database.run(there).empty() ? 0
                                       : database.run("SELECT COALESCE(MAX(number), 0) AS done FROM migration")
                                             .front()["done"]
                                             .get<std::size_t>();
}

/// Those of the roles that the server has may do what their names say. They own nothing: no trigger is theirs to drop.
void grant(const Database& database)
{
    const auto to = [&](const std::string& role, const std::vector<std::string>& rights) {
        if (!database.run("SELECT 1 FROM pg_catalog.pg_roles WHERE rolname = ?", {role}).empty()) {
            for (const auto& right : rights) {
                database.run("GRANT " + right + " TO " + role);
            }
        }
    };
    to("zeroline_reader", {"USAGE ON SCHEMA zeroline", "SELECT ON ALL TABLES IN SCHEMA zeroline"});
    to("zeroline_writer", {"USAGE ON SCHEMA zeroline", "SELECT ON ALL TABLES IN SCHEMA zeroline",
                           "INSERT ON unit, instrument, instrument_check, verification, procedure, kept_out, figure, "
                           "signature, event, folder",
                           "UPDATE ON unit, instrument, folder"});
}

void take_steps(const Database& database, const std::string& now, std::size_t until)
{
    if (database.is_on_server()) {
        database.run("CREATE SCHEMA IF NOT EXISTS zeroline");
    }
    take(database, "CREATE TABLE IF NOT EXISTS migration (number INTEGER PRIMARY KEY, time TEXT NOT NULL)");
    for (auto i = form_of(database); i < until; ++i) {
        for (const auto& statement : steps()[i]) {
            take(database, statement);
        }
        database.run("INSERT INTO migration (number, time) VALUES (?, ?)", {i + 1, now});
    }
    if (database.is_on_server()) {
        grant(database);
    }
}

} // namespace

std::size_t newest_form() { return steps().size(); }

void migrate(const Database& database, const std::string& now, std::size_t until)
{
    const auto form = form_of(database);
    if (form > newest_form()) {
        throw trace::InputError(database.shown(), "has form " + std::to_string(form) + " of a newer program",
                                "a register of form " + std::to_string(newest_form()) + " at most");
    }
    if (form < until) {
        database.in_one_step([&] { take_steps(database, now, until); });
    }
}

const std::vector<std::string>& tables()
{
    static const std::vector<std::string> all = {"unit",      "instrument", "instrument_check", "verification",
                                                 "procedure", "kept_out",   "figure",           "signature",
                                                 "event",     "folder"};
    return all;
}

std::string moment_now()
{
    const auto moment = QDateTime::currentDateTime();
    return moment.toOffsetFromUtc(moment.offsetFromUtc()).toString(Qt::ISODate).toStdString();
}

} // namespace zeroline::unit_register
