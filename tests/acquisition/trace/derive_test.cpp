#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/trace/simulated_arrivals.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace zeroline::trace {
namespace {

using testing::Arrivals;
using testing::arrivals_over;
using testing::Line;
using testing::rms_but_for_a_constant;

Instrument plain_instrument(double nominal_hz = 250.0)
{
    Instrument instrument;
    instrument.range = {-100.0, 100.0, 0.01, PressureUnit::cmH2O};
    instrument.nominal_hz = nominal_hz;
    instrument.clock_ppm = 100.0;
    return instrument;
}

RawTrace captured(const Arrivals& arrivals)
{
    RawTrace raw;
    raw.from_arrivals = true;
    raw.moment_s = arrivals.arrival_s;
    raw.count = arrivals.index;
    raw.pressure.assign(arrivals.index.size(), 1.0);
    return raw;
}

bool strictly_increasing(const std::vector<double>& values)
{
    return std::adjacent_find(values.begin(), values.end(), [](double a, double b) { return !(b > a); }) ==
           values.end();
}

TEST(Derive, KeepsTimesThatWereGiven)
{
    auto raw = parse_trace_csv("time_s,pressure_hPa\n0.5,9.80665\n0.504,19.6133\n0.508,0\n0.6,0\n");
    const auto trace = derive(std::move(raw), nullptr);
    EXPECT_EQ(trace.time_s, (std::vector<double>{0.5, 0.504, 0.508, 0.6}));
    EXPECT_NEAR(trace.pressure_cmH2O[0], 10.0, 1e-12);
    EXPECT_NEAR(trace.pressure_cmH2O[1], 20.0, 1e-12);
    EXPECT_NEAR(trace.sampling.rate_hz, 250.0, 1e-6);
    EXPECT_FALSE(trace.sampling.residual_s);
    EXPECT_FALSE(trace.sampling.from_arrivals);
}

TEST(Derive, IsEmptyForAnEmptyTraceAndHasNoRateForOneSample)
{
    for (const auto* header : {"time_s,pressure_Pa\n", "arrival_s,pressure_Pa,note\n"}) {
        EXPECT_EQ(derive(parse_trace_csv(header), nullptr).size(), 0U);
    }
    for (const auto* text : {"time_s,pressure_Pa\n1,2\n", "arrival_s,pressure_Pa,note\n1,2,\n"}) {
        const auto instrument = plain_instrument();
        const auto trace = derive(parse_trace_csv(text), &instrument);
        ASSERT_EQ(trace.size(), 1U);
        EXPECT_EQ(trace.time_s[0], 1.0);
        EXPECT_EQ(trace.sampling.rate_hz, 0.0);
    }
}

TEST(Derive, MakesReadingsWithoutValueEventsAndNotSamples)
{
    const auto trace =
        derive(parse_trace_csv("time_s,pressure_Pa,note\n0,1,\n1,,overrange\n2,3,door\n3,4,\n"), nullptr);
    EXPECT_EQ(trace.time_s, (std::vector<double>{0.0, 2.0, 3.0}));
    ASSERT_EQ(trace.events.size(), 2U);
    EXPECT_EQ(trace.events[0].kind, NoteKind::overrange);
    EXPECT_EQ(trace.events[0].time_s, 1.0);
    EXPECT_EQ(trace.events[1].text, "door");
    EXPECT_EQ(trace.events[1].time_s, 2.0);
}

TEST(Derive, CorrectsByTheCalibrationPoints)
{
    auto instrument = plain_instrument();
    instrument.calibration.points = {{0, 0.12}, {40, 40.31}};
    const auto trace = derive(parse_trace_csv("time_s,pressure_cmH2O\n0,20.20\n"), &instrument);
    EXPECT_NEAR(trace.pressure_cmH2O[0], 19.985070913, 5e-10);
}

TEST(Derive, ReportsRateErrorResidualAndBatches)
{
    Line line;
    line.clock_ppm = 200.0;
    const auto arrivals = arrivals_over(60.0, line, 1);
    const auto instrument = plain_instrument();
    const auto trace = derive(captured(arrivals), &instrument);
    EXPECT_NEAR(trace.sampling.rate_hz, 250.0 / 1.0002, 1e-3);
    EXPECT_NEAR(*trace.sampling.rate_error_ppm, -200.0, 5.0);
    EXPECT_NEAR(*trace.sampling.batch_period_s, 0.016, 0.001);
    EXPECT_GT(*trace.sampling.residual_s, 0.0);
    EXPECT_LT(*trace.sampling.residual_s, 0.005);
    EXPECT_EQ(trace.sampling.lost, 0);
    EXPECT_TRUE(trace.sampling.from_arrivals);
    EXPECT_TRUE(strictly_increasing(trace.time_s));
    EXPECT_LT(rms_but_for_a_constant(trace.time_s, arrivals.true_s), 0.3e-3);
}

TEST(Derive, SaysNothingOfARateErrorWithoutANominalRate)
{
    const auto trace = derive(captured(arrivals_over(10.0, Line{}, 1)), nullptr);
    EXPECT_FALSE(trace.sampling.rate_error_ppm);
    EXPECT_TRUE(trace.sampling.residual_s);
}

TEST(Derive, ListsReadingsLostByCount)
{
    auto raw = captured(arrivals_over(10.0, Line{}, 1));
    for (const std::size_t at : {2000U, 1000U}) {
        const std::ptrdiff_t begin = static_cast<std::ptrdiff_t>(at);
        raw.moment_s.erase(raw.moment_s.begin() + begin, raw.moment_s.begin() + begin + 3);
        raw.count.erase(raw.count.begin() + begin, raw.count.begin() + begin + 3);
        raw.pressure.erase(raw.pressure.begin() + begin, raw.pressure.begin() + begin + 3);
    }
    const auto trace = derive(std::move(raw), nullptr);
    EXPECT_EQ(trace.sampling.lost, 6);
    ASSERT_EQ(trace.lost.size(), 2U);
    EXPECT_EQ(trace.lost[0].after_sample, 999U);
    EXPECT_EQ(trace.lost[0].how_many, 3);
    EXPECT_EQ(trace.lost[1].after_sample, 1996U);
    EXPECT_NEAR(trace.time_s[1000] - trace.time_s[999], 4 * 0.004, 1e-5);
}

TEST(Derive, AnOverrangeReadingIsNotLost)
{
    auto raw = captured(arrivals_over(10.0, Line{}, 1));
    raw.pressure[500] = NAN;
    raw.notes.push_back({500, NoteKind::overrange, "overrange"});
    const auto trace = derive(std::move(raw), nullptr);
    EXPECT_EQ(trace.sampling.lost, 0);
    EXPECT_NEAR(trace.time_s[500] - trace.time_s[499], 2 * 0.004, 1e-5);
    ASSERT_EQ(trace.events.size(), 1U);
    EXPECT_NEAR(trace.events[0].time_s, trace.time_s[499] + 0.004, 1e-5);
}

/// Two stretches of capture, the second `gap_s` behind the first, with `lost` and `back` between, and no count.
RawTrace unplugged_and_back(const Arrivals& first, const Arrivals& second, double offset_s)
{
    auto raw = captured(first);
    raw.count.clear();
    const auto event = [&](double at_s, NoteKind kind) {
        raw.notes.push_back({raw.moment_s.size(), kind, std::string(word_of(kind))});
        raw.moment_s.push_back(at_s);
        raw.pressure.push_back(NAN);
    };
    event(raw.moment_s.back() + 0.1, NoteKind::lost);
    event(offset_s, NoteKind::back);
    for (std::size_t i = 0; i < second.index.size(); ++i) {
        raw.moment_s.push_back(second.arrival_s[i] + offset_s);
        raw.pressure.push_back(2.0);
    }
    return raw;
}

TEST(Derive, JumpsOverALineLossWithoutACount)
{
    Line line;
    const auto first = arrivals_over(20.0, line, 1);
    const auto second = arrivals_over(15.0, line, 2);
    const auto instrument = plain_instrument();
    const auto trace = derive(unplugged_and_back(first, second, 31.0), &instrument);
    ASSERT_EQ(trace.size(), first.index.size() + second.index.size());
    EXPECT_TRUE(strictly_increasing(trace.time_s));
    auto true_s = first.true_s;
    for (const double time_s : second.true_s) {
        true_s.push_back(time_s + 31.0);
    }
    // Each stretch has its own constant, as large as one sampling interval.
    EXPECT_LT(rms_but_for_a_constant(trace.time_s, true_s), 2.5e-3);
    ASSERT_EQ(trace.events.size(), 2U);
    EXPECT_EQ(trace.events[0].kind, NoteKind::lost);
    EXPECT_GT(trace.events[0].time_s, trace.time_s[first.index.size() - 1] - 0.02);
    EXPECT_LT(trace.events[1].time_s, trace.time_s[first.index.size()] + 0.02);
}

TEST(Derive, JumpsOverARestartOfTheInstrument)
{
    Line line;
    const auto first = arrivals_over(20.0, line, 1);
    const auto second = arrivals_over(3.0, line, 2);
    auto raw = unplugged_and_back(first, second, 31.0);
    raw.count = first.index;
    raw.count.insert(raw.count.end(), {-1, -1});
    raw.count.insert(raw.count.end(), second.index.begin(), second.index.end());
    const auto instrument = plain_instrument();
    const auto trace = derive(std::move(raw), &instrument);
    EXPECT_TRUE(strictly_increasing(trace.time_s));
    EXPECT_NEAR(trace.time_s.back(), second.true_s.back() + 31.0, 0.02);
    EXPECT_EQ(trace.sampling.lost, 0);
}

TEST(Derive, AReadingSentTwiceIsAnEvent)
{
    auto raw = captured(arrivals_over(10.0, Line{}, 1));
    raw.count[700] = raw.count[699];
    for (std::size_t i = 701; i < raw.count.size(); ++i) {
        --raw.count[i];
    }
    const std::size_t readings = raw.count.size();
    const auto trace = derive(std::move(raw), nullptr);
    EXPECT_EQ(trace.size(), readings - 1);
    ASSERT_EQ(trace.events.size(), 1U);
    EXPECT_EQ(trace.events[0].kind, NoteKind::other);
}

// Question and answer bracket the sample: their middle is taken as it is, not fitted to a clock that does not exist.
TEST(Derive, TakesPolledTimesAsTheyAre)
{
    auto instrument = plain_instrument(50.0);
    instrument.language.kind = Language::Kind::scpi_query;
    RawTrace raw;
    raw.from_arrivals = true;
    for (int i = 0; i < 100; ++i) {
        raw.moment_s.push_back(0.02 * i + (i % 7 == 0 ? 0.003 : 0.0));
        raw.pressure.push_back(i);
    }
    const auto moments_s = raw.moment_s;
    const auto trace = derive(std::move(raw), &instrument);
    EXPECT_EQ(trace.time_s, moments_s);
    EXPECT_FALSE(trace.sampling.rate_error_ppm);
    EXPECT_NEAR(*trace.sampling.residual_s, 0.017 / std::sqrt(12.0), 1e-6);
    EXPECT_NEAR(trace.sampling.rate_hz, 50.0, 1e-6);
}

TEST(Derive, TheRateIsTheMedianInterval)
{
    std::string text = "time_ms,pressure_Pa\n";
    double time_ms = 0.0;
    for (int i = 0; i < 1001; ++i) {
        text += std::to_string(time_ms) + ",0\n";
        time_ms += i % 10 == 0 ? 90.0 : (i % 2 == 0 ? 4.0 : 5.0);
    }
    EXPECT_NEAR(derive(parse_trace_csv(text), nullptr).sampling.rate_hz, 200.0, 1e-9);
}

TEST(Derive, IsTheSameEveryTime)
{
    Line line;
    line.trouble = Line::Trouble::stamp_jitter;
    const auto raw = captured(arrivals_over(30.0, line, 8));
    const auto instrument = plain_instrument();
    const auto first = derive(raw, &instrument);
    const auto second = derive(parse_trace_csv(to_csv(raw)), &instrument);
    EXPECT_EQ(first.time_s, second.time_s);
    EXPECT_EQ(first.pressure_cmH2O, second.pressure_cmH2O);
}

// An instrument that stamps its lines: holes are seen although nothing counts.
TEST(Derive, UsesTheInstrumentsClock)
{
    const auto arrivals = arrivals_over(20.0, Line{}, 1);
    auto raw = captured(arrivals);
    raw.count.clear();
    for (const auto index : arrivals.index) {
        raw.instrument_time_s.push_back(0.004 * static_cast<double>(index));
    }
    raw.moment_s.erase(raw.moment_s.begin() + 2000);
    raw.pressure.erase(raw.pressure.begin() + 2000);
    raw.instrument_time_s.erase(raw.instrument_time_s.begin() + 2000);
    const auto trace = derive(std::move(raw), nullptr);
    EXPECT_EQ(trace.sampling.lost, 1);
    EXPECT_NEAR(trace.time_s[2000] - trace.time_s[1999], 0.008, 1e-5);
}

} // namespace
} // namespace zeroline::trace
