#include "gui/register/unit_standing.hpp"

#include "gui/register/released.hpp"

#include <utility>

namespace zeroline::unit_register {

namespace {

/// The newest verification of the row's unit.
std::string newest(const std::string& condition)
{
    return "(SELECT v.record_number FROM verification v WHERE v.asset = unit.asset AND " + condition +
           " ORDER BY v.began_utc DESC, v.record_number DESC LIMIT 1)";
}

/// Of the newest verification that was captured here.
std::string of_held(const std::string& what)
{
    return "(SELECT " + what + " FROM verification h WHERE h.record_number = " + newest("v.origin = 'captured-here'") +
           ")";
}

/// A line each, so that a search never finds the end of one and the beginning of the next.
std::string words(const Database& database)
{
    const std::string joined = database.is_on_server() ? "STRING_AGG" : "GROUP_CONCAT";
    return "LOWER(unit.asset || '\n' || unit.serial || '\n' || unit.model || '\n' || COALESCE((SELECT " + joined +
           "(r.words, '\n') FROM (SELECT v.record_number || '\n' || v.work_order AS words FROM verification v WHERE "
           "v.asset = unit.asset ORDER BY v.record_number) AS r), ''))";
}

/// Columns of a unit's row, and what each is.
std::vector<std::pair<std::string, std::string>> standing(const Database& database)
{
    return {
        {"last_record", newest("TRUE")},
        {"held_record", newest("v.origin = 'captured-here'")},
        {"next_due", of_held("h.next_due")},
        {"state", "COALESCE(" +
                      of_held("CASE WHEN EXISTS (SELECT 1 FROM kept_out k WHERE k.record_number = h.record_number) "
                              "THEN 'kept out of use' WHEN h.next_due IS NOT NULL THEN 'due' WHEN " +
                              released_in_sql("h") + " THEN 'no interval set' ELSE 'not released' END") +
                      ", 'never checked here')"},
        {"verifications", "(SELECT COUNT(*) FROM verification v WHERE v.asset = unit.asset)"},
        {"listed", "CASE WHEN unit.added IS NOT NULL OR EXISTS (SELECT 1 FROM verification v WHERE v.asset = "
                   "unit.asset AND v.origin <> 'simulated') THEN 1 ELSE 0 END"},
        {"words", words(database)},
    };
}

std::string taking_anew(const Database& database)
{
    std::string columns;
    for (const auto& [column, what] : standing(database)) {
        columns += (columns.empty() ? "UPDATE unit SET " : ", ") + column + " = " + what;
    }
    return columns;
}

} // namespace

void keep_standing(const Database& database, const std::string& asset)
{
    database.run(taking_anew(database) + " WHERE asset = ?", {asset});
}

void keep_every_standing(const Database& database) { database.run(taking_anew(database)); }

std::vector<std::string> with_another_standing(const Database& database)
{
    std::string differs;
    for (const auto& [column, what] : standing(database)) {
        differs += (differs.empty() ? "" : " OR ") + ("unit." + column) + " IS DISTINCT FROM " + what;
    }
    std::vector<std::string> assets;
    for (const auto& row : database.run("SELECT asset FROM unit WHERE " + differs + " ORDER BY asset")) {
        assets.push_back(row["asset"].get<std::string>());
    }
    return assets;
}

} // namespace zeroline::unit_register
