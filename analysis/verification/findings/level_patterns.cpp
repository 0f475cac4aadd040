#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/metrology/distributions.hpp"
#include "analysis/metrology/uncertainty.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

constexpr double kStrengthLost = 0.10;   // of what the unit kept at first; house figure, no source
constexpr double kSameRatio = 0.04;      // of each other: two plateaus of a healthy unit seldom differ by more
constexpr double kNotEqual = 0.03;       // nearer to 1 is no deviation to explain
constexpr double kSameShift_cmH2O = 1.0; // two levels and a pause agree this well
constexpr double kShift_cmH2O = 1.0;     // smaller shifts are within every tolerance
constexpr double kFirstCycle_cmH2O = 1.5;
constexpr double kFirstCycleDeviations = 4.0;
constexpr double kFirstCycleLonger = 0.1;
constexpr double kDrift_cmH2O = 1.0;  // less is within the scatter and the instrument's own drift
constexpr double kDriftChance = 1e-4; // that scatter alone shows such a trend
constexpr std::size_t kCyclesOfATrend = 4;

bool any_outside(const FindingBasis& basis, const Group& group)
{
    for (const auto kind : {kInsufflation, kExsufflation}) {
        const auto limits = limits_of(pressure_of(kind), group.nominal, basis.order, basis.house);
        for (const auto& value : plateaus(group.judged, kind))
            if (is_outside(value, pressure_of(kind), limits))
                return true;
    }
    return false;
}

struct Pair {
    double insufflation, exsufflation;
};

std::optional<Pair> means(const Group& group)
{
    const auto in = mean_of(plateaus(group.judged, kInsufflation)),
               out = mean_of(plateaus(group.judged, kExsufflation));
    return in && out ? std::optional(Pair{*in, *out}) : std::nullopt;
}

/// Common slope of both plateaus' magnitudes over time, each with its own level.
struct Trend {
    double slope_per_s = 0.0, deviation = 0.0, dof = 0.0, over_s = 0.0;
};

struct Sums {
    double s_tt = 0.0, s_ty = 0.0, s_yy = 0.0, from_s = 0.0, to_s = 0.0;
    std::size_t count = 0;
};

Sums sums_of(const std::vector<Value>& values)
{
    Sums sums;
    std::vector<double> times;
    for (const auto& value : values)
        times.push_back(value.cycle->start_s);
    const auto t_mean = signal::mean(times), y_mean = mean_of(values);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double t = times[i] - *t_mean, y = std::abs(values[i].value) - std::abs(*y_mean);
        sums.s_tt += t * t;
        sums.s_ty += t * y;
        sums.s_yy += y * y;
    }
    sums.count = values.size();
    if (!times.empty()) {
        sums.from_s = times.front();
        sums.to_s = times.back();
    }
    return sums;
}

std::optional<Trend> trend_of(const Group& group)
{
    const auto in = sums_of(plateaus(group.judged, kInsufflation)),
               out = sums_of(plateaus(group.judged, kExsufflation));
    const double s_tt = in.s_tt + out.s_tt, s_ty = in.s_ty + out.s_ty;
    if (in.count < kCyclesOfATrend || out.count < kCyclesOfATrend || s_tt <= 0.0)
        return std::nullopt;
    Trend trend;
    trend.slope_per_s = s_ty / s_tt;
    trend.dof = static_cast<double>(in.count + out.count) - 3.0;
    trend.deviation = std::sqrt(std::max(0.0, in.s_yy + out.s_yy - trend.slope_per_s * s_ty) / trend.dof / s_tt);
    trend.over_s = std::max(in.to_s, out.to_s) - std::min(in.from_s, out.from_s);
    return trend;
}

double chance_of(const Trend& trend)
{
    if (trend.deviation <= 0.0)
        return 0.0;
    return 2.0 * metrology::tail_beyond(std::abs(trend.slope_per_s) / trend.deviation, trend.dof);
}

/// The values of one span, the first apart from the others.
struct FirstAndLater {
    std::optional<Value> first;
    std::vector<Value> later;
};

FirstAndLater within(const MeasuredSpan& span, const std::vector<Value>& values)
{
    FirstAndLater parts;
    for (const auto& value : values) {
        if (value.cycle->span != span.index)
            continue;
        if (!parts.first)
            parts.first = value;
        else
            parts.later.push_back(value);
    }
    return parts;
}

/// How far the first cycle of a span lies from the others; none where it is like them.
std::optional<Value> odd_first_level(const Group& group, const MeasuredSpan& span, signal::PhaseKind kind)
{
    const auto [first, later] = within(span, plateaus(group.whole, kind));
    const auto mean = mean_of(later);
    const auto deviation = signal::standard_deviation(numbers(later));
    if (!first || !mean || !deviation)
        return std::nullopt;
    const double off = first->value - *mean;
    if (std::abs(off) < std::max(kFirstCycle_cmH2O, kFirstCycleDeviations * *deviation))
        return std::nullopt;
    return Value{first->cycle, off};
}

std::optional<Value> long_first_phase(const Group& group, const MeasuredSpan& span, signal::PhaseKind kind)
{
    const auto [first, later] = within(span, durations(group.whole, kind));
    const auto usual = median_of(later);
    if (!first || !usual || later.size() < 2 || std::abs(first->value / *usual - 1.0) < kFirstCycleLonger)
        return std::nullopt;
    return Value{first->cycle, first->value - *usual};
}

} // namespace

Findings same_ratio_pressure(const FindingBasis& basis)
{
    Findings all;
    if (!unit_mismatch(basis).empty())
        return all; // that ratio has a name already
    for (const auto& group : basis.groups) {
        const auto level = means(group);
        if (!level || !any_outside(basis, group))
            continue;
        const double in = level->insufflation / group.nominal.insufflation.pressure_cmH2O;
        const double out = level->exsufflation / group.nominal.exsufflation.pressure_cmH2O;
        const double ratio = 0.5 * (in + out);
        if (std::abs(in / out - 1.0) > kSameRatio || std::abs(ratio - 1.0) < kNotEqual)
            continue;
        const auto share = in_words(100.0 * (ratio - 1.0), 1);
        all.push_back(finding(
            basis, group, "same-ratio-pressure", Severity::caution,
            {"one cause for both pressures", "insufflation and exsufflation are off by the same " + share + " %",
             ratio < 1.0 ? "another plug and hose and a leak test, then the sensor against a second gauge; if "
                           "both hold, suspect the blower. One run cannot tell these three apart"
                         : "the sensor against a second gauge, and the settings read back"},
            {{"ratio", ratio}, {"ratio_insufflation", in}, {"ratio_exsufflation", out}}, group.judged));
    }
    return all;
}

Findings same_shift_pressure(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto level = means(group);
        const auto pause = mean_of(residuals(group.judged, group.nominal.pause.pressure_cmH2O));
        if (!level || !pause)
            continue;
        const double in = level->insufflation - group.nominal.insufflation.pressure_cmH2O;
        const double out = level->exsufflation - group.nominal.exsufflation.pressure_cmH2O;
        const double shift = (in + out + *pause) / 3.0;
        const auto [low, high] = std::minmax({in, out, *pause});
        if (std::abs(shift) < kShift_cmH2O || high - low > kSameShift_cmH2O)
            continue;
        all.push_back(
            finding(basis, group, "same-shift-pressure", Severity::caution,
                    {"a zero that is off",
                     "both plateaus and the pause lie " + in_words(shift) + " cmH2O from where they should",
                     "the zero again with the sensing line off the tee and dry; a line that was still on the tee when "
                     "zero was read does this"},
                    {{"shift_cmH2O", shift},
                     {"insufflation_cmH2O", in},
                     {"exsufflation_cmH2O", out},
                     {"pause_cmH2O", *pause}}));
    }
    return all;
}

Findings pressure_drift(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        const auto trend = trend_of(group);
        if (!trend)
            continue;
        const double change = trend->slope_per_s * trend->over_s;
        if (std::abs(change) < kDrift_cmH2O || chance_of(*trend) > kDriftChance)
            continue;
        all.push_back(finding(
            basis, group, "pressure-drift", Severity::caution,
            {"pressures that " + std::string(change < 0 ? "fade" : "grow") + " during the run",
             "both plateaus changed by " + in_words(change) + " cmH2O over " + in_words(trend->over_s, 0) +
                 " s, more than their scatter allows",
             change < 0 ? "mains instead of battery, a longer run, and whether the unit or the blower gets hot"
                        : "a warmed-up unit, and the run again"},
            {{"change_cmH2O", change}, {"over_s", trend->over_s}, {"chance", chance_of(*trend)}}, group.judged));
    }
    return all;
}

Findings first_cycle(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups)
        for (const auto* span : group.spans)
            for (const auto kind : {kInsufflation, kExsufflation}) {
                const auto level = odd_first_level(group, *span, kind);
                const auto longer = long_first_phase(group, *span, kind);
                if (!level && !longer)
                    continue;
                const auto* cycle = level ? level->cycle : longer->cycle;
                auto found =
                    finding(basis, group, "first-cycle", Severity::note,
                            {"a unit that needs a cycle to get going",
                             "the first " + word_of(kind) + " differs by " +
                                 (level ? in_words(level->value) + " cmH2O" : in_words(longer->value, 3) + " s") +
                                 " from those after it",
                             "nothing: first cycles are shown and not judged unless the order says so"});
                found.figures[level ? "off_cmH2O" : "longer_s"] = level ? level->value : longer->value;
                name_cycles(found, std::vector<const Cycle*>{cycle});
                all.push_back(found);
                break;
            }
    return all;
}

/// Against the unit's own first value: how much a healthy one keeps under flow differs from type to type.
Findings strength_lost(const FindingBasis& basis)
{
    Findings all;
    for (const auto& row : basis.measured_trace.strength) {
        if (!row.lost || *row.lost <= kStrengthLost)
            continue;
        auto found = finding(
            "strength-lost", Severity::caution,
            {"a unit that is weaker under flow than it was",
             row.phase + " keeps " + in_words(100.0 * row.share, 1) + " % of its pressure with the orifice and kept " +
                 in_words(100.0 * *row.first_share, 1) + " % when it was first tested so",
             "its filters and its hose, and the test again; then the blower, as its service documentation says"});
        found.preset = row.preset;
        found.figures = {{"share", row.share}, {"first_share", *row.first_share}, {"lost", *row.lost}};
        all.push_back(std::move(found));
    }
    return all;
}

} // namespace zeroline::verification
