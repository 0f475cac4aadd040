#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"

#include <set>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

/// The newest verification of each unit among some of them.
std::string newest(const std::string& condition)
{
    return "(SELECT * FROM (SELECT v.*, ROW_NUMBER() OVER (PARTITION BY asset ORDER BY began_utc DESC, record_number "
           "DESC) AS age FROM verification v WHERE " +
           condition + ") AS numbered WHERE age = 1)";
}

constexpr const char* kVerification =
    "v.record_number, v.asset, u.serial, u.model, v.day, v.occasion, v.verdict, v.unit_accuracy, v.critical, v.origin, "
    "v.next_due, v.instrument_name, v.instrument_serial, v.signer, v.work_order, f.path AS folder ";
constexpr const char* kFrom =
    "FROM verification v JOIN unit u ON u.asset = v.asset LEFT JOIN folder f ON f.record_number = v.record_number ";

} // namespace

Rows UnitRegister::units() const
{
    return database_.run("SELECT u.asset, u.serial, u.model, n.verifications, l.day AS last_day, l.verdict, l.origin, "
                         "h.next_due FROM unit u "
                         "JOIN (SELECT asset, COUNT(*) AS verifications FROM verification GROUP BY asset) AS n "
                         "ON n.asset = u.asset JOIN " +
                         newest("TRUE") + " AS l ON l.asset = u.asset LEFT JOIN " + newest("origin = 'captured-here'") +
                         " AS h ON h.asset = u.asset ORDER BY u.asset");
}

Rows UnitRegister::due(const std::string& today, const std::string& last_day) const
{
    return database_.run(
        "SELECT asset, serial, model, next_due, state, last_day, verdict, record_number FROM "
        "(SELECT u.asset, u.serial, u.model, h.next_due, h.day AS last_day, h.verdict, h.record_number, "
        "CASE WHEN h.record_number IS NULL THEN 'never checked here' "
        "WHEN h.next_due IS NOT NULL AND h.next_due < ? THEN 'overdue' WHEN h.next_due IS NOT NULL THEN 'due' "
        "WHEN h.verdict IN ('pass', 'conditional-pass') AND h.unit_accuracy IN ('pass', 'conditional-pass', "
        "'not-judged') AND h.critical = 0 THEN 'no interval set' ELSE 'not released' END AS state FROM unit u LEFT "
        "JOIN " +
            newest("origin = 'captured-here'") +
            " AS h ON h.asset = u.asset WHERE EXISTS (SELECT 1 FROM verification v WHERE v.asset = u.asset AND "
            "v.origin <> 'simulated')) AS listed WHERE next_due IS NULL OR next_due <= ? "
            "ORDER BY CASE state WHEN 'not released' THEN 0 WHEN 'never checked here' THEN 1 WHEN 'no interval set' "
            "THEN 3 ELSE 2 END, next_due, asset",
        {today, last_day});
}

Rows UnitRegister::history(const std::string& asset) const
{
    if (database_.run("SELECT 1 FROM unit WHERE asset = ?", {asset}).empty()) {
        throw InputError(asset, "is no unit of this register", "an asset number that 'zeroline register units' lists");
    }
    return database_.run(std::string("SELECT ") + kVerification + kFrom +
                             "WHERE v.asset = ? ORDER BY v.began_utc, v.record_number",
                         {asset});
}

Rows UnitRegister::figures_of(const std::string& asset) const
{
    return database_.run("SELECT v.day, v.next_due, g.* FROM verification v JOIN figure g ON g.record_number = "
                         "v.record_number WHERE v.asset = ? AND v.origin = 'captured-here' ORDER BY v.began_utc, "
                         "v.record_number, g.place",
                         {asset});
}

Rows UnitRegister::touched_by(const std::string& instrument, const std::string& since) const
{
    if (database_.run("SELECT 1 FROM instrument WHERE serial = ? OR name = ?", {instrument, instrument}).empty()) {
        throw InputError(instrument, "is no instrument of this register",
                         "the serial number or name of one that a registered record was made with");
    }
    return database_.run(std::string("SELECT ") + kVerification + kFrom +
                             "WHERE (v.instrument_serial = ? OR v.instrument_name = ?) AND v.day >= ? ORDER BY "
                             "v.began_utc, v.record_number",
                         {instrument, instrument, since});
}

Rows UnitRegister::everything() const
{
    return database_.run(std::string("SELECT ") + kVerification +
                         ", v.manifest_sha256, g.measurand, g.preset, g.compared_with, g.unit, g.target, "
                         "g.lower_limit, g.upper_limit, g.mean, g.mean_uncertainty, g.worst, g.worst_uncertainty, "
                         "g.verdict AS figure_verdict " +
                         kFrom +
                         "LEFT JOIN figure g ON g.record_number = v.record_number ORDER BY v.began_utc, "
                         "v.record_number, g.place");
}

std::vector<fs::path> UnitRegister::places() const
{
    std::set<fs::path> all;
    for (const auto& row : database_.run("SELECT path FROM folder")) {
        all.insert(fs::path(row["path"].get<std::string>()).parent_path());
    }
    return {all.begin(), all.end()};
}

} // namespace zeroline::unit_register
