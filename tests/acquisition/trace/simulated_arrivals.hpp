#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <random>
#include <vector>

namespace zeroline::trace::testing {

/// A free-running instrument behind a bridge that empties its buffer on a timer of the computer.
struct Line {
    enum class Trouble { none, transfer_jitter, stamp_jitter, one_sided_delay };

    double nominal_hz = 250.0;
    double clock_ppm = 80.0; ///< how much slower than nominal the instrument samples
    double period_s = 0.016; ///< of the bridge's timer; 0: every reading comes at once
    Trouble trouble = Trouble::none;
    double size_s = 0.002; ///< half-width of the jitter
    double mean_delay_s = 0.001;
    std::function<double(double)> wander_s = [](double) { return 0.0; }; ///< of the instrument's clock, by time
};

struct Arrivals {
    std::vector<double> true_s;
    std::vector<double> arrival_s;
    std::vector<std::int64_t> index;
};

/// When the bridge empties its buffer, and which moment the computer writes down for it.
struct Emptied {
    double at_s = 0.0;
    double stamp_s = 0.0;
};

inline Emptied emptied(const Line& line, double timer_s, std::mt19937_64& random)
{
    std::uniform_real_distribution<double> jitter(-line.size_s, line.size_s);
    std::exponential_distribution<double> delay(1.0 / line.mean_delay_s);
    switch (line.trouble) {
    case Line::Trouble::none:
        return {timer_s, timer_s};
    case Line::Trouble::transfer_jitter: {
        const double at_s = timer_s + jitter(random);
        return {at_s, at_s};
    }
    case Line::Trouble::stamp_jitter:
        return {timer_s, timer_s + jitter(random)};
    case Line::Trouble::one_sided_delay:
        return {timer_s, timer_s + delay(random)};
    }
    return {timer_s, timer_s};
}

/// Readings over `duration_s`; the phases of sampling and of the timer are drawn at random.
inline Arrivals arrivals_over(double duration_s, const Line& line, std::uint64_t seed)
{
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> anywhere(0.0, 1.0);
    const double interval_s = 1.0 / line.nominal_hz * (1.0 + 1e-6 * line.clock_ppm);
    const double period_s = line.period_s > 0.0 ? line.period_s : interval_s / 64.0;
    const double first_s = anywhere(random) * interval_s;
    double timer_s = anywhere(random) * period_s;
    Emptied now = emptied(line, timer_s, random);
    double last_stamp_s = 0.0;
    Arrivals out;
    for (std::int64_t k = 0; first_s + interval_s * static_cast<double>(k) < duration_s; ++k) {
        const double clock_s = first_s + interval_s * static_cast<double>(k);
        const double true_s = clock_s + line.wander_s(clock_s);
        while (now.at_s < true_s) {
            timer_s += period_s;
            now = emptied(line, timer_s, random);
        }
        last_stamp_s = std::max(last_stamp_s, now.stamp_s);
        out.true_s.push_back(true_s);
        out.arrival_s.push_back(last_stamp_s);
        out.index.push_back(k);
    }
    return out;
}

/// Root mean square of `time_s` minus the truth, one constant removed: a delay that is always the same cannot be seen.
inline double rms_but_for_a_constant(const std::vector<double>& time_s, const std::vector<double>& true_s)
{
    double mean = 0.0;
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        mean += (time_s[i] - true_s[i]) / static_cast<double>(time_s.size());
    }
    double squares = 0.0;
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        squares += std::pow(time_s[i] - true_s[i] - mean, 2.0);
    }
    return std::sqrt(squares / static_cast<double>(time_s.size()));
}

} // namespace zeroline::trace::testing
