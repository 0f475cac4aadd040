#pragma once

#include "analysis/verification/comparisons.hpp"
#include "analysis/verification/judgement_hindrances.hpp"

#include <vector>

namespace zeroline::verification {

/// A judgement and the two questions it counts for.
struct Judged {
    Judgement judgement;
    bool for_verdict = false;
    bool for_unit = false;
};

/// Every judgement of a preset, in the order in which it is printed: the measurands of the automatic spans,
/// battery less mains, the displays, the ladder.
[[nodiscard]] std::vector<Judged> judge(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& all,
                                        const Preset& preset);

/// One comparison, by the six steps of docs/method.md.
[[nodiscard]] Judgement judge(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& all,
                              const Comparison& comparison);

/// The reason "too-few-cycles", with what asks for more.
[[nodiscard]] Reason too_few_cycles(const MeasuredTrace& measured_trace, int judged, int needed);

/// The two displays of a preset against the mean plateaus; empty where the run log says nothing about displays.
[[nodiscard]] std::vector<Judgement> judge_displays(const MeasuredTrace& measured_trace,
                                                    const std::vector<Hindrance>& all, const Preset& preset);

/// The plateaus on battery less those on mains, where a preset ran on both at the same setting; else empty.
[[nodiscard]] std::vector<Judgement> judge_battery(const MeasuredTrace& measured_trace,
                                                   const std::vector<Hindrance>& all, const Preset& preset);

/// What the run log says the unit displayed, or none.
[[nodiscard]] std::optional<double> displayed_value(const Evidence& evidence, const std::string& preset,
                                                    bool insufflation);

} // namespace zeroline::verification
