#include "analysis/verification/findings.hpp"

#include "analysis/all_cores.hpp"
#include "analysis/verification/findings/every_finding.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using Finder = Findings (*)(const FindingBasis&);

/// What looks for one finding, and whether its cautions speak of the unit: they wait until it is known that nothing
/// soft is at the hose end.
struct Entry {
    Finder find;
    bool of_unit;
};
constexpr bool kOfSetUp = false, kOfUnit = true;

// In the order of docs/diagnosis.md: set-up first, because the set-up is doubted before the unit.
constexpr Entry kFinders[] = {
    {soft_hose_end, kOfSetUp},
    {breathing, kOfSetUp},
    {swapped_ports, kOfSetUp},
    {plug_off, kOfSetUp},
    {set_up_leaks, kOfSetUp},
    {one_cycle_unlike, kOfSetUp},
    {zero_offset, kOfSetUp},
    {zero_drift, kOfSetUp},
    {absolute_sensor, kOfSetUp},
    {unit_mismatch, kOfSetUp},
    {one_sided, kOfSetUp},
    {clipped, kOfSetUp},
    {stuck_reading, kOfSetUp},
    {calibration_lapsed, kOfSetUp},
    {outside_calibration, kOfSetUp},
    {not_warmed_up, kOfSetUp},
    {room_temperature, kOfSetUp},
    {gap, kOfSetUp},
    {discarded_bytes, kOfSetUp},
    {spikes, kOfSetUp},
    {undersampled, kOfSetUp},
    {hum, kOfSetUp},
    {wobble, kOfUnit},
    {same_ratio_pressure, kOfUnit},
    {same_shift_pressure, kOfUnit},
    {settings_differ, kOfSetUp},
    {series_plan, kOfSetUp},
    {over_pressure, kOfUnit},
    {reversed_order, kOfUnit},
    {no_cycling, kOfSetUp},
    {missing_insufflation, kOfUnit},
    {missing_exsufflation, kOfUnit},
    {long_pause, kOfSetUp},
    {insufflation_off, kOfUnit},
    {exsufflation_off, kOfUnit},
    {display_differs, kOfUnit},
    {slow_rise, kOfUnit},
    {slow_swing, kOfUnit},
    {slow_release, kOfUnit},
    {irregular_swing, kOfUnit},
    {irregular_timing, kOfUnit},
    {one_duration_off, kOfUnit},
    {same_ratio_timing, kOfUnit},
    {overshoot, kOfUnit},
    {droop, kOfUnit},
    {residual_pressure, kOfUnit},
    {slow_return, kOfUnit},
    {trapped_gas, kOfUnit},
    {oscillation, kOfUnit},
    {oscillation_off, kOfUnit},
    {pressure_drift, kOfUnit},
    {strength_lost, kOfUnit},
    {ringing, kOfUnit},
    {first_cycle, kOfSetUp},
    {series_ended, kOfSetUp},
    {cut_phase, kOfSetUp},
    {batched, kOfSetUp},
    {resolution_limited, kOfSetUp},
};

/// Nobody has said that nothing soft is at the hose end.
bool in_doubt(const Finding& finding) { return finding.code == "soft-hose-end" && !finding.touches.empty(); }

int rank(const Finding& finding)
{
    if (in_doubt(finding))
        return -1;
    switch (finding.severity) {
    case Severity::critical:
        return 0;
    case Severity::caution:
        return 1;
    case Severity::note:
        break;
    }
    return 2;
}

} // namespace

std::vector<Finding> find(const MeasuredTrace& measured_trace)
{
    const FindingBasis basis(measured_trace);
    std::vector<Findings> found(std::size(kFinders));
    on_all_cores_if_long(measured_trace.samples.size(), found.size(),
                         [&](std::size_t i) { found[i] = kFinders[i].find(basis); });
    const bool doubted = !found.front().empty() && in_doubt(found.front().front());
    std::vector<Finding> all;
    for (std::size_t i = 0; i < found.size(); ++i) {
        for (auto& one : found[i]) {
            const bool waits = doubted && kFinders[i].of_unit && one.severity == Severity::caution;
            if (!waits)
                all.push_back(std::move(one));
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return rank(a) < rank(b); });
    return all;
}

} // namespace zeroline::verification
