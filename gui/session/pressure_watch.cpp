#include "gui/session/pressure_watch.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::session {

namespace {

constexpr double kLeast_cmH2O = 0.3; ///< before anything is known of the signal
constexpr double kHeld_s = 0.3;      ///< so long a level stands before it counts as pressing
constexpr double kShareOfLarger = 0.2;
constexpr double kNoiseTimes = 10.0;

} // namespace

void PressureWatch::begin(double zero_cmH2O, double noise_cmH2O)
{
    *this = PressureWatch();
    zero_cmH2O_ = zero_cmH2O;
    noise_cmH2O_ = noise_cmH2O;
    begin_stream();
}

void PressureWatch::gap()
{
    if (begun()) {
        begin_stream();
    }
}

void PressureWatch::begin_stream()
{
    signal::MeasureOptions options;
    options.noise_cmH2O = noise_cmH2O_;
    stream_.emplace(options);
    active_ = false;
}

double PressureWatch::threshold_cmH2O() const
{
    const double known = larger_cmH2O_ > 0.0 ? kShareOfLarger * larger_cmH2O_ : kLeast_cmH2O;
    return std::max(kNoiseTimes * noise_cmH2O_, known);
}

void PressureWatch::push(const LiveSample& sample)
{
    last_s_ = sample.time_s;
    if (std::exchange(fresh_, false)) {
        last_active_s_ = last_s_;
    }
    pressure_cmH2O_ = sample.pressure_cmH2O - zero_cmH2O_;
    const bool active = std::fabs(pressure_cmH2O_) > threshold_cmH2O();
    if (active && !active_) {
        active_since_s_ = last_s_;
    }
    active_ = active;
    // A single odd sample does not make the unit move.
    if (active_ && last_s_ - active_since_s_ > kHeld_s / 3.0) {
        last_active_s_ = last_s_;
    }
    stream_->push({{&last_s_, 1}, {&pressure_cmH2O_, 1}});
    note_phases();
}

void PressureWatch::note_phases()
{
    for (auto& phase : stream_->take()) {
        if (phase.plateau && phase.kind != signal::PhaseKind::pause) {
            larger_cmH2O_ = std::max(larger_cmH2O_, std::fabs(phase.plateau->value_cmH2O));
        }
        if (!phase.cut()) {
            phases_.push_back(std::move(phase));
        }
    }
}

std::vector<signal::Phase> PressureWatch::take() { return std::exchange(phases_, {}); }

bool PressureWatch::pressing() const
{
    const auto now = stream_->now();
    return active_ && last_s_ - active_since_s_ >= kHeld_s && now && *now != signal::PhaseKind::pause;
}

} // namespace zeroline::session
