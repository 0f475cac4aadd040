#include "gui/session/pressure_watch.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace zeroline::session {

using signal::PhaseKind;

namespace {

// No unit presses less; a hand that puts a plug in moves the gas by some tenths.
constexpr double kLeast_cmH2O = 1.5;
// Where something toggles all the same, the instrument may read in a far larger unit.
constexpr double kLeastOfToggles_cmH2O = 0.15;
constexpr double kToggle_s = 1.0;
constexpr int kTogglesForSure = 3;
constexpr double kHeld_s = 0.3; ///< so long a level stands before it counts as pressing
constexpr double kStray_s = 0.1;
constexpr double kShareOfLarger = 0.2;
constexpr double kNoiseTimes = 10.0;
constexpr std::size_t kMostLevels = 100000;

/// The level of a dwell: the median of its outer half. A dwell is known to be over only some tenths of a second later,
/// when the next level has begun already.
double level_of(std::vector<double>& values, PhaseKind kind)
{
    const double rank = kind == PhaseKind::pause ? 0.5 : kind == PhaseKind::insufflation ? 0.75 : 0.25;
    const auto at = values.begin() + static_cast<std::ptrdiff_t>(rank * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    return *at;
}

} // namespace

void PressureWatch::begin(double zero_cmH2O, double noise_cmH2O)
{
    *this = PressureWatch();
    zero_cmH2O_ = zero_cmH2O;
    noise_cmH2O_ = noise_cmH2O;
    begin_recognition();
}

void PressureWatch::gap()
{
    if (begun()) {
        begin_recognition();
    }
}

void PressureWatch::begin_recognition()
{
    recognition_.emplace(noise_cmH2O_);
    active_ = false;
    now_.reset();
    whole_ = large_ = rested_ = rose_ = false;
    levels_.clear();
}

double PressureWatch::threshold_cmH2O() const
{
    const double least = small_toggles_ >= kTogglesForSure ? kLeastOfToggles_cmH2O : kLeast_cmH2O;
    return std::max({kNoiseTimes * noise_cmH2O_, kShareOfLarger * larger_cmH2O_, least});
}

void PressureWatch::push(const LiveSample& sample)
{
    last_s_ = sample.time_s;
    if (std::exchange(fresh_, false)) {
        last_active_s_ = last_s_;
    }
    pressure_cmH2O_ = sample.pressure_cmH2O - zero_cmH2O_;
    note_active();
    recognition_->push(last_s_, pressure_cmH2O_);
    note_dwell();
}

void PressureWatch::note_active()
{
    const bool active = std::fabs(pressure_cmH2O_) > threshold_cmH2O();
    if (active && !active_) {
        active_since_s_ = last_s_;
        rose_ = rose_ || rested_;
    }
    active_ = active;
    rested_ = rested_ || !active;
    // A single odd sample does not make the unit move.
    if (active_ && last_s_ - active_since_s_ > kStray_s) {
        last_active_s_ = last_s_;
    }
}

void PressureWatch::note_dwell()
{
    const auto now = recognition_->now();
    if (now != now_) {
        end_dwell();
        whole_ = now_.has_value();
        now_ = now;
        begin_dwell();
        large_ = false;
    }
    // What it began with (a plug that goes in moves the gas) is no part of the hold that followed.
    if (active_ && !large_) {
        large_ = true;
        whole_ = whole_ || rose_;
        begin_dwell();
    }
    if (levels_.size() < kMostLevels) {
        levels_.push_back(pressure_cmH2O_);
    }
}

void PressureWatch::begin_dwell()
{
    now_from_s_ = last_s_;
    levels_.clear();
}

void PressureWatch::end_dwell()
{
    if (!now_ || !whole_ || levels_.empty()) {
        return;
    }
    const double level_cmH2O = level_of(levels_, *now_);
    const Dwell dwell{*now_, now_from_s_, last_s_, level_cmH2O};
    // A rest a little beside zero may pass for a phase, and then the other one begins.
    const bool other_side = *now_ != PhaseKind::pause && (*now_ == PhaseKind::insufflation) != (level_cmH2O > 0.0);
    if (other_side) {
        return;
    }
    if (*now_ == PhaseKind::pause || std::fabs(level_cmH2O) > threshold_cmH2O()) {
        larger_cmH2O_ = std::max(larger_cmH2O_, *now_ == PhaseKind::pause ? 0.0 : std::fabs(level_cmH2O));
        dwells_.push_back(dwell);
    } else if (dwell.to_s - dwell.from_s > kToggle_s && last_small_ != now_) {
        last_small_ = now_;
        ++small_toggles_;
    }
}

std::vector<Dwell> PressureWatch::take() { return std::exchange(dwells_, {}); }

bool PressureWatch::pressing() const
{
    return active_ && last_s_ - active_since_s_ >= kHeld_s && now_ && *now_ != PhaseKind::pause;
}

} // namespace zeroline::session
