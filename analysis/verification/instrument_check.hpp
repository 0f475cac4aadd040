#pragma once

#include "analysis/verification/run_log.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

/// A reading of the instrument beside that of a second gauge at the same tee; pressures in cmH2O, zero subtracted.
struct GaugePoint {
    double reading_cmH2O = 0.0;
    double gauge_cmH2O = 0.0;
    double uncertainty_cmH2O = 0.0; ///< expanded, k = 2, of the error
    [[nodiscard]] double error_cmH2O() const noexcept { return reading_cmH2O - gauge_cmH2O; }
};

/// An instrument held against a second gauge. The open line shows its zero; only this shows its span.
struct InstrumentCheck {
    enum class Outcome { within, outside, too_uncertain };

    std::string on, due; ///< days, YYYY-MM-DD; the check holds to the end of the second
    std::string done_by;
    std::string gauge, gauge_certificate;     ///< certificate: may be empty
    double gauge_uncertainty_cmH2O = 0.0;     ///< expanded, k = 2
    double limit_cmH2O = 1.0;                 ///< of each error, either way
    std::string limit_basis;                  ///< where the limit comes from
    double zero_cmH2O = 0.0, noise_cmH2O = 0; ///< of the open line before it
    std::vector<GaugePoint> points;           ///< two of each sign at least
    bool simulated = false;                   ///< made on the virtual bench: counts for simulated runs only

    /// Outside where an error is beyond the limit; what is as uncertain as the limit is wide says nothing, unless it
    /// lies outside by more than its uncertainty.
    [[nodiscard]] Outcome outcome() const;
    /// The error that is largest by magnitude.
    [[nodiscard]] double largest_error_cmH2O() const;
};

/// "within", "outside", "too-uncertain".
[[nodiscard]] std::string word_of(InstrumentCheck::Outcome outcome);

/// All checks of one instrument, schema zeroline/instrument-checks/1 (docs/instruments.md): the newest last.
struct InstrumentChecks {
    std::string instrument, serial; ///< as the instrument file names them
    std::vector<InstrumentCheck> checks;
};
/// Throws trace::InputError with a JSON pointer.
[[nodiscard]] InstrumentChecks parse_instrument_checks(const nlohmann::json& tree);
[[nodiscard]] nlohmann::ordered_json to_json(const InstrumentChecks& all);

/// The item of the checklist under which a run names the check of its instrument. An instrument that is not in order
/// leaves the verdict incomplete: nothing is said of the unit.
inline constexpr const char* kInstrumentItem = "instrument check";
/// What a run of `day` says of the newest check of its kind, simulated or not: in order; not applicable where it is
/// overdue; not in order where the instrument was outside its limit, or too uncertain to tell. Nothing without a check.
[[nodiscard]] std::optional<ChecklistItem> item_of(const InstrumentChecks& all, const std::string& day, bool simulated);

/// `days` later than `day`, both YYYY-MM-DD; `day` has to exist.
[[nodiscard]] std::string later_day(const std::string& day, int days);

} // namespace zeroline::verification
