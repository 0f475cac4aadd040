#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::verification {

namespace {

constexpr std::array<signal::PhaseKind, 3> kKinds{kInsufflation, kExsufflation, kPause};
constexpr double kTimersAlike = 0.06; // of each other: two timers of a healthy unit, each within 2 %, and unlike edges
constexpr double kNotEqual = 0.03;    // nearer to 1 is no deviation to explain
constexpr double kIrregular = 0.05;   // of the mean: quartz and RC timers repeat within 2 %
constexpr std::size_t kCyclesOfAScatter = 3;

struct Timer {
    signal::PhaseKind kind;
    double nominal_s, mean_s;
    std::vector<Value> outside;
    [[nodiscard]] double ratio() const { return mean_s / nominal_s; }
};

std::vector<Timer> timers_of(const FindingBasis& basis, const Group& group)
{
    std::vector<Timer> timers;
    for (const auto kind : kKinds) {
        const double nominal_s = setting_of(group.nominal, kind).duration_s;
        const auto seen = durations(group.judged, kind);
        if (seen.empty() || nominal_s <= 0.0)
            continue;
        Timer timer{kind, nominal_s, *mean_of(seen), {}};
        const auto limits = limits_of(duration_of(kind), group.nominal, basis.order, basis.house);
        std::copy_if(seen.begin(), seen.end(), std::back_inserter(timer.outside),
                     [&](const Value& value) { return is_outside(value, duration_of(kind), limits); });
        timers.push_back(std::move(timer));
    }
    return timers;
}

bool all_by_one_ratio(const std::vector<Timer>& timers)
{
    if (timers.size() < 2)
        return false;
    const auto [low, high] = std::minmax_element(timers.begin(), timers.end(),
                                                 [](const auto& a, const auto& b) { return a.ratio() < b.ratio(); });
    return high->ratio() / low->ratio() - 1.0 <= kTimersAlike && std::abs(timers.front().ratio() - 1.0) >= kNotEqual;
}

bool any_outside(const std::vector<Timer>& timers)
{
    return std::any_of(timers.begin(), timers.end(), [](const auto& timer) { return !timer.outside.empty(); });
}

} // namespace

Findings one_duration_off(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto timers = timers_of(basis, group);
        if (all_by_one_ratio(timers))
            continue;
        for (const auto& timer : timers) {
            if (timer.outside.empty())
                continue;
            all.push_back(
                finding(basis, group, "one-duration-off", Severity::caution,
                        {"the timer of one phase",
                         word_of(timer.kind) + " lasts " + in_words(timer.mean_s, 3) + " s on average where " +
                             in_words(timer.nominal_s, 3) + " s is wanted, and the others do not share it",
                         "reading this time back from the unit; then its control. An automatic mode that ends a "
                         "phase by itself does this too"},
                        {{"mean_s", timer.mean_s}, {"wanted_s", timer.nominal_s}}, timer.outside));
        }
    }
    return all;
}

Findings same_ratio_timing(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto timers = timers_of(basis, group);
        if (!all_by_one_ratio(timers) || !any_outside(timers))
            continue;
        const double ratio = timers.front().ratio();
        all.push_back(finding(
            basis, group, "same-ratio-timing", Severity::caution,
            {"one clock that is off", "every phase is " + in_words(100.0 * (ratio - 1.0), 1) + " % longer than set",
             "a stopwatch over ten cycles: if it agrees with the set times the instrument's clock is off, if not "
             "the unit's"},
            {{"ratio", ratio}}, group.judged));
    }
    return all;
}

Findings irregular_timing(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto kind : kKinds) {
            const auto seen = durations(group.judged, kind);
            const auto deviation = signal::standard_deviation(numbers(seen));
            if (seen.size() < kCyclesOfAScatter || *deviation <= kIrregular * *mean_of(seen))
                continue;
            all.push_back(
                finding(basis, group, "irregular-timing", Severity::caution,
                        {"a timer that does not repeat",
                         word_of(kind) + " scatters by " + in_words(*deviation, 3) + " s about " +
                             in_words(*mean_of(seen), 3) + " s from cycle to cycle",
                         "trigger and automatic modes off, and the run again; then a sticking valve or a worn control"},
                        {{"deviation_s", *deviation}, {"mean_s", *mean_of(seen)}}, seen));
        }
    return all;
}

} // namespace zeroline::verification
