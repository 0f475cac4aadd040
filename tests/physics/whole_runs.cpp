#include "tests/physics/whole_runs.hpp"

#include "fixtures/physics/dice.hpp"

#include <algorithm>
#include <cstdio>

namespace zeroline::physics_study {

namespace {

constexpr int kCycles = 5;
constexpr double kRates_hz[] = {100.0, 250.0, 500.0, 1000.0};

double rate_of(std::uint64_t seed) { return kRates_hz[seed % 4]; }

Outcome assessed(std::string what, const physics::Unit& unit, const physics::Settings& prescribed,
                 const BenchPlan& plan)
{
    const double largest = std::max(unit.set.insufflation_cmH2O, unit.set.exsufflation_cmH2O);
    const std::uint64_t seed = unit.circuit.seed;
    const auto bench = simulated(unit, prescribed, drawn_readout(rate_of(seed), largest, seed), plan);
    return {std::move(what), seed, verification::assess(bench.evidence())};
}

physics::Family healthy_family(std::uint64_t seed)
{
    using physics::Family;
    constexpr Family kOthers[] = {Family::kinked, Family::shelf, Family::slow_foot, Family::exponential};
    switch (seed % 5) {
    case 0:
    case 1:
        return Family::full;
    case 2:
    case 3:
        return Family::gentle;
    default:
        return kOthers[seed / 5 % 4];
    }
}

BenchPlan plan_for(physics::Family family, std::uint64_t seed)
{
    BenchPlan plan;
    plan.cycles = kCycles;
    plan.reduced_flow = family == physics::Family::gentle;
    plan.flow_named = seed / 2 % 2 == 0;
    plan.displays = true;
    return plan;
}

std::string written(const char* format, double value)
{
    char text[40];
    std::snprintf(text, sizeof text, format, value);
    return text;
}

} // namespace

bool Outcome::passed() const
{
    return result.verdict == metrology::Outcome::pass || result.verdict == metrology::Outcome::conditional_pass;
}

bool Outcome::blamed() const
{
    return result.verdict == metrology::Outcome::fail || result.verdict == metrology::Outcome::conditional_fail;
}

bool Outcome::raised(const std::string& code) const
{
    return std::any_of(result.findings.begin(), result.findings.end(),
                       [&](const auto& finding) { return finding.code == code; });
}

std::string Outcome::words() const
{
    std::string line = what + ", seed " + std::to_string(seed) + ": " + std::string(word_of(result.verdict)) +
                       (result.critical ? ", critical" : "");
    for (const auto& finding : result.findings)
        line += " " + finding.code + (finding.severity == verification::Severity::note ? "(note)" : "");
    for (const auto& judgement : result.judgements)
        if (judgement.reason && judgement.against == "prescribed")
            line += " [" + judgement.measurand + ": " + judgement.reason->code + "]";
    return line;
}

Outcome run_with_lung(std::uint64_t seed)
{
    constexpr double kCompliances[] = {20.0, 50.0, 80.0}, kEfforts[] = {0.0, 4.0, 10.0};
    physics::Dice dice(seed, 41);
    const auto family = dice.chance(0.7) ? physics::Family::full : physics::Family::gentle;
    const physics::Settings set = physics::drawn_settings(family, seed);
    physics::Unit unit = physics::drawn_unit(family, set, seed);
    physics::LungParameters& lung = unit.circuit.lung;
    lung.compliance_mL_per_cmH2O = kCompliances[seed % 3];
    lung.resistance_cmH2O_s_per_mL = dice.between(0.005, 0.020);
    lung.effort_cmH2O = kEfforts[seed / 3 % 3];
    lung.breaths_per_s = dice.between(0.2, 0.45);
    lung.effort_phase = dice.between(0.0, 6.28);
    return assessed("lung of " + written("%.0f", lung.compliance_mL_per_cmH2O) + " mL/cmH2O, " +
                        written("%.0f", 1000.0 * lung.resistance_cmH2O_s_per_mL) + " cmH2O s/L, effort " +
                        written("%.0f", lung.effort_cmH2O),
                    unit, set, plan_for(family, seed));
}

Outcome run_healthy(std::uint64_t seed)
{
    const physics::Family family = healthy_family(seed);
    const physics::Settings set = physics::drawn_settings(family, seed);
    return assessed("healthy " + physics::word_of(family), physics::drawn_unit(family, set, seed), set,
                    plan_for(family, seed));
}

Outcome run_scaled(double scale, std::uint64_t seed)
{
    physics::Dice dice(seed, 42);
    physics::Settings set = physics::drawn_settings(physics::Family::full, seed);
    set.insufflation_cmH2O =
        30.0 + 5.0 * static_cast<double>(dice.below(4)); // 1.42 times 45 is within a blower's reach
    set.exsufflation_cmH2O = 30.0 + 5.0 * static_cast<double>(dice.below(4));
    physics::Settings delivered = set;
    delivered.insufflation_cmH2O *= scale;
    delivered.exsufflation_cmH2O *= scale;
    return assessed("scale " + written("%.2f", scale), physics::drawn_unit(physics::Family::full, delivered, seed), set,
                    plan_for(physics::Family::full, seed));
}

} // namespace zeroline::physics_study
