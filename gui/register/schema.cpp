#include "gui/register/schema.hpp"

#include "acquisition/trace/input_error.hpp"

namespace zeroline::unit_register {

namespace {

using Step = std::vector<std::string>;

std::string keep(const std::string& table, const std::string& change)
{
    return "CREATE TRIGGER " + table + "_keeps_" + change + " BEFORE " + change + " ON " + table +
           " BEGIN SELECT RAISE(ABORT, 'the register only grows: " + table +
           " rows are never changed or removed'); END";
}

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
        keep("verification", "UPDATE"),
        keep("verification", "DELETE"),
        keep("figure", "UPDATE"),
        keep("figure", "DELETE"),
        keep("event", "UPDATE"),
        keep("event", "DELETE"),
    };
}

const std::vector<Step>& steps()
{
    static const std::vector<Step> all = {first_step()};
    return all;
}

std::size_t done(const Database& database)
{
    return database.run("SELECT COALESCE(MAX(number), 0) AS done FROM migration").front()["done"].get<std::size_t>();
}

} // namespace

void migrate(const Database& database, const std::string& now)
{
    database.in_one_step([&] {
        database.run("CREATE TABLE IF NOT EXISTS migration (number INTEGER PRIMARY KEY, time TEXT NOT NULL)");
        const auto from = done(database);
        if (from > steps().size()) {
            throw trace::InputError(database.shown(), "has form " + std::to_string(from) + " of a newer program",
                                    "a register of form " + std::to_string(steps().size()) + " at most");
        }
        for (std::size_t i = from; i < steps().size(); ++i) {
            for (const auto& statement : steps()[i]) {
                database.run(statement);
            }
            database.run("INSERT INTO migration (number, time) VALUES (?, ?)", {i + 1, now});
        }
    });
}

} // namespace zeroline::unit_register
