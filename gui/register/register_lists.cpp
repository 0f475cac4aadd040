#include "gui/register/unit_register.hpp"

#include "analysis/verification/measurands.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using trace::InputError;
using verification::measurand_of;
using verification::MeasurandKind;

namespace {

/// What LIKE ... ESCAPE '!' finds `text` by, anywhere and as it is.
std::string anywhere(const std::string& text)
{
    std::string pattern = "%";
    for (const char letter : text) {
        pattern += letter == '%' || letter == '_' || letter == '!' ? std::string{'!', letter} : std::string{letter};
    }
    return pattern + "%";
}

std::string holds(std::initializer_list<const char*> columns)
{
    std::string condition;
    for (const auto* column : columns) {
        condition +=
            (condition.empty() ? "(LOWER(" : " OR LOWER(") + std::string(column) + ") LIKE LOWER(?) ESCAPE '!'";
    }
    return condition + ") ";
}

/// The same in a unit's words, which are small letters.
std::string in_words(const std::string& text)
{
    auto pattern = anywhere(text);
    std::transform(pattern.begin(), pattern.end(), pattern.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return pattern;
}

const std::string kUnit = "SELECT u.asset, u.serial, u.model, u.verifications, l.day AS last_day, l.verdict, l.origin, "
                          "u.next_due FROM unit u LEFT JOIN verification l ON l.record_number = u.last_record ";

/// The longest overdue first, behind those that need somebody to decide.
constexpr const char* kDueFirst =
    "ORDER BY CASE u.state WHEN 'kept out of use' THEN 0 WHEN 'not released' THEN 1 WHEN 'never checked here' THEN 2 "
    "WHEN 'no interval set' THEN 4 ELSE 3 END, u.next_due, u.asset";

/// Of instrument `i`: the day on which it is to be held against a second gauge again.
const std::string kCheckDue = std::string("(SELECT c.next_due FROM instrument_check c WHERE c.instrument_name = i.name "
                                          "AND c.instrument_serial = i.serial AND c.kind = '") +
                              kSecondGauge + "' ORDER BY c.day DESC, c.place DESC LIMIT 1) AS gauge_check_due";

constexpr const char* kPart = " LIMIT ? OFFSET ?";

constexpr const char* kVerification =
    "v.record_number, v.asset, u.serial, u.model, v.day, v.occasion, v.verdict, v.unit_accuracy, v.critical, v.origin, "
    "v.next_due, v.instrument_name, v.instrument_serial, v.signer, v.work_order, p.name || ' ' || p.revision AS "
    "procedure, "
    "f.path AS folder ";
constexpr const char* kFrom =
    "FROM verification v JOIN unit u ON u.asset = v.asset LEFT JOIN folder f ON f.record_number = v.record_number "
    "LEFT JOIN procedure p ON p.record_number = v.record_number ";

} // namespace

Rows UnitRegister::units(const Part& part) const
{
    return database_.run(kUnit + "WHERE u.words LIKE ? ESCAPE '!' ORDER BY u.asset" + kPart,
                         {in_words(part.search), part.count, part.first});
}

Rows UnitRegister::unit(const std::string& asset) const
{
    auto rows = database_.run(kUnit + "WHERE u.asset = ?", {asset});
    if (rows.empty()) {
        throw InputError(asset, "is no unit of this register", "an asset number that 'zeroline register units' lists");
    }
    return rows.front();
}

/// The part is taken first: only its units are looked up among the verifications.
Rows UnitRegister::due(const std::string& today, const std::string& last_day, const Part& part) const
{
    return database_.run(
        std::string("SELECT u.asset, u.serial, u.model, u.next_due, CASE WHEN u.state = 'due' AND u.next_due < ? THEN "
                    "'overdue' ELSE u.state END AS state, h.day AS last_day, h.verdict, h.record_number FROM "
                    "(SELECT asset, serial, model, next_due, state, held_record FROM unit u WHERE u.listed = 1 AND "
                    "u.words LIKE ? ESCAPE '!' AND (u.state = 'kept out "
                    "of use' OR u.next_due IS NULL OR u.next_due <= ?) ") +
            kDueFirst + kPart + ") AS u LEFT JOIN verification h ON h.record_number = u.held_record " + kDueFirst,
        {today, in_words(part.search), last_day, part.count, part.first});
}

Rows UnitRegister::instruments(const Part& part) const
{
    const auto search = anywhere(part.search);
    return database_.run("SELECT i.name, i.serial, i.certificate, i.calibrated_on, i.calibration_due, " + kCheckDue +
                             ", (SELECT COUNT(*) FROM verification v WHERE v.instrument_serial = i.serial AND "
                             "v.instrument_name = i.name) AS "
                             "verifications FROM instrument i WHERE " +
                             holds({"i.name", "i.serial"}) + "ORDER BY i.calibration_due, i.name, i.serial" + kPart,
                         {search, search, part.count, part.first});
}

Rows UnitRegister::instruments_called(const std::string& serial_or_name) const
{
    auto rows =
        database_.run("SELECT i.name, i.serial, i.certificate, i.calibrated_on, i.calibration_due, " + kCheckDue +
                          " FROM instrument i WHERE i.serial = ? OR i.name = ? ORDER BY i.name, i.serial",
                      {serial_or_name, serial_or_name});
    if (rows.empty()) {
        throw InputError(serial_or_name, "is no instrument of this register",
                         "the serial number or name of one that a registered record was made with");
    }
    return rows;
}

namespace {

/// The signer of the record, then those of its addenda: "Operator Three, Second Person (review)".
std::string everybody_who_signed(const Rows& visit, const Rows& signatures)
{
    auto all = visit["signer"].get<std::string>();
    for (const auto& one : signatures) {
        if (one["record_number"] == visit["record_number"] && one["addendum"] != "") {
            all += ", " + one["signer"].get<std::string>() + " (" + one["kind"].get<std::string>() + ")";
        }
    }
    return all;
}

} // namespace

Rows UnitRegister::history(const std::string& asset) const
{
    (void)unit(asset); // is there
    auto visits = database_.run(std::string("SELECT ") + kVerification + kFrom +
                                    "WHERE v.asset = ? ORDER BY v.began_utc, v.record_number",
                                {asset});
    const auto signatures = database_.run(
        "SELECT s.* FROM verification v JOIN signature s ON s.record_number = v.record_number WHERE v.asset = ? "
        "ORDER BY s.record_number, s.addendum",
        {asset});
    for (auto& visit : visits) {
        visit["signer"] = everybody_who_signed(visit, signatures);
    }
    return visits;
}

Rows UnitRegister::last_of(const std::string& asset, const std::string& origin, const std::string& before) const
{
    std::string condition = "WHERE v.asset = ? ";
    std::vector<Value> values{asset};
    const auto narrow = [&](const char* also, const std::string& value) {
        if (!value.empty()) {
            condition += also;
            values.emplace_back(value);
        }
    };
    narrow("AND v.origin = ? ", origin);
    narrow("AND v.began_utc < ? ", before.empty() ? before : in_utc(before));
    return database_.run(std::string("SELECT ") + kVerification + kFrom + condition +
                             "ORDER BY v.began_utc DESC, v.record_number DESC LIMIT 1",
                         values);
}

Rows UnitRegister::figures_of(const std::string& asset) const
{
    return database_.run("SELECT v.day, v.next_due, g.* FROM verification v JOIN figure g ON g.record_number = "
                         "v.record_number WHERE v.asset = ? AND v.origin = 'captured-here' ORDER BY v.began_utc, "
                         "v.record_number, g.place",
                         {asset});
}

namespace {

/// Of an instrument's checks; `limits` gives lower and upper one, `kind` which of them.
std::string checks_in_sql(const std::string& limits, const std::string& kind)
{
    return "SELECT day, next_due, certificate, unit, reference AS target, indicated AS mean, expanded_uncertainty AS "
           "mean_uncertainty, " +
           limits + " FROM instrument_check WHERE instrument_name = ? AND instrument_serial = ? AND " + kind +
           " ORDER BY day, certificate, place";
}

/// People meet a pressure by a little more or less: points of one multiple of `nearest` are one quantity.
Rows as_figures(Rows checks, const char* compared_with, long nearest)
{
    for (auto& row : checks) {
        const auto near = nearest * std::lround(row["target"].get<double>() / static_cast<double>(nearest));
        row["measurand"] = "instrument-error";
        row["preset"] = std::to_string(near) + ' ' + row["unit"].get<std::string>();
        row["compared_with"] = compared_with;
        row["verdict"] = nullptr; // no run judges it
    }
    return checks;
}

} // namespace

Rows UnitRegister::calibrations_of(const std::string& name, const std::string& serial) const
{
    const auto sql = checks_in_sql("indicated - allowed_drift AS lower_limit, indicated + allowed_drift AS upper_limit",
                                   "COALESCE(kind, ?) = ?");
    return as_figures(database_.run(sql, {name, serial, kCalibration, kCalibration}), "reference", 1);
}

Rows UnitRegister::gauge_checks_of(const std::string& name, const std::string& serial) const
{
    constexpr long kNearest_cmH2O = 10; // a syringe is held to some cmH2O
    const auto sql =
        checks_in_sql("reference - error_limit AS lower_limit, reference + error_limit AS upper_limit", "kind = ?");
    return as_figures(database_.run(sql, {name, serial, kSecondGauge}), kSecondGauge, kNearest_cmH2O);
}

Rows UnitRegister::pressures_since(const std::string& day) const
{
    return database_.run(
        "SELECT v.asset, v.record_number, v.instrument_name, v.instrument_serial, g.target, g.mean, g.mean_uncertainty "
        "FROM verification v JOIN figure g ON g.record_number = v.record_number WHERE v.origin = 'captured-here' AND "
        "v.day >= ? AND v.instrument_name IS NOT NULL AND g.measurand IN (?, ?) AND "
        " g.target IS NOT NULL AND g.mean IS NOT NULL AND g.mean_uncertainty IS NOT NULL AND "
        "(g.compared_with = 'set' OR (g.compared_with = 'prescribed' AND NOT EXISTS (SELECT 1 FROM figure s WHERE "
        "s.record_number = g.record_number AND s.compared_with = 'set'))) ORDER BY v.began_utc, v.record_number, "
        "g.place",
        {day, measurand_of(MeasurandKind::pressure, signal::PhaseKind::insufflation),
         measurand_of(MeasurandKind::pressure, signal::PhaseKind::exsufflation)});
}

Rows UnitRegister::touched_by(const std::string& instrument, const std::string& since, const Part& part) const
{
    const auto search = anywhere(part.search);
    (void)instruments_called(instrument); // is there
    return database_.run(
        std::string("SELECT ") + kVerification + kFrom +
            "WHERE (v.instrument_serial = ? OR v.instrument_name = ?) AND v.day >= ? AND " +
            holds({"u.asset", "u.serial", "u.model", "v.record_number", "v.work_order"}) +
            "ORDER BY v.began_utc DESC, v.record_number DESC" + kPart,
        {instrument, instrument, since, search, search, search, search, search, part.count, part.first});
}

Rows UnitRegister::everything() const
{
    return database_.run(std::string("SELECT ") + kVerification +
                         ", v.manifest_sha256, v.began_utc, v.signed, g.place, g.measurand, g.preset, g.compared_with, "
                         "g.unit, g.target, "
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
