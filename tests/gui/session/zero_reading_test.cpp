#include "gui/session/zero_reading.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <functional>

namespace {

using namespace zeroline::session;

std::optional<QuietStretch> read(ZeroReading& reading, double from_s, double to_s,
                                 const std::function<double(double)>& pressure)
{
    for (double t = from_s; t < to_s; t += 0.004) {
        if (const auto stretch = reading.push({t, pressure(t)})) {
            return stretch;
        }
    }
    return std::nullopt;
}

TEST(ZeroReading, a_still_line_gives_its_mean_after_five_seconds)
{
    ZeroReading reading;
    const auto stretch = read(reading, 0.0, 6.0, [](double) { return 0.25; });
    ASSERT_TRUE(stretch);
    EXPECT_NEAR(stretch->mean_cmH2O, 0.25, 1e-12);
    EXPECT_NEAR(stretch->to_s - stretch->from_s, 5.0, 0.01);
    EXPECT_FALSE(read(reading, 0.0, 0.0, [](double) { return 0.0; }));
}

TEST(ZeroReading, nothing_is_read_in_less_than_five_seconds)
{
    ZeroReading reading;
    EXPECT_FALSE(read(reading, 0.0, 4.9, [](double) { return 0.0; }));
    EXPECT_GT(reading.progress(), 0.9);
}

TEST(ZeroReading, single_spikes_do_not_disturb_it)
{
    ZeroReading reading;
    EXPECT_TRUE(read(reading, 0.0, 6.0, [](double t) { return std::fmod(t, 2.0) < 0.004 ? 60.0 : 0.0; }));
}

TEST(ZeroReading, a_breath_is_not_quiet)
{
    ZeroReading reading;
    EXPECT_FALSE(read(reading, 0.0, 20.0, [](double t) { return 1.5 * std::sin(2.0 * 3.14159 * 0.3 * t); }));
    EXPECT_TRUE(reading.disturbed());
    EXPECT_TRUE(reading.last_stretch());
}

TEST(ZeroReading, what_moved_at_first_is_left_behind)
{
    ZeroReading reading;
    const auto stretch = read(reading, 0.0, 20.0, [](double t) { return t < 2.0 ? 10.0 : 0.0; });
    ASSERT_TRUE(stretch);
    EXPECT_GE(stretch->from_s, 1.9);
    EXPECT_NEAR(stretch->mean_cmH2O, 0.0, 0.1);
}

TEST(ZeroReading, samples_that_come_too_early_do_not_count)
{
    ZeroReading reading;
    reading.begin(0.0);
    reading.not_before(3.5);
    const auto stretch = read(reading, 0.0, 20.0, [](double) { return 0.0; });
    ASSERT_TRUE(stretch);
    EXPECT_GE(stretch->from_s, 3.5);
}

TEST(ZeroReading, wide_noise_is_still_quiet)
{
    ZeroReading reading;
    unsigned state = 1;
    const auto noise = [&](double) {
        state = state * 1664525u + 1013904223u;
        return (static_cast<double>(state >> 8) / 16777216.0 - 0.5) * 2.0; // standard deviation 0.58
    };
    EXPECT_TRUE(read(reading, 0.0, 6.0, noise));
}

} // namespace
