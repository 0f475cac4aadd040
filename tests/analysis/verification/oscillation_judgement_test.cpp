// A prescribed oscillation: what is judged, what is only reported, and what was not measured (docs/method.md), on
// scenes written down by hand, and on whole runs of the virtual bench.

#include "analysis/verification/budgets.hpp"
#include "analysis/verification/judgement.hpp"
#include "tests/analysis/verification/synthetic.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using testing::DoubleNear;
using testing::Optional;

/// Five judged cycles of a preset with 10 Hz and 4 cmH2O in both phases, measured as said.
class Oscillating {
public:
    explicit Oscillating(std::optional<signal::Oscillation> insufflation,
                         std::optional<signal::Oscillation> exsufflation)
    {
        order_.presets.front().oscillation = OscillationSetting{10.0, 4.0, During::both};
        evidence_.order = &order_;
        measured_trace_.evidence = &evidence_;
        MeasuredSpan span;
        span.span.what = SpanKind::automatic;
        span.prescribed = &order_.presets.front();
        span.set = order_.presets.front();
        measured_trace_.spans.push_back(span);
        for (int i = 1; i <= 5; ++i) {
            measured_trace_.cycles.push_back(cycle(i, insufflation, exsufflation));
        }
    }

    Oscillating& amplitude_within(double width, const std::string& basis)
    {
        order_.tolerances.oscillation_amplitude = Tolerance{};
        order_.tolerances.oscillation_amplitude->absolute = width;
        order_.tolerances.oscillation_amplitude->basis = basis;
        return *this;
    }

    Oscillating& only_in_insufflation()
    {
        order_.presets.front().oscillation->during = During::insufflation;
        return *this;
    }

    [[nodiscard]] Judgement judged(const std::string& name) const
    {
        const auto& preset = order_.presets.front();
        return judge(measured_trace_, {}, Comparison{name, &preset, "prescribed", preset, {0}, 5, false, true, true});
    }

private:
    static Cycle cycle(int index, const std::optional<signal::Oscillation>& insufflation,
                       const std::optional<signal::Oscillation>& exsufflation)
    {
        Cycle cycle;
        cycle.index = index;
        cycle.judged = true;
        put(cycle, "insufflation", cycle.insufflation, insufflation);
        put(cycle, "exsufflation", cycle.exsufflation, exsufflation);
        return cycle;
    }

    static void put(Cycle& cycle, const std::string& word, std::optional<signal::Phase>& phase,
                    const std::optional<signal::Oscillation>& seen)
    {
        phase.emplace();
        phase->plateau = signal::Level{40.0, 0.01, 100.0, 0.0, 0.5, 1.1, 150};
        phase->oscillation = seen;
        if (const auto frequency = oscillation_frequency_quantity(*phase, {})) {
            cycle.quantities[word + "-oscillation-frequency"] = *frequency;
            cycle.quantities[word + "-oscillation-amplitude"] = *oscillation_amplitude_quantity(*phase, {});
        }
    }

    WorkOrder order_ = synthetic::order();
    Evidence evidence_;
    MeasuredTrace measured_trace_;
};

const signal::Oscillation kAsPrescribed{10.0, 4.0, 0.01, 0.02};

TEST(PrescribedOscillation, passes_by_its_frequency_in_both_phases)
{
    const auto judged = Oscillating(kAsPrescribed, kAsPrescribed).judged(measurand::oscillation_frequency);
    EXPECT_EQ(judged.verdict, Outcome::pass);
    EXPECT_EQ(judged.n, 5) << "cycles, not phases";
    EXPECT_EQ(judged.unit, "Hz");
    EXPECT_THAT(judged.limits.lower, Optional(9.0));
    EXPECT_GT(judged.expanded_uncertainty, 0.0);
}

TEST(PrescribedOscillation, fails_by_the_worst_phase_of_any_cycle)
{
    const auto judged =
        Oscillating(kAsPrescribed, signal::Oscillation{8.5, 4.0, 0.01, 0.02}).judged(measurand::oscillation_frequency);
    EXPECT_EQ(judged.verdict, Outcome::fail);
    EXPECT_THAT(judged.worst, Optional(DoubleNear(8.5, 1e-12)));
    EXPECT_EQ(judged.reason->code, "outside-limits");
}

TEST(PrescribedOscillation, that_was_looked_for_and_not_found_fails)
{
    const auto judged = Oscillating(kAsPrescribed, signal::Oscillation{}).judged(measurand::oscillation_frequency);
    EXPECT_EQ(judged.verdict, Outcome::fail);
    EXPECT_EQ(judged.reason->code, "missing-oscillation");
    EXPECT_FALSE(judged.worst);
}

TEST(PrescribedOscillation, that_was_not_measured_is_incomplete)
{
    const auto judged = Oscillating(std::nullopt, std::nullopt).judged(measurand::oscillation_frequency);
    EXPECT_EQ(judged.verdict, Outcome::incomplete);
    EXPECT_EQ(judged.reason->code, "oscillation-not-measured");
}

TEST(PrescribedOscillation, is_asked_for_only_in_the_phases_it_is_prescribed_in)
{
    const auto judged = Oscillating(kAsPrescribed, signal::Oscillation{})
                            .only_in_insufflation()
                            .judged(measurand::oscillation_frequency);
    EXPECT_EQ(judged.verdict, Outcome::pass);
}

// The end of a closed hose raises the amplitude: a figure means something only where its basis says it was meant there.
TEST(OscillationAmplitude, is_reported_where_nobody_gives_a_tolerance)
{
    const auto judged = Oscillating(kAsPrescribed, kAsPrescribed).judged(measurand::oscillation_amplitude);
    EXPECT_EQ(judged.verdict, Outcome::not_judged);
    EXPECT_THAT(judged.mean, Optional(DoubleNear(4.0, 1e-12)));
    EXPECT_FALSE(judged.reason);
}

TEST(OscillationAmplitude, is_judged_only_where_the_basis_names_the_closed_hose_end)
{
    const signal::Oscillation weak{10.0, 2.0, 0.01, 0.02};
    const auto named = Oscillating(weak, weak)
                           .amplitude_within(1.0, "service manual, 5.2, at a closed hose end")
                           .judged(measurand::oscillation_amplitude);
    EXPECT_EQ(named.verdict, Outcome::fail);
    const auto bare =
        Oscillating(weak, weak).amplitude_within(1.0, "service manual, 5.2").judged(measurand::oscillation_amplitude);
    EXPECT_EQ(bare.verdict, Outcome::not_judged);
    EXPECT_FALSE(bare.limits.lower || bare.limits.upper);
    EXPECT_EQ(bare.reason->code, "set-up-not-named");
}

} // namespace
} // namespace zeroline::verification
