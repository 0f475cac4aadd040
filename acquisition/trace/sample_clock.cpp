#include "acquisition/trace/sample_clock.hpp"

#include "acquisition/trace/transfers.hpp"
#include "acquisition/trace/wander.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::trace {

namespace {

// Up to here a quartz is as good as straight, and the list of transfers small.
constexpr double kStraightFor_s = 300.0;
// Shorter than this there is nothing to see of a wandering clock.
constexpr double kWanderFrom_s = 20.0;
constexpr double kBin_s = 1.0;
constexpr double kPiece_s = 10.0;
// A clock's rate changes by so much from one piece to the next: a quartz that warms up, a computer's clock being
// steered.
constexpr double kBend = 1e-6;
constexpr double kMostBins = 20'000.0;

struct Series {
    std::span<const double> arrival_s;
    std::span<const std::int64_t> index;

    [[nodiscard]] double span_s() const { return arrival_s.back() - arrival_s.front(); }
    [[nodiscard]] double first_index() const { return static_cast<double>(index.front()); }
    [[nodiscard]] double index_span() const { return static_cast<double>(index.back()) - first_index(); }
    /// Per index, and per reading that came: not the same where readings were lost or the count is coarse.
    [[nodiscard]] double roughly_s() const { return span_s() / index_span(); }
    [[nodiscard]] double reading_s() const { return span_s() / static_cast<double>(index.size() - 1); }
};

template <class Take> void each_transfer(const Series& series, Take&& take)
{
    for_each_transfer(series.arrival_s, series.index, series.reading_s(), take);
}

std::vector<Transfer> transfers_of(const Series& series)
{
    std::vector<Transfer> list;
    each_transfer(series, [&](const Transfer& t) { list.push_back(t); });
    return list;
}

StampLine line_through_ends(const Series& series)
{
    const double interval_s = series.roughly_s();
    return {interval_s, series.arrival_s.front() - interval_s * series.first_index()};
}

std::vector<StampPoint> freshest(std::span<const Transfer> transfers)
{
    std::vector<StampPoint> points;
    points.reserve(transfers.size());
    for (const auto& t : transfers) {
        points.push_back({t.last, t.stamp_s});
    }
    return points;
}

/// The middle of the residuals of each second: a series of any length in little memory, stalls ironed out.
class SecondBins {
public:
    SecondBins(const StampLine& line, double width) : line_(line), width_(width) {}

    void add(const Transfer& t)
    {
        if (!residuals_.empty() && t.last >= begin_ + width_) {
            close();
        }
        if (residuals_.empty()) {
            begin_ = t.last;
        }
        residuals_.push_back(t.stamp_s - line_.at(t.last));
        sum_ += t.last - begin_;
    }

    void close()
    {
        if (residuals_.empty()) {
            return;
        }
        const double x = begin_ + sum_ / static_cast<double>(residuals_.size());
        const auto middle = residuals_.begin() + static_cast<std::ptrdiff_t>(residuals_.size() / 2);
        std::nth_element(residuals_.begin(), middle, residuals_.end());
        points_.push_back({x, *middle});
        residuals_.clear();
        sum_ = 0.0;
    }

    [[nodiscard]] const std::vector<StampPoint>& points() const { return points_; }

private:
    StampLine line_;
    double width_;
    double begin_ = 0.0;
    double sum_ = 0.0;
    std::vector<double> residuals_;
    std::vector<StampPoint> points_;
};

std::vector<StampPoint> seconds_of(const Series& series, const StampLine& line)
{
    const double bin_s = std::max(kBin_s, series.span_s() / kMostBins);
    SecondBins bins(line, bin_s / line.interval_s);
    each_transfer(series, [&](const Transfer& t) { bins.add(t); });
    bins.close();
    return bins.points();
}

/// How the freshest readings of some thousand transfers scatter about the fit.
double scatter_about(const Series& series, const ClockFit& fit)
{
    constexpr std::size_t some = 20'000;
    const std::size_t step = series.index.size() / some + 1;
    std::size_t seen = 0;
    std::vector<double> residuals;
    each_transfer(series, [&](const Transfer& t) {
        if (seen++ % step == 0) {
            residuals.push_back(t.stamp_s - fit.time_of(t.last));
        }
    });
    return residuals.empty() ? 0.0 : early_scatter(residuals);
}

double clipped_rms(const Series& series, const ClockFit& fit)
{
    const double most_s = 4.0 * scatter_about(series, fit);
    double squares = 0.0;
    double n = 0.0;
    each_transfer(series, [&](const Transfer& t) {
        const double off_s = std::min(std::fabs(t.stamp_s - fit.time_of(t.last)), most_s);
        squares += off_s * off_s;
        n += 1.0;
    });
    return n > 0.0 ? std::sqrt(squares / n) : 0.0;
}

/// A rate that nobody stated: instruments sample at a whole number of hertz, as well as a plain clock keeps it.
std::optional<StatedRate> guessed_rate(double interval_s)
{
    constexpr double near_a_whole_number = 2e-3;
    constexpr double plain_clock_ppm = 200.0;
    const double hz = std::round(1.0 / interval_s);
    if (hz < 1.0 || std::fabs(hz * interval_s - 1.0) > near_a_whole_number) {
        return std::nullopt;
    }
    return StatedRate{hz, plain_clock_ppm};
}

/// The interval nearest to `interval_s` within the bounds and, where they leave room for it, within what is stated.
double settled(double interval_s, const IntervalBounds& bounds, std::optional<StatedRate> stated)
{
    double low_s = bounds.low_s;
    double high_s = bounds.high_s;
    const auto rate = stated ? stated : guessed_rate(interval_s);
    if (rate) {
        const double off = 1e-6 * rate->tolerance_ppm;
        const double stated_low_s = 1.0 / rate->hz / (1.0 + off);
        const double stated_high_s = 1.0 / rate->hz / (1.0 - off);
        if (stated_low_s <= high_s && stated_high_s >= low_s) {
            low_s = std::max(low_s, stated_low_s);
            high_s = std::min(high_s, stated_high_s);
        }
    }
    return std::clamp(interval_s, low_s, high_s);
}

/// An interval between samples, and what the transfers say about it.
struct BoundedInterval {
    double interval_s = 0.0;
    IntervalBounds bounds;
};

std::optional<IntervalBounds> bounds_with_least(std::initializer_list<double> slacks_s,
                                                std::span<const Transfer> transfers, double interval_s)
{
    for (const double slack_s : slacks_s) {
        if (const auto bounds = interval_bounds(transfers, interval_s, slack_s)) {
            return bounds;
        }
    }
    return std::nullopt;
}

double between_ends_s(std::span<const Transfer> transfers)
{
    return (transfers.back().stamp_s - transfers.front().stamp_s) / (transfers.back().last - transfers.front().last);
}

bool all_on(const RegularBeat& beat, std::span<const Transfer> transfers, double reading_s)
{
    constexpr double clearly = 0.1;
    return beat.transfers.size() == transfers.size() && beat.scatter_s < 0.25 * clearly * reading_s;
}

/// How far the ends of the beat's line may be off: four times their standard deviation.
double uncertainty_of_ends_s(const RegularBeat& beat)
{
    return 4.0 * 2.0 * beat.scatter_s / std::sqrt(static_cast<double>(beat.transfers.size()));
}

/// What the transfers say: by their stamps where these agree with one another, else by the regular beat that they
/// scatter about. On a beat the slope between the ends is the better estimate: a sample's age runs up and down there
/// like a saw, and its teeth pull at a line of least squares.
std::optional<BoundedInterval> bounded_interval(std::span<const Transfer> transfers, double interval_s,
                                                double reading_s)
{
    const auto beat = on_a_regular_beat(transfers, interval_s, reading_s);
    if (const auto bounds = bounds_with_least({0.0, 0.02 * reading_s, 0.05 * reading_s}, transfers, interval_s)) {
        const bool kept = beat && all_on(*beat, transfers, reading_s);
        return BoundedInterval{kept ? between_ends_s(transfers) : interval_s, *bounds};
    }
    if (beat) {
        const double unsure_s = uncertainty_of_ends_s(*beat);
        if (const auto bounds = bounds_with_least(
                {0.5 * unsure_s + 0.005 * reading_s, unsure_s + 0.02 * reading_s, unsure_s + 0.05 * reading_s},
                beat->transfers, interval_s)) {
            return BoundedInterval{between_ends_s(beat->transfers), *bounds};
        }
    }
    if (const auto bounds = bounds_with_least({0.1 * reading_s, 0.2 * reading_s}, transfers, interval_s)) {
        return BoundedInterval{interval_s, *bounds};
    }
    return std::nullopt;
}

/// The line with another slope, kept where the middle of the points is.
StampLine with_interval(const StampLine& line, double interval_s, std::span<const StampPoint> points)
{
    const double middle = 0.5 * (points.front().index + points.back().index);
    return {interval_s, line.at(middle) - interval_s * middle};
}

std::optional<StampLine> straight_clock(const Series& series, std::optional<StatedRate> stated)
{
    const auto transfers = transfers_of(series);
    if (transfers.size() < 3) {
        return std::nullopt;
    }
    const auto points = freshest(transfers);
    const auto line = robust_line(points);
    if (!(line.interval_s > 0.0)) {
        return std::nullopt;
    }
    const auto bounded = bounded_interval(transfers, line.interval_s, series.reading_s());
    if (!bounded) {
        return std::nullopt;
    }
    return with_interval(line, settled(bounded->interval_s, bounded->bounds, stated), points);
}

ClockFit straight(const StampLine& line)
{
    ClockFit fit;
    fit.interval_s = line.interval_s;
    fit.first_s = line.first_s;
    return fit;
}

double lowest_slope(const ClockFit& fit)
{
    double lowest = 0.0;
    for (std::size_t i = 0; i + 1 < fit.wander_s.size(); ++i) {
        lowest = std::min(lowest, (fit.wander_s[i + 1] - fit.wander_s[i]) / fit.wander_step);
    }
    return fit.interval_s + lowest;
}

void add_wander(ClockFit& fit, const Series& series, std::span<const StampPoint> points)
{
    const double scatter_s = std::max(scatter_about(series, fit), 0.02 * series.reading_s());
    const auto pieces = static_cast<std::size_t>(std::ceil(series.span_s() / kPiece_s));
    std::vector<StampPoint> offsets(points.begin(), points.end());
    for (auto& p : offsets) {
        p.stamp_s -= fit.interval_s * p.index + fit.first_s;
    }
    auto curve = smooth(offsets, std::max<std::size_t>(pieces, 1), scatter_s, kBend * fit.interval_s);
    fit.wander_s = std::move(curve.values);
    fit.wander_begin = curve.begin;
    fit.wander_step = curve.step;
    if (!(lowest_slope(fit) > 0.5 * fit.interval_s)) {
        fit.wander_s.clear();
    }
}

/// Where nothing bounds the interval: least squares over the seconds, bent where the clock wanders.
ClockFit wandering_clock(const Series& series)
{
    const auto ends = line_through_ends(series);
    auto points = seconds_of(series, ends);
    for (auto& p : points) {
        p.stamp_s += ends.at(p.index);
    }
    if (points.size() < 2) {
        return straight(ends);
    }
    auto fit = straight(robust_line(points));
    if (!(fit.interval_s > 0.0)) {
        return straight(ends);
    }
    if (series.span_s() >= kWanderFrom_s) {
        add_wander(fit, series, points);
    }
    return fit;
}

std::optional<double> batch_period_s(const Series& series)
{
    constexpr double many_together = 1.7;
    constexpr std::size_t some = 20'000;
    std::vector<double> steps;
    double transfers = 0.0;
    double before_s = series.arrival_s.front();
    each_transfer(series, [&](const Transfer& t) {
        if (transfers++ > 0.0 && steps.size() < some) {
            steps.push_back(t.stamp_s - before_s);
        }
        before_s = t.stamp_s;
    });
    if (steps.size() < 3 || static_cast<double>(series.index.size()) < many_together * (transfers + 1.0)) {
        return std::nullopt;
    }
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

} // namespace

double ClockFit::time_of(double index) const noexcept
{
    const double line_s = first_s + interval_s * index;
    if (wander_s.size() < 2) {
        return line_s;
    }
    const double along = (index - wander_begin) / wander_step;
    const double piece = std::clamp(std::floor(along), 0.0, static_cast<double>(wander_s.size() - 2));
    const auto i = static_cast<std::size_t>(piece);
    return line_s + wander_s[i] + (along - piece) * (wander_s[i + 1] - wander_s[i]);
}

std::optional<ClockFit> fit_clock(std::span<const double> arrival_s, std::span<const std::int64_t> index,
                                  std::optional<StatedRate> stated)
{
    const Series series{arrival_s, index};
    if (arrival_s.size() < 2 || !(series.span_s() > 0.0)) {
        return std::nullopt;
    }
    const auto line = series.span_s() <= kStraightFor_s ? straight_clock(series, stated) : std::nullopt;
    auto fit = line ? straight(*line) : wandering_clock(series);
    fit.residual_s = clipped_rms(series, fit);
    fit.batch_period_s = batch_period_s(series);
    return fit;
}

} // namespace zeroline::trace
