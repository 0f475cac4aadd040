// Somebody who breathes into the hose while a hand is asked to hold the phases: named as that, and not as a sensor the
// wrong way round. How people breathe (rates of 12 to 30 a minute, expiration longer than inspiration, a rest after it)
// is common knowledge of physiology, from memory.

#include "tests/analysis/verification/synthetic.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

namespace zeroline::verification {
namespace {

/// A share of -1 to 1 at a moment of a breath, both counted in periods.
using Shape = std::function<double(double)>;

double even(double moment) { return std::sin(2.0 * std::numbers::pi * moment); }

/// Inspiration two fifths, expiration the rest, its end nearly still.
double lifelike(double moment)
{
    const double within = moment - std::floor(moment);
    return within < 0.4 ? -std::sin(std::numbers::pi * within / 0.4)
                        : std::sin(std::numbers::pi * std::pow((within - 0.4) / 0.6, 0.75));
}

constexpr double kManualFrom_s = 9.0;

synthetic::Bench bench_of(synthetic::Pen& pen, double manual_to_s)
{
    synthetic::Bench bench;
    bench.trace = pen.trace();
    bench.run.spans = {{SpanKind::zero_before, {}, 0.0, 5.0, {}, {}, {}, {}, {}}};
    Span manual{SpanKind::manual, "day", kManualFrom_s, manual_to_s, {}, {}, {}, {}, {}};
    manual.asked = {Step::insufflation, Step::exsufflation, Step::insufflation, Step::exsufflation};
    bench.run.spans.push_back(manual);
    return bench;
}

Assessment of_breath(const Shape& shape, double amplitude_cmH2O, double breaths_per_min, double seconds = 14.0)
{
    synthetic::Pen pen;
    pen.hold(0.0, kManualFrom_s + seconds);
    auto bench = bench_of(pen, kManualFrom_s + seconds - 0.1);
    for (std::size_t i = 0; i < bench.trace.size(); ++i) {
        const double since_s = bench.trace.time_s[i] - kManualFrom_s;
        if (since_s > 0.0)
            bench.trace.pressure_cmH2O[i] += amplitude_cmH2O * shape(since_s * breaths_per_min / 60.0);
    }
    return assess(bench.evidence());
}

/// Holds of 3 s as they were asked for, times `factor`.
Assessment of_holds(double factor, double hold_s, double rest_s)
{
    synthetic::Pen pen;
    pen.hold(0.0, kManualFrom_s + 1.0);
    for (int i = 0; i < 2; ++i) {
        pen.hold(40.0 * factor, hold_s);
        pen.hold(0.0, rest_s);
        pen.hold(-40.0 * factor, hold_s);
        pen.hold(0.0, rest_s);
    }
    const double end_s = pen.now_s() - 0.1;
    auto bench = bench_of(pen, end_s);
    return assess(bench.evidence());
}

bool names(const Assessment& result, const std::string& code)
{
    return std::any_of(result.findings.begin(), result.findings.end(),
                       [&](const Finding& finding) { return finding.code == code; });
}

TEST(BreathByHand, is_named_as_breathing_and_never_as_swapped_ports)
{
    for (const auto& [name, shape] : {std::pair{"even", Shape(even)}, std::pair{"lifelike", Shape(lifelike)}})
        for (const double amplitude : {0.8, 1.5, 4.0, 8.0})
            for (const double rate : {12.0, 15.0, 20.0, 30.0}) {
                const auto result = of_breath(shape, amplitude, rate);
                EXPECT_TRUE(names(result, "breathing"))
                    << name << ", " << amplitude << " cmH2O, " << rate << " a minute";
                EXPECT_FALSE(names(result, "swapped-ports")) << name << ", " << amplitude << ", " << rate;
                EXPECT_TRUE(result.critical);
            }
}

TEST(BreathByHand, is_named_before_four_breaths_are_over)
{
    EXPECT_TRUE(names(of_breath(lifelike, 3.0, 15.0, 10.0), "breathing"));
}

TEST(BreathByHand, holds_the_other_way_round_stay_swapped_ports_also_where_the_unit_of_the_readings_is_wrong)
{
    // -0.098: kPa taken for cmH2O, 1 kPa is 10.197 cmH2O.
    for (const double factor : {-1.0, -0.7, -0.098})
        for (const auto& [hold_s, rest_s] : {std::pair{3.0, 2.0}, std::pair{2.0, 1.0}, std::pair{1.5, 0.7}}) {
            const auto result = of_holds(factor, hold_s, rest_s);
            EXPECT_TRUE(names(result, "swapped-ports")) << factor << ", " << hold_s;
            EXPECT_FALSE(names(result, "breathing")) << factor << ", " << hold_s;
        }
}

TEST(BreathByHand, holds_as_asked_for_are_no_breath_however_weak)
{
    for (const double factor : {1.0, 0.3, 0.1, 0.05})
        EXPECT_FALSE(names(of_holds(factor, 3.0, 2.0), "breathing")) << factor;
}

} // namespace
} // namespace zeroline::verification
