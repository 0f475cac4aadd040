#include "gui/register/instrument_entry.hpp"

#include "acquisition/trace/instrument.hpp"
#include "acquisition/trace/units.hpp"
#include "gui/records/instrument_checks.hpp"
#include "gui/records/json_file.hpp"

#include <cstdint>
#include <string_view>

namespace zeroline::unit_register {

namespace fs = std::filesystem;
using nlohmann::json;
using verification::InstrumentCheck;

namespace {

constexpr double kCoverageFactor = 2.0;
constexpr std::string_view kEnding = ".checks.json";

/// What may come up between two calibrations: the entry `drift` of the instrument's uncertainty, as a half-width.
json allowed_drift(const trace::Instrument& instrument)
{
    for (const auto& entry : instrument.uncertainty) {
        if (entry.name == "drift") {
            return entry.distribution == trace::Spread::normal ? kCoverageFactor * entry.value : entry.value;
        }
    }
    return nullptr;
}

json row_of(const trace::Instrument& instrument)
{
    const auto& calibration = instrument.calibration;
    return {{"name", instrument.name},
            {"serial", instrument.serial},
            {"certificate", calibration.certificate},
            {"calibrated_on", calibration.on},
            {"calibration_due", calibration.due}};
}

/// `place` counts all points of the file, so that two checks of one day stay two.
json row_of(const InstrumentCheck& check, const verification::GaugePoint& point, std::int64_t place)
{
    return {{"kind", check.simulated ? kSimulatedGauge : kSecondGauge},
            {"certificate", check.gauge + (check.gauge_certificate.empty() ? "" : ", " + check.gauge_certificate)},
            {"day", check.on},
            {"place", place},
            {"next_due", check.due},
            {"unit", "cmH2O"},
            {"reference", point.gauge_cmH2O},
            {"indicated", point.reading_cmH2O},
            {"expanded_uncertainty", point.uncertainty_cmH2O},
            {"allowed_drift", nullptr},
            {"error_limit", check.limit_cmH2O}};
}

void put_checks(InstrumentEntry& entry, const verification::InstrumentChecks& all)
{
    std::int64_t place = 0;
    for (const auto& check : all.checks) {
        for (const auto& point : check.points) {
            entry.checks.push_back(row_of(check, point, place++));
            entry.checks.back().update({{"instrument_name", all.instrument}, {"instrument_serial", all.serial}});
        }
    }
}

} // namespace

InstrumentEntry entry_of(const trace::Instrument& instrument)
{
    const auto& calibration = instrument.calibration;
    InstrumentEntry entry{row_of(instrument), {}};
    for (const auto& point : calibration.points) {
        entry.checks.push_back(
            {{"instrument_name", instrument.name},
             {"instrument_serial", instrument.serial},
             {"kind", kCalibration},
             {"certificate", calibration.certificate},
             {"day", calibration.on},
             {"place", static_cast<std::int64_t>(entry.checks.size())},
             {"next_due", calibration.due},
             {"unit", std::string(trace::name_of(instrument.range.unit))},
             {"reference", point.reference},
             {"indicated", point.indicated},
             {"expanded_uncertainty", kCoverageFactor * calibration.expanded_uncertainty / calibration.coverage_factor},
             {"allowed_drift", allowed_drift(instrument)},
             {"error_limit", nullptr}});
    }
    return entry;
}

bool is_checks_file(const fs::path& path) { return path.filename().string().ends_with(kEnding); }

InstrumentEntry read_instrument_entry(const fs::path& checks_file)
{
    const auto text = checks_file.string();
    const fs::path instrument_file = text.substr(0, text.size() - kEnding.size()) + ".json";
    const auto all = records::load_instrument_checks(instrument_file);
    InstrumentEntry entry{{{"name", all.instrument},
                           {"serial", all.serial},
                           {"certificate", ""},
                           {"calibrated_on", ""},
                           {"calibration_due", ""}},
                          {}};
    if (std::error_code none; fs::exists(instrument_file, none)) {
        const auto tree = records::load_json(instrument_file);
        const auto stated = entry_of(records::reading(instrument_file, [&] { return trace::parse_instrument(tree); }));
        if (stated.instrument.at("name") == all.instrument && stated.instrument.at("serial") == all.serial) {
            entry = stated; // else it is another instrument's file by now
        }
    }
    put_checks(entry, all);
    return entry;
}

} // namespace zeroline::unit_register
