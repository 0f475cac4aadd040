#pragma once

#include <cmath>
#include <numbers>

namespace zeroline::signal {

/// Sine and cosine of 2 pi frequency time, times exp(-decay time), for one time after the other. Even steps are turned,
/// not computed anew; every 64 of them, and after an uneven one, they are.
class Turner {
public:
    explicit Turner(double frequency_hz, double decay_per_s = 0.0) noexcept
        : rate_(2.0 * std::numbers::pi * frequency_hz), decay_per_s_(decay_per_s)
    {
    }

    void turn_to(double time_s) noexcept
    {
        constexpr int kMostSteps = 64;   // rounding stays below 1e-13
        constexpr double kEven_s = 2e-6; // what 20 Hz turns by in that is 0.00025
        if (steps_ >= 0 && steps_ < kMostSteps && std::abs(time_s - next_s()) <= kEven_s) {
            ++steps_;
            now_ = {now_.sine * by_step_.cosine + now_.cosine * by_step_.sine,
                    now_.cosine * by_step_.cosine - now_.sine * by_step_.sine};
            return;
        }
        const double step_s = steps_ < 0 ? 0.0 : time_s - (next_s() - step_s_);
        base_s_ = time_s;
        steps_ = 0;
        now_ = at(time_s);
        if (step_s > 0.0 && std::abs(step_s - step_s_) > kEven_s) {
            step_s_ = step_s;
            by_step_ = at(step_s);
        }
    }

    [[nodiscard]] double sine() const noexcept { return now_.sine; }
    [[nodiscard]] double cosine() const noexcept { return now_.cosine; }

private:
    struct Wave {
        double sine = 0.0, cosine = 1.0;
    };
    [[nodiscard]] Wave at(double time_s) const noexcept
    {
        const double strength = decay_per_s_ > 0.0 ? std::exp(-decay_per_s_ * time_s) : 1.0;
        return {strength * std::sin(rate_ * time_s), strength * std::cos(rate_ * time_s)};
    }
    [[nodiscard]] double next_s() const noexcept { return base_s_ + static_cast<double>(steps_ + 1) * step_s_; }

    double rate_, decay_per_s_;
    double base_s_ = 0.0; // where it was last computed
    double step_s_ = 0.0;
    int steps_ = -1; // since then; -1: never
    Wave now_, by_step_;
};

} // namespace zeroline::signal
