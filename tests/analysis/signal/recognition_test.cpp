#include "analysis/signal/recognition.hpp"

#include "tests/analysis/signal/analytic.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace zeroline::signal {
namespace {

analytic::Trace cycles(double rate_hz, int spikes = 0)
{
    std::mt19937_64 random(5);
    analytic::Trouble trouble;
    trouble.spikes = spikes;
    return analytic::sampled(analytic::cycling({}), rate_hz, trouble, random);
}

TEST(Recognition, WholeBlocksLeadToTheDwellsThatSingleSamplesLeadTo)
{
    for (const double rate : {100.0, 250.0, 1000.0}) {
        const auto trace = cycles(rate, 20);
        const ZoneBounds bounds{-8.0, 8.0};
        Recognizer recognizer(bounds);
        std::vector<Dwell> one_by_one;
        for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
            if (const auto ended = recognizer.step(i, trace.time_s[i], trace.pressure_cmH2O[i])) {
                one_by_one.push_back(*ended);
            }
        }
        one_by_one.push_back(*recognizer.under_way());
        const auto by_blocks = dwells_of(trace.samples(), blocks_of(trace.pressure_cmH2O), bounds);
        ASSERT_EQ(by_blocks.size(), one_by_one.size()) << rate;
        for (std::size_t k = 0; k < by_blocks.size(); ++k) {
            EXPECT_EQ(by_blocks[k].zone, one_by_one[k].zone) << rate << ", " << k;
            EXPECT_EQ(by_blocks[k].first, one_by_one[k].first) << rate << ", " << k;
            EXPECT_EQ(by_blocks[k].last, one_by_one[k].last) << rate << ", " << k;
        }
    }
}

// Nothing is known beforehand; the kind is known 0.3 s after a phase has begun, spikes or not.
TEST(Recognition, LiveSamplesTellTheKindOfDwellThatIsThere)
{
    for (const int spikes : {0, 20}) {
        const auto pressure = analytic::cycling({});
        const auto trace = cycles(250.0, spikes);
        LiveRecognition live(0.1);
        const auto& segments = pressure.segments();
        std::size_t k = 0;
        for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
            live.push(trace.time_s[i], trace.pressure_cmH2O[i]);
            k += k + 1 < segments.size() && trace.time_s[i] >= segments[k + 1].start_s ? 1U : 0U;
            const double since_s = trace.time_s[i] - segments[k].start_s;
            // What the larger plateau is shows with the first one.
            if (k > 0 && since_s > 0.35) {
                ASSERT_TRUE(live.now()) << trace.time_s[i];
                EXPECT_EQ(*live.now(), segments[k].kind) << trace.time_s[i] << " s, " << spikes << " spikes";
            }
        }
    }
}

TEST(Recognition, BlocksHoldLowestHighestAndLargestStep)
{
    std::vector<double> pressure(150, 1.0);
    pressure[63] = -2.0;
    pressure[149] = 7.0;
    const auto blocks = blocks_of(pressure);
    ASSERT_EQ(blocks.size(), 3U);
    EXPECT_EQ(blocks[0].lowest_cmH2O, -2.0);
    EXPECT_EQ(blocks[1].largest_step_cmH2O, 3.0) << "from the last sample of the block before";
    EXPECT_EQ(blocks[2].highest_cmH2O, 7.0);
    EXPECT_EQ(blocks[2].largest_step_cmH2O, 6.0);
}

} // namespace
} // namespace zeroline::signal
