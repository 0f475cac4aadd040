#pragma once

#include "analysis/verification/exclusions.hpp"
#include "analysis/verification/findings/sensor_signs.hpp"
#include "analysis/verification/measured_trace.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

/// Cycling at one setting: the automatic spans of a preset together, or one ladder span.
struct Group {
    std::string preset;
    bool ladder = false;
    const Preset* prescribed = nullptr;
    Preset set;     ///< what the unit was set to (automatic spans: of the first)
    Preset nominal; ///< what it is judged against: prescribed, in a ladder set
    std::vector<const MeasuredSpan*> spans;
    std::vector<const Cycle*> judged;
    std::vector<const Cycle*> whole; ///< both halves seen, lead cycles included, none that is out
};

/// What every finding looks at: the measured trace, and what more than one of them asks of it.
struct FindingBasis {
    explicit FindingBasis(const MeasuredTrace& measured_trace);

    const MeasuredTrace& measured_trace;
    const WorkOrder& order;
    const HouseProfile& house;
    std::vector<Group> groups;
    std::vector<Hole> holes;
    std::vector<Exclusion> exclusions;
    LowerEnd lower_end;

    [[nodiscard]] std::vector<std::string> all_measurands() const;
    [[nodiscard]] std::vector<std::string> pressure_measurands() const;
    /// Indices of the cycles that overlap a stretch of time.
    [[nodiscard]] std::vector<int> cycles_between(double from_s, double to_s) const;
    [[nodiscard]] signal::Samples samples_between(double from_s, double to_s) const;
};

using Findings = std::vector<Finding>;

/// The phase of a cycle; null where it has none.
[[nodiscard]] const std::optional<signal::Phase>& phase_of(const Cycle& cycle, signal::PhaseKind kind);
[[nodiscard]] const PhaseSetting& setting_of(const Preset& preset, signal::PhaseKind kind);
[[nodiscard]] std::string word_of(signal::PhaseKind kind);
[[nodiscard]] const std::string& pressure_of(signal::PhaseKind kind);
[[nodiscard]] const std::string& duration_of(signal::PhaseKind kind);
[[nodiscard]] double end_s(const Cycle& cycle);

/// One value a cycle that has it, with the cycle.
struct Value {
    const Cycle* cycle = nullptr;
    double value = 0.0;
};
[[nodiscard]] std::vector<Value> plateaus(const std::vector<const Cycle*>& cycles, signal::PhaseKind kind);
/// As they are judged: by the 10/30 line, or mid-level where the tolerance says so. A rest of a series is no pause.
[[nodiscard]] std::vector<Value> durations(const std::vector<const Cycle*>& cycles, signal::PhaseKind kind);
[[nodiscard]] std::vector<Value> residuals(const std::vector<const Cycle*>& cycles, double pause_level_cmH2O);
/// Outside its limits, and not by the uncertainty of a value that judges nothing.
[[nodiscard]] bool is_outside(const Value& value, const std::string& measurand, const metrology::Limits& limits);
[[nodiscard]] std::vector<double> numbers(const std::vector<Value>& values);
[[nodiscard]] std::optional<double> mean_of(const std::vector<Value>& values);
[[nodiscard]] std::optional<double> median_of(const std::vector<Value>& values);

inline constexpr signal::PhaseKind kInsufflation = signal::PhaseKind::insufflation;
inline constexpr signal::PhaseKind kExsufflation = signal::PhaseKind::exsufflation;
inline constexpr signal::PhaseKind kPause = signal::PhaseKind::pause;

} // namespace zeroline::verification
