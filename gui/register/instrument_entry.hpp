#pragma once

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::trace {
struct Instrument;
}

namespace zeroline::unit_register {

/// What the register keeps of an instrument: rows of its tables, by column.
struct InstrumentEntry {
    nlohmann::json instrument;
    std::vector<nlohmann::json> checks; ///< one a point
};

/// Where a row of `checks` is from: a certificate of calibration, or a second gauge held beside the instrument here.
inline constexpr const char* kCalibration = "calibration";
inline constexpr const char* kSecondGauge = "second gauge";
inline constexpr const char* kSimulatedGauge = "second gauge, simulated";

/// Who it is, and the points of the calibration that its file states; uncertainties at the factor 2.
[[nodiscard]] InstrumentEntry entry_of(const trace::Instrument& instrument);

/// The checks beside an instrument file (records::checks_file()), and what that file itself states if it is there.
/// Throws trace::InputError.
[[nodiscard]] InstrumentEntry read_instrument_entry(const std::filesystem::path& checks_file);
/// Whether a path is that of such a file: NAME.checks.json.
[[nodiscard]] bool is_checks_file(const std::filesystem::path& path);

} // namespace zeroline::unit_register
