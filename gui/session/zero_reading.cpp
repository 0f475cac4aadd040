#include "gui/session/zero_reading.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace zeroline::session {

namespace {

constexpr double kStill_cmH2O = 1.0; ///< farther from the middle than this: something moves
constexpr double kNoiseTimes = 8.0;  ///< unless the noise itself is so wide
constexpr double kStrayShare = 0.01; ///< so many samples may stand outside: spikes
constexpr double kHop_s = 0.5;       ///< a disturbed stretch is tried again so much later

double median_of(std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Half the width that holds the middle half of the samples, as a standard deviation: blind to spikes.
double robust_deviation(const std::vector<double>& values, double middle)
{
    std::vector<double> distances(values.size());
    std::transform(values.begin(), values.end(), distances.begin(),
                   [&](double value) { return std::fabs(value - middle); });
    return median_of(std::move(distances)) / 0.6745;
}

bool quiet(const std::vector<double>& values, double middle)
{
    // Noise between neighbours, not about the middle: a swing of breath must not pass as noise.
    std::vector<double> steps(values.size());
    for (std::size_t i = 1; i < values.size(); ++i) {
        steps[i] = std::fabs(values[i] - values[i - 1]);
    }
    const double noise = median_of(std::move(steps)) / 0.954;
    const double still = std::max(kStill_cmH2O, kNoiseTimes * noise);
    const auto stray =
        std::count_if(values.begin(), values.end(), [&](double value) { return std::fabs(value - middle) > still; });
    return static_cast<double>(stray) <= kStrayShare * static_cast<double>(values.size());
}

QuietStretch measured(const std::deque<LiveSample>& samples, const std::vector<double>& values, double middle)
{
    const double sum = std::accumulate(values.begin(), values.end(), 0.0);
    return {samples.front().time_s, samples.back().time_s, sum / static_cast<double>(values.size()),
            robust_deviation(values, middle)};
}

} // namespace

void ZeroReading::begin(double time_s)
{
    samples_.clear();
    not_before_s_ = time_s;
    disturbed_ = false;
    last_stretch_.reset();
}

void ZeroReading::not_before(double time_s)
{
    if (time_s > not_before_s_) {
        begin(time_s);
    }
}

std::optional<QuietStretch> ZeroReading::push(const LiveSample& sample)
{
    if (sample.time_s < not_before_s_) {
        return std::nullopt;
    }
    samples_.push_back(sample);
    if (samples_.back().time_s - samples_.front().time_s < length_s_) {
        return std::nullopt;
    }
    std::vector<double> values(samples_.size());
    std::transform(samples_.begin(), samples_.end(), values.begin(),
                   [](const LiveSample& one) { return one.pressure_cmH2O; });
    const double middle = median_of(values);
    last_stretch_ = measured(samples_, values, middle);
    if (!quiet(values, middle)) {
        disturbed_ = true;
        const double keep_from_s = samples_.front().time_s + kHop_s;
        while (!samples_.empty() && samples_.front().time_s < keep_from_s) {
            samples_.pop_front();
        }
        return std::nullopt;
    }
    return last_stretch_;
}

double ZeroReading::progress() const
{
    return samples_.empty() ? 0.0 : std::min(1.0, (samples_.back().time_s - samples_.front().time_s) / length_s_);
}

} // namespace zeroline::session
