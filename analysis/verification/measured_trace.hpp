#pragma once

#include "analysis/verification/assessment.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// A cycling span with its phases measured.
struct MeasuredSpan {
    std::size_t index = 0; ///< into the run log's spans
    Span span;
    const Preset* prescribed = nullptr; ///< never null
    Preset set;                         ///< as prescribed, with what the unit was set to put in
    std::size_t first = 0, last = 0;    ///< samples [first, last) of the trace
    std::vector<signal::Phase> phases;  ///< sample indices count from the trace's first sample
    bool reversed = false;              ///< paired exsufflation first
};

/// A phase that a cycle should have had and did not.
struct MissingPhase {
    std::size_t span = 0; ///< index into MeasuredTrace::spans
    int cycle = 0;        ///< index of the half cycle in MeasuredTrace::cycles (Cycle::index)
    signal::PhaseKind which = signal::PhaseKind::insufflation;
    bool counts = false; ///< judged as a fail (docs/method.md), not only a finding
};

/// A stretch of identical readings.
struct ConstantRun {
    std::size_t first = 0, last = 0; ///< samples [first, last)
    double from_s = 0.0, to_s = 0.0;
    double value_cmH2O = 0.0;
    [[nodiscard]] double length_s() const noexcept { return to_s - from_s; }
    [[nodiscard]] std::size_t size() const noexcept { return last - first; }
};

/// What the readings are like before anything is measured; taken from them once, for a trace may be long.
struct Readings {
    double lowest_cmH2O = 0.0, highest_cmH2O = 0.0;
    std::vector<ConstantRun> constant; ///< of at least five samples and 0.03 s, in order
    std::vector<std::size_t> late;     ///< samples more than 1.5 intervals after the one before
};

/// Everything that was measured, before anything is judged: what findings and judgements look at.
struct MeasuredTrace {
    const Evidence* evidence = nullptr; ///< never null
    signal::Samples samples;            ///< whole trace, zero subtracted
    Readings readings;
    ZeroReadings zero;
    double noise_cmH2O = 0.0;
    double larger_plateau_cmH2O = 0.0;
    std::vector<MeasuredSpan> spans; ///< manual, automatic and ladder spans, in order
    std::vector<Cycle> cycles;
    std::vector<MissingPhase> missing;
    std::vector<LeakRate> leaks;
    std::vector<Strength> strength;
};

/// The span that a cycle lies in.
[[nodiscard]] const MeasuredSpan& span_of(const MeasuredTrace& measured_trace, const Cycle& cycle);

/// Names of the measurands, as they stand in a record.
namespace measurand {
inline const std::string insufflation_pressure = "insufflation-pressure";
inline const std::string exsufflation_pressure = "exsufflation-pressure";
inline const std::string insufflation_duration = "insufflation-duration";
inline const std::string exsufflation_duration = "exsufflation-duration";
inline const std::string pause_duration = "pause-duration";
inline const std::string pause_residual = "pause-residual";
inline const std::string return_to_zero = "return-to-zero";
inline const std::string displayed_insufflation = "displayed-insufflation-pressure";
inline const std::string displayed_exsufflation = "displayed-exsufflation-pressure";
inline const std::string battery_insufflation = "battery-insufflation-difference";
inline const std::string battery_exsufflation = "battery-exsufflation-difference";
inline const std::string oscillation_frequency = "oscillation-frequency";
inline const std::string oscillation_amplitude = "oscillation-amplitude";
} // namespace measurand

/// The tolerance of a measurand: the order's own, else the house profile's; its basis is always filled in.
[[nodiscard]] Tolerance tolerance_of(const std::string& measurand, const WorkOrder& order, const HouseProfile& house);

/// Limits of a measurand against a nominal preset (prescribed or set). Both null: reported, not judged.
[[nodiscard]] metrology::Limits limits_of(const std::string& measurand, const Preset& nominal, const WorkOrder& order,
                                          const HouseProfile& house);

/// A preset's value of a measurand; none where it has none (displays, return to zero).
[[nodiscard]] std::optional<double> nominal_of(const std::string& measurand, const Preset& nominal);

} // namespace zeroline::verification
