#include "gui/print/samples.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

constexpr double kIntervalsInAHole = 3.0;

} // namespace

Samples::Samples(const SavedRecord& record)
    : trace_(record.trace), zero_(record.figure("/zero/before").value_or(0.0)),
      longest_interval_s_(trace_.sampling.rate_hz > 0 ? kIntervalsInAHole / trace_.sampling.rate_hz : 1.0)
{
    for (std::size_t i = 1; i < trace_.size(); ++i) {
        if (trace_.time_s[i] - trace_.time_s[i - 1] > longest_interval_s_) {
            holes_.push_back({trace_.time_s[i - 1], trace_.time_s[i]});
            after_holes_.push_back(i);
        }
    }
}

Range Samples::time() const { return trace_.size() < 2 ? Range{} : Range{trace_.time_s.front(), trace_.time_s.back()}; }

Range Samples::pressure() const
{
    Range range{0.0, 0.0};
    for (std::size_t i = 0; i < trace_.size(); ++i) {
        range.take_in(pressure_at(i));
    }
    return range;
}

QPolygonF Samples::thinned(std::size_t first, std::size_t last, double step_s) const
{
    QPolygonF points;
    const auto point = [&](std::size_t i) { points << QPointF(trace_.time_s[i], pressure_at(i)); };
    while (first < last) {
        const double until = trace_.time_s[first] + step_s;
        std::size_t low = first;
        std::size_t high = first;
        std::size_t next = first;
        for (; next < last && trace_.time_s[next] <= until; ++next) {
            low = pressure_at(next) < pressure_at(low) ? next : low;
            high = pressure_at(next) > pressure_at(high) ? next : high;
        }
        point(std::min(low, high));
        if (low != high) {
            point(std::max(low, high));
        }
        first = next;
    }
    return points;
}

std::vector<QPolygonF> Samples::curves(double step_s) const
{
    std::vector<QPolygonF> curves;
    std::size_t first = 0;
    for (const auto next : after_holes_) {
        curves.push_back(thinned(first, next, step_s));
        first = next;
    }
    curves.push_back(thinned(first, trace_.size(), step_s));
    return curves;
}

std::optional<double> Samples::at(double time_s) const
{
    const auto& times = trace_.time_s;
    const auto after = std::lower_bound(times.begin(), times.end(), time_s);
    if (after == times.begin() || after == times.end()) {
        return std::nullopt;
    }
    const auto i = static_cast<std::size_t>(after - times.begin());
    const double interval = times[i] - times[i - 1];
    if (interval > longest_interval_s_) {
        return std::nullopt;
    }
    const double part = (time_s - times[i - 1]) / interval;
    return pressure_at(i - 1) + part * (pressure_at(i) - pressure_at(i - 1));
}

} // namespace zeroline::print
