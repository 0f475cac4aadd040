// Every fault that shows in a trace leads to a finding that names it; healthy units raise no caution. Faults, sizes and
// accepted findings: docs/diagnosis.md. They are this project's own and stand for no particular unit.

#include "analysis/verification/measured_trace.hpp"
#include "tests/analysis/verification/played_run.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace zeroline::verification {
namespace {

#ifdef ZEROLINE_SANITIZED // a fifth of the speed: it looks for faults of memory, the release build counts
constexpr int kSeeds = 1, kHealthyRuns = 10;
#else
constexpr int kSeeds = 10, kHealthyRuns = 100;
#endif
constexpr double kNamedAtLeast = 0.95;
constexpr int kHealthyWithCaution = 1;

const virtual_bench::KnownFault& known(const std::string& code)
{
    const auto& all = virtual_bench::known_faults();
    return *std::find_if(all.begin(), all.end(), [&](const auto& fault) { return fault.code == code; });
}

class EveryFault : public testing::TestWithParam<ListedFault> {};

TEST_P(EveryFault, is_named_at_middle_and_large_size_and_leads_to_its_verdict)
{
    const auto& fault = GetParam();
    int named = 0, runs = 0, as_listed = 0;
    for (const double size : std::set<double>{known(fault.code).middle, known(fault.code).large})
        for (int seed = 1; seed <= kSeeds; ++seed, ++runs) {
            const auto run = played(settings_with(fault.code, size, static_cast<std::uint64_t>(seed)));
            const auto result = assess(run.evidence());
            named += is_named(fault, result.findings) ? 1 : 0;
            as_listed += fault.verdict.empty() || fault.verdict == verdict_of(result) ? 1 : 0;
        }
    EXPECT_GE(named, kNamedAtLeast * runs);
    EXPECT_GE(as_listed, kNamedAtLeast * runs);
}

INSTANTIATE_TEST_SUITE_P(Findings, EveryFault, testing::ValuesIn(listed_faults()), [](const auto& one) {
    auto name = one.param.code;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

TEST(HealthyUnits, raise_no_caution_in_99_of_100_runs_and_pass)
{
    int with_caution = 0, passed = 0;
    for (int seed = 1; seed <= kHealthyRuns; ++seed) {
        auto settings = house_settings();
        settings.seed = static_cast<std::uint64_t>(1000 + seed);
        const auto result = assess(played(settings).evidence());
        passed += result.verdict == metrology::Outcome::pass ? 1 : 0;
        with_caution += std::any_of(result.findings.begin(), result.findings.end(),
                                    [](const Finding& finding) { return finding.severity != Severity::note; });
    }
    EXPECT_LE(with_caution, kHealthyWithCaution);
    EXPECT_GE(passed, kHealthyRuns - kHealthyWithCaution);
}

TEST(HealthyUnits, set_and_read_otherwise_each_time_raise_no_caution_in_99_of_100_runs)
{
    int with_caution = 0, passed = 0;
    for (const bool oscillation : {false, true})
        for (int seed = 1; seed <= kHealthyRuns; ++seed) {
            const auto settings = varied_settings(static_cast<std::uint64_t>(seed), oscillation);
            const auto result = assess(played(settings).evidence());
            passed += result.verdict == metrology::Outcome::pass ? 1 : 0;
            with_caution += std::any_of(result.findings.begin(), result.findings.end(),
                                        [](const Finding& finding) { return finding.severity != Severity::note; });
        }
    EXPECT_LE(with_caution, 2 * kHealthyWithCaution);
    EXPECT_GE(passed, 2 * (kHealthyRuns - kHealthyWithCaution));
}

TEST(Faults, of_the_bench_all_stand_in_the_list)
{
    std::set<std::string> played_codes, listed;
    for (const auto& fault : virtual_bench::known_faults())
        played_codes.insert(fault.code);
    for (const auto& fault : listed_faults())
        listed.insert(fault.code);
    EXPECT_EQ(played_codes, listed);
}

Assessment with(const std::string& code, double size = 0.0)
{
    return assess(played(settings_with(code, size, 1)).evidence());
}

const Finding* find_code(const Assessment& result, const std::string& code)
{
    const auto at =
        std::find_if(result.findings.begin(), result.findings.end(), [&](const Finding& f) { return f.code == code; });
    return at == result.findings.end() ? nullptr : &*at;
}

bool touches(const Finding& finding, const std::string& measurand)
{
    return std::find(finding.touches.begin(), finding.touches.end(), measurand) != finding.touches.end();
}

const Judgement& judgement(const Assessment& result, const std::string& measurand)
{
    return *std::find_if(result.judgements.begin(), result.judgements.end(),
                         [&](const Judgement& j) { return j.measurand == measurand; });
}

// 10 Hz and 4 cmH2O prescribed in both phases.
TEST(PrescribedOscillation, that_is_delivered_passes)
{
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        auto settings = house_settings(true);
        settings.seed = seed;
        const auto result = assess(played(settings).evidence());
        EXPECT_EQ(result.verdict, metrology::Outcome::pass);
        EXPECT_EQ(find_code(result, "oscillation-off"), nullptr);
        EXPECT_EQ(find_code(result, "ringing"), nullptr) << "what goes on to the end is no ring";
        const auto& frequency = judgement(result, measurand::oscillation_frequency);
        EXPECT_EQ(frequency.verdict, metrology::Outcome::pass);
        EXPECT_NEAR(*frequency.mean, 10.0, 0.2);
        EXPECT_LT(*frequency.expanded_uncertainty, 0.1);
        EXPECT_EQ(judgement(result, measurand::oscillation_amplitude).verdict, metrology::Outcome::not_judged);
    }
}

TEST(PrescribedOscillation, that_is_weak_is_named_and_fails_where_its_amplitude_is_judged)
{
    auto run = played(settings_with("oscillation-weak", 80.0, 1));
    auto result = assess(run.evidence());
    EXPECT_NE(find_code(result, "oscillation-off"), nullptr);
    EXPECT_EQ(judgement(result, measurand::oscillation_frequency).verdict, metrology::Outcome::pass);
    run.order.tolerances.oscillation_amplitude = Tolerance{};
    run.order.tolerances.oscillation_amplitude->absolute = 1.5;
    run.order.tolerances.oscillation_amplitude->basis = "at the closed hose end";
    result = assess(run.evidence());
    EXPECT_EQ(judgement(result, measurand::oscillation_amplitude).verdict, metrology::Outcome::fail);
    EXPECT_EQ(result.verdict, metrology::Outcome::fail);
}

TEST(PrescribedOscillation, that_does_not_come_fails)
{
    auto run = played(house_settings(false));
    run.order = house_settings(true).order;
    const auto result = assess(run.evidence());
    EXPECT_NE(find_code(result, "oscillation-off"), nullptr);
    EXPECT_EQ(judgement(result, measurand::oscillation_frequency).verdict, metrology::Outcome::fail);
    EXPECT_EQ(judgement(result, measurand::oscillation_frequency).reason->code, "missing-oscillation");
}

TEST(PrescribedOscillation, is_incomplete_where_the_sampling_cannot_show_it)
{
    auto settings = house_settings(true);
    settings.instrument.nominal_hz = 80.0;
    const auto result = assess(played(settings).evidence());
    EXPECT_EQ(judgement(result, measurand::oscillation_frequency).verdict, metrology::Outcome::incomplete);
    EXPECT_EQ(judgement(result, measurand::oscillation_frequency).reason->code, "sampling-rate");
}

TEST(Touches, of_a_zero_offset_are_pressures_and_no_durations)
{
    const auto result = with("zero-offset", 1.0);
    const auto* found = find_code(result, "zero-offset");
    ASSERT_NE(found, nullptr);
    EXPECT_TRUE(touches(*found, measurand::insufflation_pressure));
    EXPECT_TRUE(touches(*found, measurand::pause_residual));
    EXPECT_TRUE(touches(*found, measurand::return_to_zero));
    EXPECT_FALSE(touches(*found, measurand::insufflation_duration));
    EXPECT_EQ(result.verdict, metrology::Outcome::incomplete);
}

TEST(Touches, of_a_one_sided_sensor_leave_insufflation_pressure_alone)
{
    const auto result = with("one-sided-sensor");
    const auto* found = find_code(result, "one-sided");
    ASSERT_NE(found, nullptr);
    EXPECT_FALSE(touches(*found, measurand::insufflation_pressure));
    EXPECT_FALSE(touches(*found, measurand::displayed_insufflation));
    EXPECT_TRUE(touches(*found, measurand::exsufflation_pressure));
    EXPECT_TRUE(touches(*found, measurand::insufflation_duration));
}

TEST(Touches, of_a_long_pause_are_the_pause_duration_only)
{
    const auto result = with("trigger-on");
    const auto* found = find_code(result, "long-pause");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->touches, std::vector<std::string>{measurand::pause_duration});
}

TEST(Touches, of_breathing_and_swapped_ports_are_everything_and_they_are_critical)
{
    for (const auto& [code, size] : {std::pair{"breathing", 1.5}, std::pair{"swapped-ports", 0.0}}) {
        const auto result = with(code, size);
        const auto* found = find_code(result, code);
        ASSERT_NE(found, nullptr);
        EXPECT_EQ(found->severity, Severity::critical);
        EXPECT_EQ(found->touches.size(), 9u);
        EXPECT_TRUE(result.critical);
        EXPECT_EQ(result.verdict, metrology::Outcome::incomplete);
    }
}

TEST(SoftHoseEnd, of_a_clogged_filter_or_a_pinched_line_names_slow_edges_once_nothing_soft_was_seen)
{
    for (const auto* code : {"blocked-filter", "kinked-line"}) {
        auto run = played(settings_with(code, 0.0, 3));
        run.run.hose_end = HoseEndAnswer{true, "operator 3", "2026-11-25T09:14:00+01:00"};
        const auto result = assess(run.evidence());
        const ListedFault slow{code, {"slow-rise+slow-swing", "slow-rise+slow-release", "slow-swing+slow-release"}, ""};
        EXPECT_TRUE(is_named(slow, result.findings)) << code;
        EXPECT_FALSE(result.critical);
    }
}

TEST(PlugOff, takes_its_cycle_out_and_nothing_is_missing)
{
    const auto result = with("plug-off");
    EXPECT_NE(find_code(result, "plug-off"), nullptr);
    EXPECT_EQ(find_code(result, "missing-exsufflation"), nullptr);
    EXPECT_EQ(std::count_if(result.cycles.begin(), result.cycles.end(),
                            [](const Cycle& c) { return c.why_not_judged == "plug-off"; }),
              2); // the cycle in which it came off, and the rest of it that was seen after the plug was back
    EXPECT_EQ(result.verdict, metrology::Outcome::pass);
}

TEST(Findings, come_critical_first_and_read_as_a_guess_with_a_reason_and_a_next_step)
{
    for (const auto& [code, size] :
         {std::pair{"over-pressure", 12.0}, std::pair{"blocked-filter", 80.0}, std::pair{"spikes", 12.0}}) {
        const auto result = with(code, size);
        ASSERT_FALSE(result.findings.empty());
        EXPECT_TRUE(std::is_sorted(result.findings.begin(), result.findings.end(),
                                   [](const Finding& a, const Finding& b) { return a.severity > b.severity; }));
        for (const auto& finding : result.findings) {
            EXPECT_NE(finding.text.find("ooks like "), std::string::npos) << finding.text;
            EXPECT_NE(finding.text.find(" because "), std::string::npos) << finding.text;
            EXPECT_NE(finding.text.find(" Try "), std::string::npos) << finding.text;
        }
    }
}

TEST(CalibrationLapsed, is_valid_to_the_end_of_its_due_day)
{
    auto run = played(settings_with("zero-offset", 0.3, 1));
    run.run.began = "2026-11-25T23:59:59+01:00";
    run.instrument.calibration.due = "2026-11-25";
    EXPECT_EQ(find_code(assess(run.evidence()), "calibration-lapsed"), nullptr);
    run.instrument.calibration.due = "2026-11-24";
    const auto result = assess(run.evidence());
    ASSERT_NE(find_code(result, "calibration-lapsed"), nullptr);
    EXPECT_EQ(result.verdict, metrology::Outcome::incomplete);
}

TEST(OutsideCalibration, touches_the_phase_that_left_the_range_and_its_display)
{
    auto run = played(settings_with("zero-offset", 0.3, 1));
    run.instrument.calibration.low = -30;
    run.instrument.calibration.high = 60;
    const auto result = assess(run.evidence());
    const auto* found = find_code(result, "outside-calibration");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->touches,
              (std::vector<std::string>{measurand::exsufflation_pressure, measurand::displayed_exsufflation}));
}

} // namespace
} // namespace zeroline::verification
