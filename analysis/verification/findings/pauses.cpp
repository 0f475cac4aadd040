#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/shape.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

constexpr double kReturn_s = 0.5; // house, where the order gives no time
constexpr double kTailAfterMids = 5.0,
                 kTailAfter_s = 0.25; // the release itself is over by then; its middle shows no tail
constexpr double kShortestTail_s = 0.45, kLongestTail_s = 2.5;
constexpr double kSmallestTail = 0.025, kLargestTail = 0.35; // of the step, at the release
constexpr double kSmallestTail_cmH2O = 0.5;
constexpr double kTailUncertainties = 5.0;
constexpr double kTailShare = 0.7;
constexpr double kShareOfPauses = 0.6;

double return_limit_s(const FindingBasis& basis)
{
    return tolerance_of(measurand::return_to_zero, basis.order, basis.house).within_s.value_or(kReturn_s);
}

/// Cycles whose pause came into the band too late, or never (value: none seen).
struct Late {
    std::vector<Value> late;
    std::vector<const Cycle*> never;
    std::vector<Value> all;
};

Late late_returns(const FindingBasis& basis, const Group& group)
{
    Late result;
    for (const auto* cycle : group.judged) {
        const auto& pause = cycle->pause;
        if (!pause || !pause->entering || pause->cut_end)
            continue;
        if (!pause->return_to_band) {
            if (!pause->returned)
                result.never.push_back(cycle);
            continue;
        }
        result.all.push_back({cycle, pause->return_to_band->time_s - pause->entering->onset.time_s});
        if (result.all.back().value > return_limit_s(basis))
            result.late.push_back(result.all.back());
    }
    return result;
}

/// Size of a gas tail as a share of the step that the release made, and its time constant; none where there is no such
/// tail.
struct Tail {
    double share, time_constant_s;
};

std::optional<Tail> tail_of(const FindingBasis& basis, const signal::Phase& pause)
{
    if (!pause.entering)
        return std::nullopt;
    const double onset_s = pause.entering->onset.time_s, step = std::abs(pause.entering->from_cmH2O);
    const double from_s = onset_s + std::max(kTailAfterMids * (pause.entering->mid.time_s - onset_s), kTailAfter_s);
    const double to_s = pause.leaving ? pause.leaving->onset.time_s : pause.last_time_s;
    const auto tail = signal::exponential_tail(basis.samples_between(from_s, to_s), kShortestTail_s, kLongestTail_s,
                                               kSmallestTail_cmH2O);
    if (!tail || tail->share < kTailShare || tail->amplitude_cmH2O * pause.entering->from_cmH2O <= 0.0)
        return std::nullopt;
    const double size = std::abs(tail->amplitude_cmH2O);
    if (size < std::max(kSmallestTail_cmH2O, kTailUncertainties * tail->amplitude_u_cmH2O))
        return std::nullopt;
    const double share = size * std::exp((from_s - onset_s) / tail->time_constant_s) / step;
    return share > kSmallestTail && share < kLargestTail ? std::optional(Tail{share, tail->time_constant_s})
                                                         : std::nullopt;
}

} // namespace

Findings residual_pressure(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto limits = limits_of(measurand::pause_residual, group.nominal, basis.order, basis.house);
        const auto seen = residuals(group.judged, group.nominal.pause.pressure_cmH2O);
        std::vector<Value> off;
        std::copy_if(seen.begin(), seen.end(), std::back_inserter(off),
                     [&](const Value& value) { return is_outside(value, measurand::pause_residual, limits); });
        if (off.empty())
            continue;
        all.push_back(
            finding(basis, group, "residual-pressure", Severity::caution,
                    {"a valve that does not let the hose go to rest",
                     "the pauses stay " + in_words(*mean_of(seen)) + " cmH2O from the prescribed pause level",
                     "the zero first; then the unit's pause pressure setting, which some units have; then the valve"},
                    {{"mean_cmH2O", *mean_of(seen)}}, off));
    }
    return all;
}

Findings slow_return(const FindingBasis& basis)
{
    Findings all;
    const bool given = tolerance_of(measurand::return_to_zero, basis.order, basis.house).within_s.has_value();
    for (const auto& group : basis.groups) {
        const auto returns = late_returns(basis, group);
        const auto usual = median_of(returns.all);
        const bool late = given ? !returns.late.empty() : usual && *usual > kReturn_s;
        if (!late && returns.never.empty())
            continue;
        auto found =
            finding(basis, group, "slow-return", Severity::caution,
                    {"a release that is hindered",
                     returns.never.empty()
                         ? "the pressure is back at rest " + in_words(*usual, 2) + " s after the phase ends and " +
                               in_words(return_limit_s(basis), 2) + " s is the limit"
                         : "the pressure does not come back to rest in " + counted(returns.never.size(), "pause"),
                     "the run again with the hose end opened in a pause: if it drops at once, gas was trapped or the "
                     "outlet valve is slow; if not, doubt the zero"});
        found.figures["limit_s"] = return_limit_s(basis);
        if (usual)
            found.figures["return_s"] = *usual;
        name_cycles(found, returns.late);
        name_cycles(found, returns.never);
        all.push_back(found);
    }
    return all;
}

Findings trapped_gas(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        std::vector<double> shares, times;
        std::vector<const Cycle*> cycles;
        std::size_t pauses = 0;
        for (const auto* cycle : group.whole) {
            if (!cycle->pause || cycle->pause->cut_end)
                continue;
            ++pauses;
            if (const auto tail = tail_of(basis, *cycle->pause)) {
                shares.push_back(tail->share);
                times.push_back(tail->time_constant_s);
                cycles.push_back(cycle);
            }
        }
        if (cycles.empty() || static_cast<double>(cycles.size()) < kShareOfPauses * static_cast<double>(pauses))
            continue;
        const double share = *signal::median(shares), time_s = *signal::median(times);
        all.push_back(finding(
            basis, group, "trapped-gas", Severity::caution,
            {"gas trapped at the closed end that warms or cools back",
             "after each release " + in_words(100.0 * share, 0) + " % of the step fades with a time constant of " +
                 in_words(time_s, 1) + " s",
             "to repeat with the hose end opened in the pause: a shut volume does this by itself, it is neither leak "
             "nor stuck valve"},
            {{"share", share}, {"time_constant_s", time_s}}, cycles));
    }
    return all;
}

} // namespace zeroline::verification
