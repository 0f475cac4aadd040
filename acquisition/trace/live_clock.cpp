#include "acquisition/trace/sample_clock.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace zeroline::trace {

namespace {

constexpr double kMemory_s = 20.0;
// The stated rate weighs as much as readings over this time.
constexpr double kTrustInNominal_s = 20.0;
constexpr double kFar_s = 0.1;
constexpr int kLost = 20;    // transfers in a row
constexpr int kBelieved = 5; // readings in a row whose count is far ahead: it was set anew
// Without a stated rate the first readings get this interval, until a second transfer tells.
constexpr double kUnknown_s = 1e-4;

} // namespace

LiveClock::LiveClock(std::optional<double> nominal_hz)
    : nominal_interval_s_(nominal_hz ? 1.0 / *nominal_hz : 0.0), interval_s_(nominal_interval_s_)
{
}

double LiveClock::line(double index) const noexcept { return mean_arrival_s_ + interval_s_ * (index - mean_index_); }

void LiveClock::start(double arrival_s, double index)
{
    interval_s_ = nominal_interval_s_;
    weight_ = 1.0;
    mean_index_ = index;
    mean_arrival_s_ = arrival_s;
    // As if readings at the stated rate had been seen before.
    const double readings = nominal_interval_s_ > 0.0 ? kTrustInNominal_s / nominal_interval_s_ : 0.0;
    s_ii_ = readings * readings / 12.0;
    s_ia_ = s_ii_ * nominal_interval_s_;
    astray_ = 0;
    ahead_ = 0;
}

/// One transfer more, by its freshest reading: sums that forget.
void LiveClock::learn(double arrival_s, double index)
{
    const bool far = interval_s_ > 0.0 && std::fabs(arrival_s - line(index)) > std::max(kFar_s, 10.0 * interval_s_);
    astray_ = far ? astray_ + 1 : 0;
    if (astray_ >= kLost) {
        start(arrival_s, index);
        return;
    }
    if (far) {
        return;
    }
    const double from_mean = index - mean_index_;
    const double passed_s = std::fabs(arrival_s - mean_arrival_s_) < kMemory_s ? arrival_s - newest_arrival_s_ : 0.0;
    const double keep = std::exp(-std::clamp(passed_s, 0.0, 1.0) / kMemory_s);
    weight_ = keep * weight_ + 1.0;
    mean_index_ += from_mean / weight_;
    mean_arrival_s_ += (arrival_s - mean_arrival_s_) / weight_;
    s_ii_ = keep * s_ii_ + from_mean * (index - mean_index_);
    s_ia_ = keep * s_ia_ + from_mean * (arrival_s - mean_arrival_s_);
    if (s_ii_ > 0.0 && s_ia_ > 0.0) {
        interval_s_ = s_ia_ / s_ii_;
    }
}

// No reading arrives before it was taken.
bool LiveClock::is_far_ahead(double arrival_s, double index) const noexcept
{
    return interval_s_ > 0.0 && line(index) - arrival_s > std::max(kFar_s, 10.0 * interval_s_);
}

double LiveClock::later(double time_s) noexcept
{
    last_s_ = running_ ? std::max(time_s, std::nextafter(last_s_, std::numeric_limits<double>::infinity())) : time_s;
    running_ = true;
    return last_s_;
}

double LiveClock::push(double arrival_s, std::int64_t index)
{
    const auto i = static_cast<double>(index);
    ahead_ = running_ && i > newest_index_ + 1.0 && is_far_ahead(arrival_s, i) ? ahead_ + 1 : 0;
    if (ahead_ > 0 && ahead_ < kBelieved) {
        return later(line(newest_index_ + 1.0));
    }
    if (!running_ || ahead_ >= kBelieved || i <= newest_index_) {
        start(arrival_s, i);
    } else if (arrival_s - newest_arrival_s_ > 0.25 * interval_s_) {
        learn(newest_arrival_s_, newest_index_);
    }
    newest_arrival_s_ = arrival_s;
    newest_index_ = i;
    const double interval_or_guess_s = interval_s_ > 0.0 ? 0.0 : kUnknown_s * (i - mean_index_);
    return later(line(i) + interval_or_guess_s);
}

} // namespace zeroline::trace
