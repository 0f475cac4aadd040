#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

/// One question to a record: a measurand of a preset against one reference, over the spans that can answer it.
struct Comparison {
    std::string measurand;
    const Preset* prescribed = nullptr; ///< never null
    std::string against;                ///< "prescribed", "set"
    Preset nominal;                     ///< what is compared with
    std::vector<std::size_t> spans;     ///< positions in MeasuredTrace::spans
    int needed = 1;                     ///< judged cycles
    bool ladder = false;
    bool for_verdict = false;
    bool for_unit = false;
    std::string power = {}; ///< "mains", "battery" where the preset ran on both and each has its own row; else empty
};

/// Everything a record is asked about a preset, displays apart, in the order in which it is printed. An automatic span
/// is asked against what is prescribed, and against what was set where that differs; a ladder span against set only.
[[nodiscard]] std::vector<Comparison> comparisons(const MeasuredTrace& measured_trace, const Preset& preset);

/// The automatic spans of a preset, positions in MeasuredTrace::spans: those on battery, and all others.
struct PowerSpans {
    std::vector<std::size_t> mains, battery;
};
[[nodiscard]] PowerSpans spans_by_power(const MeasuredTrace& measured_trace, const Preset& preset);

/// Judged cycles that the order asks for; as many again where one was left out as unlike the others.
[[nodiscard]] int cycles_needed(const MeasuredTrace& measured_trace);

/// Whether a pause that is no rest was seen after a judged cycle of these spans.
[[nodiscard]] bool pause_seen(const MeasuredTrace& measured_trace, const std::vector<std::size_t>& spans);

/// The judged cycles of these spans.
[[nodiscard]] std::vector<const Cycle*> judged_cycles(const MeasuredTrace& measured_trace,
                                                      const std::vector<std::size_t>& spans);

} // namespace zeroline::verification
