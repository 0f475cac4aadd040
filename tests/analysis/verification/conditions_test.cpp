// Findings about what the run was made in.

#include "tests/analysis/verification/synthetic.hpp"

#include "analysis/verification/run_log.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using testing::HasSubstr;

const Finding* finding_named(const Assessment& result, const std::string& code)
{
    const auto found = std::find_if(result.findings.begin(), result.findings.end(),
                                    [&](const Finding& finding) { return finding.code == code; });
    return found == result.findings.end() ? nullptr : &*found;
}

/// A healthy run whose instrument asks for 300 s of warm-up at 23 degC.
synthetic::Bench healthy()
{
    auto bench = synthetic::bench();
    bench.instrument.calibration.temperature_C = 23.0;
    bench.instrument.calibration.warm_up_s = 300.0;
    bench.run.spans.front().from_s = 1.0;
    bench.run.environment.emplace();
    return bench;
}

double zero_at_s(const synthetic::Bench& bench) { return bench.run.spans.front().from_s; }

TEST(NotWarmedUp, holds_from_the_switching_on_to_the_zero)
{
    auto bench = healthy();
    bench.run.environment->instrument_on_s = 300.0 - zero_at_s(bench);
    EXPECT_EQ(finding_named(bench.result(), "not-warmed-up"), nullptr) << "just warm";
    bench.run.environment->instrument_on_s = 240.0 - zero_at_s(bench);
    const auto result = bench.result();
    const auto* found = finding_named(result, "not-warmed-up");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->severity, Severity::caution);
    EXPECT_THAT(found->text, HasSubstr("240 s after it was switched on"));
    EXPECT_THAT(found->text, HasSubstr("300 s of warm-up"));
    EXPECT_EQ(result.verdict, Outcome::pass) << "the zero's own drift judges, not the clock";
}

TEST(NotWarmedUp, is_a_note_where_nobody_said_how_long_it_had_been_on)
{
    auto bench = healthy();
    bench.run.environment->instrument_on_s = 0.0;
    const auto result = bench.result();
    const auto* found = finding_named(result, "not-warmed-up");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->severity, Severity::note);
    EXPECT_THAT(found->text, HasSubstr("after its line was opened"));
    bench.instrument.calibration.warm_up_s = zero_at_s(bench);
    EXPECT_EQ(finding_named(bench.result(), "not-warmed-up"), nullptr) << "the line alone was open for so long";
}

TEST(NotWarmedUp, says_nothing_of_a_run_log_that_knows_nothing)
{
    auto bench = healthy();
    EXPECT_EQ(finding_named(bench.result(), "not-warmed-up"), nullptr) << "as those of earlier versions";
    bench.run.environment->instrument_on_s = 0.0;
    bench.instrument.calibration.warm_up_s.reset();
    EXPECT_EQ(finding_named(bench.result(), "not-warmed-up"), nullptr) << "nothing is asked for";
}

TEST(RoomTemperature, is_named_beyond_the_house_figure_on_either_side)
{
    for (const double room_C : {17.9, 28.1}) {
        auto bench = healthy();
        bench.run.environment->temperature_C = room_C;
        const auto result = bench.result();
        const auto* found = finding_named(result, "room-temperature");
        ASSERT_NE(found, nullptr) << room_C;
        EXPECT_EQ(found->severity, Severity::caution);
        EXPECT_THAT(found->text, HasSubstr("house figure, no published source"));
        EXPECT_EQ(result.verdict, Outcome::pass);
    }
    for (const double room_C : {18.0, 28.0}) {
        auto bench = healthy();
        bench.run.environment->temperature_C = room_C;
        EXPECT_EQ(finding_named(bench.result(), "room-temperature"), nullptr) << room_C;
    }
}

TEST(RoomTemperature, stands_in_the_uncertainty_where_the_coefficient_is_stated)
{
    auto bench = healthy();
    bench.run.environment->temperature_C = 35.0;
    const double before = *bench.result().judgements.front().expanded_uncertainty;
    bench.instrument.calibration.temperature_coefficient = 0.02;
    const auto result = bench.result();
    EXPECT_EQ(finding_named(result, "room-temperature"), nullptr);
    EXPECT_GT(*result.judgements.front().expanded_uncertainty, before);
    bench.run.environment->temperature_C.reset();
    const auto unknown = bench.result();
    const auto* found = finding_named(unknown, "room-temperature");
    ASSERT_NE(found, nullptr) << "the papers say what a degree does, and nobody noted the degrees";
    EXPECT_EQ(found->severity, Severity::note);
}

} // namespace
} // namespace zeroline::verification
