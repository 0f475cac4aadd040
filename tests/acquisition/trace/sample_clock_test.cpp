#include "acquisition/trace/sample_clock.hpp"

#include "tests/acquisition/trace/simulated_arrivals.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>

namespace zeroline::trace {
namespace {

using testing::Arrivals;
using testing::arrivals_over;
using testing::Line;
using testing::rms_but_for_a_constant;

// What the clock promises: 250 Hz through 16 ms batches, 80 ppm slow, whichever way the line is in trouble.
constexpr double kPromised_s = 0.3e-3;
constexpr double kPromised_ppm = 20.0;
constexpr StatedRate kStated{250.0, 100.0};
constexpr std::uint64_t kSeeds = 60;

std::vector<double> times_of(const ClockFit& fit, const Arrivals& arrivals)
{
    std::vector<double> time_s;
    for (const auto index : arrivals.index) {
        time_s.push_back(fit.time_of(static_cast<double>(index)));
    }
    return time_s;
}

double rms_s(const ClockFit& fit, const Arrivals& arrivals)
{
    return rms_but_for_a_constant(times_of(fit, arrivals), arrivals.true_s);
}

double ppm_off(const ClockFit& fit, const Line& line)
{
    return (fit.interval_s * line.nominal_hz / (1.0 + 1e-6 * line.clock_ppm) - 1.0) * 1e6;
}

class TroubledLine : public ::testing::TestWithParam<Line::Trouble> {};

TEST_P(TroubledLine, GivesTimesWithin300MicrosecondsAndTheRateWithin20PpmAfterAMinute)
{
    Line line;
    line.trouble = GetParam();
    for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
        const auto arrivals = arrivals_over(60.0, line, seed);
        for (const auto& stated : {std::optional<StatedRate>{}, std::optional(kStated)}) {
            const auto fit = fit_clock(arrivals.arrival_s, arrivals.index, stated);
            ASSERT_TRUE(fit);
            EXPECT_LT(rms_s(*fit, arrivals), kPromised_s) << seed;
            EXPECT_LT(std::fabs(ppm_off(*fit, line)), kPromised_ppm) << seed;
        }
    }
}

TEST_P(TroubledLine, GivesTimesWithin300MicrosecondsAfterFiveSeconds)
{
    Line line;
    line.trouble = GetParam();
    for (std::uint64_t seed = 1; seed <= 4 * kSeeds; ++seed) {
        const auto arrivals = arrivals_over(5.0, line, seed);
        EXPECT_LT(rms_s(*fit_clock(arrivals.arrival_s, arrivals.index, kStated), arrivals), kPromised_s) << seed;
        EXPECT_LT(rms_s(*fit_clock(arrivals.arrival_s, arrivals.index), arrivals), kPromised_s) << seed;
    }
}

TEST_P(TroubledLine, ShowsAClockFarBeyondWhatIsStated)
{
    Line line;
    line.trouble = GetParam();
    for (const double ppm : {-1000.0, -200.0, 200.0, 1000.0}) {
        line.clock_ppm = ppm;
        for (std::uint64_t seed = 1; seed <= 20; ++seed) {
            const auto arrivals = arrivals_over(60.0, line, seed);
            const auto fit = fit_clock(arrivals.arrival_s, arrivals.index, kStated);
            EXPECT_LT(std::fabs(ppm_off(*fit, line)), kPromised_ppm) << ppm << ' ' << seed;
        }
    }
}

TEST_P(TroubledLine, IsNamedWithItsBatches)
{
    Line line;
    line.trouble = GetParam();
    for (const double period_s : {0.008, 0.016, 0.032}) {
        line.period_s = period_s;
        const auto arrivals = arrivals_over(30.0, line, 3);
        const auto fit = fit_clock(arrivals.arrival_s, arrivals.index);
        ASSERT_TRUE(fit->batch_period_s) << period_s;
        EXPECT_NEAR(*fit->batch_period_s, period_s, 0.05 * period_s);
    }
}

std::string name_of_line(const ::testing::TestParamInfo<Line::Trouble>& line)
{
    static constexpr const char* kNames[] = {"Quiet", "TransferJitter", "StampJitter", "OneSidedDelay"};
    return kNames[static_cast<int>(line.param)];
}

INSTANTIATE_TEST_SUITE_P(Lines, TroubledLine,
                         ::testing::Values(Line::Trouble::none, Line::Trouble::transfer_jitter,
                                           Line::Trouble::stamp_jitter, Line::Trouble::one_sided_delay),
                         name_of_line);

TEST(SampleClock, ReadsAnEvenSeriesExactly)
{
    const std::vector<double> arrival_s{10.0, 10.5, 11.0, 11.5, 12.0};
    const std::vector<std::int64_t> index{7, 8, 9, 10, 11};
    const auto fit = fit_clock(arrival_s, index);
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->interval_s, 0.5, 1e-12);
    EXPECT_NEAR(fit->time_of(9.0), 11.0, 1e-12);
    EXPECT_NEAR(fit->residual_s, 0.0, 1e-9);
    EXPECT_FALSE(fit->batch_period_s);
}

TEST(SampleClock, HasNothingToSayOnTooLittle)
{
    EXPECT_FALSE(fit_clock({}, {}));
    EXPECT_FALSE(fit_clock(std::vector<double>{1.0}, std::vector<std::int64_t>{0}));
    EXPECT_FALSE(fit_clock(std::vector<double>{1.0, 1.0}, std::vector<std::int64_t>{0, 1}));
    EXPECT_TRUE(fit_clock(std::vector<double>{1.0, 1.1}, std::vector<std::int64_t>{0, 1}));
}

TEST(SampleClock, LeavesHolesWhereReadingsAreMissing)
{
    Line line;
    auto arrivals = arrivals_over(30.0, line, 5);
    Arrivals thinned;
    for (std::size_t i = 0; i < arrivals.index.size(); ++i) {
        const bool lost = i % 97 == 13 || (i > 3000 && i < 3400);
        if (!lost) {
            thinned.index.push_back(arrivals.index[i]);
            thinned.arrival_s.push_back(arrivals.arrival_s[i]);
            thinned.true_s.push_back(arrivals.true_s[i]);
        }
    }
    EXPECT_LT(rms_s(*fit_clock(thinned.arrival_s, thinned.index, kStated), thinned), kPromised_s);
}

// The computer was busy for 0.4 s, ten times: everything in between came late, and at once.
TEST(SampleClock, IsNotMisledByHoldUps)
{
    Line line;
    line.trouble = Line::Trouble::stamp_jitter;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        auto arrivals = arrivals_over(60.0, line, seed);
        for (auto& arrival_s : arrivals.arrival_s) {
            const double into_s = std::fmod(arrival_s, 6.0);
            arrival_s = into_s > 5.5 && into_s < 5.9 ? arrival_s - into_s + 5.9 : arrival_s;
        }
        const auto fit = fit_clock(arrivals.arrival_s, arrivals.index, kStated);
        EXPECT_LT(rms_s(*fit, arrivals), 2.0 * kPromised_s) << seed;
        EXPECT_LT(std::fabs(ppm_off(*fit, line)), 2.0 * kPromised_ppm) << seed;
    }
}

// An instrument that warms up: its rate moves by 60 ppm within ten minutes; a straight line would be 4 ms wrong.
TEST(SampleClock, FollowsAClockThatDrifts)
{
    Line line;
    line.wander_s = [](double t) { return 60e-6 / 600.0 * t * t / 2.0; };
    for (const auto trouble : {Line::Trouble::none, Line::Trouble::transfer_jitter, Line::Trouble::stamp_jitter,
                               Line::Trouble::one_sided_delay}) {
        line.trouble = trouble;
        const auto arrivals = arrivals_over(600.0, line, 9);
        const auto fit = fit_clock(arrivals.arrival_s, arrivals.index, kStated);
        EXPECT_LT(rms_s(*fit, arrivals), kPromised_s) << static_cast<int>(trouble);
        const auto straight = ClockFit{fit->interval_s, fit->first_s, 0.0, {}, {}, 0.0, 1.0};
        EXPECT_GT(rms_s(straight, arrivals), 1e-3) << "the drift is too small to prove anything";
    }
}

TEST(SampleClock, FollowsAnHourOfWandering)
{
    Line line;
    line.nominal_hz = 100.0;
    line.trouble = Line::Trouble::one_sided_delay;
    line.wander_s = [](double t) { return 20e-6 * 600.0 * std::sin(t / 600.0); };
    const auto arrivals = arrivals_over(3600.0, line, 2);
    EXPECT_LT(rms_s(*fit_clock(arrivals.arrival_s, arrivals.index), arrivals), 2.0 * kPromised_s);
}

TEST(SampleClock, IsAsGoodAtOtherRatesAndBatches)
{
    for (const double hz : {20.0, 50.0, 62.5, 100.0, 240.0, 1000.0, 10'000.0}) {
        for (const double period_s : {0.0, 0.001, 0.008, 0.016}) {
            Line line;
            line.nominal_hz = hz;
            line.period_s = period_s;
            line.trouble = Line::Trouble::one_sided_delay;
            const auto arrivals = arrivals_over(60.0, line, 4);
            const auto fit = fit_clock(arrivals.arrival_s, arrivals.index, StatedRate{hz, 100.0});
            // Rare readings leave more open, and a timer near their own rate most of all.
            const double allowed_s = std::max(kPromised_s, 0.1 / hz);
            EXPECT_LT(rms_s(*fit, arrivals), allowed_s) << hz << " Hz, " << period_s;
        }
    }
}

TEST(LiveClock, GivesStrictlyIncreasingTimesThatStayNearTheTruth)
{
    for (const auto& nominal : {std::optional<double>{}, std::optional(250.0)}) {
        Line line;
        line.trouble = Line::Trouble::one_sided_delay;
        const auto arrivals = arrivals_over(60.0, line, 6);
        LiveClock clock(nominal);
        std::vector<double> time_s, true_s;
        double before_s = -1.0;
        for (std::size_t i = 0; i < arrivals.index.size(); ++i) {
            const double now_s = clock.push(arrivals.arrival_s[i], arrivals.index[i]);
            ASSERT_GT(now_s, before_s);
            before_s = now_s;
            if (arrivals.true_s[i] > 5.0) {
                time_s.push_back(now_s);
                true_s.push_back(arrivals.true_s[i]);
            }
        }
        EXPECT_LT(rms_but_for_a_constant(time_s, true_s), 2e-3);
    }
}

TEST(LiveClock, IsCausal)
{
    Line line;
    const auto arrivals = arrivals_over(10.0, line, 6);
    LiveClock whole(250.0), half(250.0);
    std::vector<double> first, second;
    for (std::size_t i = 0; i < arrivals.index.size(); ++i) {
        first.push_back(whole.push(arrivals.arrival_s[i], arrivals.index[i]));
    }
    for (std::size_t i = 0; i < arrivals.index.size() / 2; ++i) {
        second.push_back(half.push(arrivals.arrival_s[i], arrivals.index[i]));
    }
    first.resize(second.size());
    EXPECT_EQ(first, second);
}

TEST(LiveClock, FindsItsFeetAgainAfterTheInstrumentWasAway)
{
    Line line;
    const auto before = arrivals_over(20.0, line, 6);
    LiveClock clock(250.0);
    for (std::size_t i = 0; i < before.index.size(); ++i) {
        static_cast<void>(clock.push(before.arrival_s[i], before.index[i]));
    }
    const auto after = arrivals_over(10.0, line, 7);
    double last_s = 0.0;
    for (std::size_t i = 0; i < after.index.size(); ++i) {
        // It was off for 7 s, and counts from 0 again.
        last_s = clock.push(after.arrival_s[i] + 27.0, after.index[i]);
    }
    EXPECT_NEAR(last_s, after.true_s.back() + 27.0, 0.02);
}

TEST(LiveClock, FollowsALineThatLostReadingsWithoutACount)
{
    LiveClock clock(250.0);
    double last_s = 0.0;
    double now_s = 0.0;
    for (std::int64_t i = 0; i < 10'000; ++i) {
        now_s += i == 5000 ? 3.0 : 0.004;
        last_s = clock.push(now_s, i);
    }
    EXPECT_NEAR(last_s, now_s, 0.02);
}

/// After a count that begins anew the clock is about to believe the next ones: one of them is damaged.
TEST(LiveClock, IsNotMovedByADamagedCountRightAfterACountThatBeganAnew)
{
    LiveClock clock(250.0);
    for (int i = 0; i < 6000; ++i) {
        const double arrival_s = 0.004 * i;
        const std::int64_t count = i == 5000 ? 0 : i == 5006 ? 505'006 : i;
        EXPECT_NEAR(clock.push(arrival_s, count), arrival_s, 0.03) << i;
    }
}

TEST(LiveClock, IsNotMovedByALoneCountThatWasDamaged)
{
    LiveClock clock(250.0);
    for (std::int64_t i = 0; i < 1000; ++i) {
        const double now_s = 0.004 * static_cast<double>(i);
        EXPECT_NEAR(clock.push(now_s, i % 100 == 50 ? 10 * i + 7 : i), now_s, 0.01) << i;
    }
}

TEST(LiveClock, FollowsACountThatWasSetAheadForGood)
{
    LiveClock clock(250.0);
    double last_s = 0.0;
    for (std::int64_t i = 0; i < 1000; ++i) {
        last_s = clock.push(0.004 * static_cast<double>(i), i < 500 ? i : i + 100'000);
    }
    EXPECT_NEAR(last_s, 0.004 * 999, 0.03);
}

} // namespace
} // namespace zeroline::trace
