#include "analysis/verification/findings.hpp"

#include "analysis/all_cores.hpp"
#include "analysis/verification/findings/every_finding.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using Finder = Findings (*)(const Look&);

// In the order of docs/diagnosis.md: set-up first, because the set-up is doubted before the unit.
constexpr Finder kFinders[] = {breathing,
                               swapped_ports,
                               plug_off,
                               zero_offset,
                               zero_drift,
                               absolute_sensor,
                               unit_mismatch,
                               one_sided,
                               clipped,
                               stuck_reading,
                               calibration_lapsed,
                               outside_calibration,
                               gap,
                               discarded_bytes,
                               spikes,
                               undersampled,
                               hum,
                               wobble,
                               same_ratio_pressure,
                               same_shift_pressure,
                               settings_differ,
                               over_pressure,
                               reversed_order,
                               no_cycling,
                               missing_insufflation,
                               missing_exsufflation,
                               long_pause,
                               insufflation_off,
                               exsufflation_off,
                               display_differs,
                               slow_rise,
                               slow_swing,
                               slow_release,
                               irregular_swing,
                               irregular_timing,
                               one_duration_off,
                               same_ratio_timing,
                               overshoot,
                               droop,
                               residual_pressure,
                               slow_return,
                               trapped_gas,
                               oscillation,
                               oscillation_off,
                               pressure_drift,
                               ringing,
                               first_cycle,
                               series_ended,
                               cut_phase,
                               batched,
                               resolution_limited};

int rank(const Finding& finding)
{
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

std::vector<Finding> find(const Scene& scene)
{
    const Look look(scene);
    std::vector<Findings> found(std::size(kFinders));
    on_all_cores_if_long(scene.samples.size(), found.size(), [&](std::size_t i) { found[i] = kFinders[i](look); });
    std::vector<Finding> all;
    for (auto& some : found) {
        all.insert(all.end(), std::make_move_iterator(some.begin()), std::make_move_iterator(some.end()));
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return rank(a) < rank(b); });
    return all;
}

} // namespace zeroline::verification
