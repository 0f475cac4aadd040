#include "acquisition/trace/sample_clock.hpp"

#include <cmath>

namespace zeroline::trace {

std::optional<ClockFit> fit_clock(std::span<const double> arrival_s, std::span<const std::int64_t> index)
{
    const std::size_t n = arrival_s.size();
    if (n < 2) {
        return std::nullopt;
    }
    double mean_index = 0.0;
    double mean_arrival_s = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        mean_index += static_cast<double>(index[i]);
        mean_arrival_s += arrival_s[i];
    }
    mean_index /= static_cast<double>(n);
    mean_arrival_s /= static_cast<double>(n);
    double s_ii = 0.0;
    double s_ia = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const double offset = static_cast<double>(index[i]) - mean_index;
        s_ii += offset * offset;
        s_ia += offset * (arrival_s[i] - mean_arrival_s);
    }
    ClockFit fit;
    fit.interval_s = s_ia / s_ii;
    fit.first_s = mean_arrival_s - fit.interval_s * mean_index;
    double squares = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const double residual = arrival_s[i] - fit.time_of(static_cast<double>(index[i]));
        squares += residual * residual;
    }
    fit.residual_s = std::sqrt(squares / static_cast<double>(n));
    return fit;
}

LiveClock::LiveClock(std::optional<double> nominal_hz) : interval_s_(nominal_hz ? 1.0 / *nominal_hz : 0.0) {}

double LiveClock::push(double arrival_s, std::int64_t index)
{
    const double i = static_cast<double>(index);
    n_ += 1.0;
    const double from_mean = i - mean_index_;
    mean_index_ += from_mean / n_;
    mean_arrival_ += (arrival_s - mean_arrival_) / n_;
    s_ii_ += from_mean * (i - mean_index_);
    s_ia_ += from_mean * (arrival_s - mean_arrival_);
    if (s_ii_ > 0.0) {
        interval_s_ = s_ia_ / s_ii_;
    }
    const double time_s = mean_arrival_ + interval_s_ * (i - mean_index_);
    last_s_ = n_ > 1.0 ? std::fmax(time_s, std::nextafter(last_s_, INFINITY)) : time_s;
    return last_s_;
}

} // namespace zeroline::trace
