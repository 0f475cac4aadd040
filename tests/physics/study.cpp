#include "tests/physics/study.hpp"

#include "tests/physics/simulated_bench.hpp"
#include "tests/physics/truth.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace zeroline::physics_study {

namespace {

Group group_of(const std::string& measurand)
{
    if (measurand.ends_with("-mid-level"))
        return Group::mid_levels;
    if (measurand.ends_with("-duration"))
        return Group::durations;
    return measurand.ends_with("-time") ? Group::transitions : Group::levels;
}

const Value* find(const std::vector<Value>& values, int cycle, const std::string& measurand)
{
    for (const Value& value : values)
        if (value.cycle == cycle && value.measurand == measurand)
            return &value;
    return nullptr;
}

/// The phases whose both ends the span shows; the last pause is cut by its end.
bool wanted(const Value& value, int cycles)
{
    return value.cycle > 1 && !(value.cycle == cycles && value.measurand.starts_with("pause"));
}

/// Levels under an oscillation are taken over whole periods; the yardstick knows none.
bool comparable(physics::Family family, Group group)
{
    return family != physics::Family::oscillating || group == Group::durations || group == Group::mid_levels;
}

void compare(Study& study, physics::Family family, double rate_hz, std::uint64_t seed)
{
    const physics::Settings set = physics::drawn_settings(family, seed);
    const double largest = std::max(set.insufflation_cmH2O, set.exsufflation_cmH2O);
    BenchPlan plan;
    plan.reduced_flow = family == physics::Family::gentle;
    const SimulatedBench bench =
        simulated(physics::drawn_unit(family, set, seed), set, drawn_readout(rate_hz, largest, seed), plan);
    const auto result = verification::assess(bench.evidence());
    const auto plain = plain_values(result, bench.trace);
    for (const Value& truth : true_values(bench.run, Where::at_sensor, bench.span_ends_s)) {
        const Group group = group_of(truth.measurand);
        if (!wanted(truth, plan.cycles + 1) || !comparable(family, group))
            continue;
        const auto cycle = std::find_if(result.cycles.begin(), result.cycles.end(),
                                        [&](const auto& c) { return c.index == truth.cycle; });
        const Value* yardstick = find(plain, truth.cycle, truth.measurand);
        if (cycle == result.cycles.end() || !cycle->quantities.contains(truth.measurand) || yardstick == nullptr) {
            ++study.missing;
            continue;
        }
        const auto& quantity = cycle->quantities.at(truth.measurand);
        study.all.push_back({family, rate_hz, seed, group, truth.cycle, truth.measurand, quantity.value - truth.value,
                             yardstick->value - truth.value, quantity.expanded.expanded_uncertainty});
    }
    ++study.traces;
}

std::string number(const char* format, double value)
{
    char text[40];
    std::snprintf(text, sizeof text, format, value);
    return text;
}

std::string row(const std::string& family, const std::string& rate, const Figures& f, Group group)
{
    const bool level = group == Group::levels;
    const double scale = level ? 1.0 : 1000.0;
    const char* format = level ? "%.3f" : "%.2f";
    return "| " + family + " | " + rate + " | " + std::to_string(f.values) + " | " + number(format, scale * f.rms) +
           " | " + number(format, scale * f.plain_rms) + " | " + number("%.2f", f.rms / f.plain_rms) + " | " +
           number("%.1f %%", 100.0 * f.covered) + " | " + number(format, scale * f.median_U) + " | " +
           number("%.1f", f.median_U / f.plain_rms) + " |\n";
}

} // namespace

Study carried_out(const StudyPlan& plan)
{
    Study study;
    for (const physics::Family family : plan.families)
        for (const double rate_hz : plan.rates_hz)
            for (int draw = 0; draw < plan.draws; ++draw)
                compare(study, family, rate_hz,
                        plan.seed + 1000U * static_cast<unsigned>(rate_hz) + static_cast<unsigned>(draw));
    return study;
}

Figures figures_of(const std::vector<const Comparison*>& some)
{
    Figures figures;
    figures.values = some.size();
    if (some.empty())
        return figures;
    std::vector<double> all_U;
    for (const Comparison* one : some) {
        figures.rms += one->error * one->error;
        figures.plain_rms += one->plain_error * one->plain_error;
        figures.covered += std::abs(one->error) <= one->U ? 1.0 : 0.0;
        all_U.push_back(one->U);
    }
    const auto n = static_cast<double>(some.size());
    figures.rms = std::sqrt(figures.rms / n);
    figures.plain_rms = std::sqrt(figures.plain_rms / n);
    figures.covered /= n;
    const auto middle = all_U.begin() + static_cast<std::ptrdiff_t>(all_U.size() / 2);
    std::nth_element(all_U.begin(), middle, all_U.end());
    figures.median_U = *middle;
    return figures;
}

std::vector<const Comparison*> chosen(const Study& study, Group group, const physics::Family* family, double rate_hz)
{
    std::vector<const Comparison*> some;
    for (const Comparison& one : study.all)
        if (one.group == group && (family == nullptr || one.family == *family) &&
            (rate_hz == 0.0 || one.rate_hz == rate_hz))
            some.push_back(&one);
    return some;
}

std::string word_of(Group group)
{
    switch (group) {
    case Group::durations:
        return "durations";
    case Group::transitions:
        return "10-90 % times";
    case Group::mid_levels:
        return "mid-level durations";
    case Group::levels:
        return "levels";
    }
    return {};
}

std::string markdown(const Study& study, const StudyPlan& plan, Group group)
{
    const std::string unit = group == Group::levels ? "cmH2O" : "ms";
    std::string table =
        "| " + word_of(group) + ", " + unit +
        " | rate, Hz | values | rms | plain rms | rms / plain | covered by U | median U | median U / plain "
        "rms |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
    for (const physics::Family& family : plan.families) {
        if (!comparable(family, group))
            continue;
        for (const double rate_hz : plan.rates_hz)
            table += row(physics::word_of(family), number("%.0f", rate_hz),
                         figures_of(chosen(study, group, &family, rate_hz)), group);
        table += row("**" + physics::word_of(family) + "**", "all", figures_of(chosen(study, group, &family)), group);
    }
    for (const double rate_hz : plan.rates_hz)
        table += row("**all**", number("%.0f", rate_hz), figures_of(chosen(study, group, nullptr, rate_hz)), group);
    return table + row("**all**", "all", figures_of(chosen(study, group, nullptr)), group);
}

} // namespace zeroline::physics_study
