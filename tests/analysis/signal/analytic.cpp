#include "tests/analysis/signal/analytic.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace zeroline::signal::analytic {
namespace {

using Curve = std::function<double(double)>;

// Second order, natural frequency 1, unit step (textbook closed form; damping below 1).
double second_order(double damping, double time)
{
    if (time <= 0.0) {
        return 0.0;
    }
    const double damped = std::sqrt(1.0 - damping * damping);
    return 1.0 - std::exp(-damping * time) * (std::cos(damped * time) + damping / damped * std::sin(damped * time));
}

double two_poles(double time) { return time <= 0.0 ? 0.0 : 1.0 - (1.0 + time) * std::exp(-time); }

double bisected(const Curve& curve, double target, double low, double high)
{
    for (int k = 0; k < 80; ++k) {
        const double middle = (low + high) / 2.0;
        (curve(middle) < target ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

// Time in units of the shape's own scale between the first 10 % and the first 90 % point.
double own_10_90(const Curve& curve, double first_peak)
{
    return bisected(curve, 0.9, 0.0, first_peak) - bisected(curve, 0.1, 0.0, first_peak);
}

double second_order_10_90(double damping)
{
    thread_local double known_damping = -1.0;
    thread_local double known = 0.0;
    if (damping != known_damping) {
        known_damping = damping;
        known = own_10_90([damping](double t) { return second_order(damping, t); },
                          std::numbers::pi / std::sqrt(1.0 - damping * damping));
    }
    return known;
}

} // namespace

const char* name_of(Shape shape)
{
    switch (shape) {
    case Shape::exponential:
        return "exponential";
    case Shape::ramp:
        return "ramp";
    case Shape::second_order:
        return "second-order";
    case Shape::raised_cosine:
        return "raised-cosine";
    case Shape::two_poles:
        return "two-poles";
    case Shape::gaussian:
        return "gaussian";
    }
    return "?";
}

double unit_step(const EdgeForm& form, double time_s)
{
    if (time_s <= 0.0) {
        return 0.0;
    }
    switch (form.shape) {
    case Shape::exponential:
        return 1.0 - std::exp(-time_s * std::log(9.0) / form.edge_s);
    case Shape::ramp:
        return std::min(1.0, 0.8 * time_s / form.edge_s);
    case Shape::second_order:
        return second_order(form.damping, time_s * second_order_10_90(form.damping) / form.edge_s);
    case Shape::raised_cosine: {
        // 10 % lies at acos(0.8), 90 % at pi minus that.
        const double whole_s = form.edge_s * std::numbers::pi / (std::numbers::pi - 2.0 * std::acos(0.8));
        return time_s >= whole_s ? 1.0 : 0.5 - 0.5 * std::cos(std::numbers::pi * time_s / whole_s);
    }
    case Shape::two_poles:
        return two_poles(time_s * 3.357908561 / form.edge_s);
    case Shape::gaussian: {
        // 10-90 % takes 2.5631 deviations; the middle lies four deviations after the command.
        const double deviation_s = form.edge_s / 2.563103131;
        return 0.5 * std::erfc(-(time_s / deviation_s - 4.0) / std::numbers::sqrt2);
    }
    }
    return 0.0;
}

CleanPressure::CleanPressure(std::vector<Segment> segments, double end_s)
    : segments_(std::move(segments)), end_s_(end_s)
{
    from_.push_back(segments_.front().level_cmH2O);
    for (std::size_t k = 1; k < segments_.size(); ++k) {
        const Segment& before = segments_[k - 1];
        const double share = unit_step(before.form, segments_[k].start_s - before.start_s);
        from_.push_back(from_[k - 1] + share * (before.level_cmH2O - from_[k - 1]));
    }
}

std::size_t CleanPressure::segment_at(double time_s) const
{
    const auto after = std::upper_bound(segments_.begin(), segments_.end(), time_s,
                                        [](double time, const Segment& segment) { return time < segment.start_s; });
    return after == segments_.begin() ? 0 : static_cast<std::size_t>(after - segments_.begin() - 1);
}

double CleanPressure::base_at(double time_s) const
{
    const std::size_t k = segment_at(time_s);
    const Segment& segment = segments_[k];
    return from_[k] + unit_step(segment.form, time_s - segment.start_s) * (segment.level_cmH2O - from_[k]);
}

double CleanPressure::at(double time_s) const
{
    const Segment& segment = segments_[segment_at(time_s)];
    const double swing = segment.oscillation_cmH2O *
                         std::sin(2.0 * std::numbers::pi * segment.oscillation_hz * (time_s - segment.start_s));
    return base_at(time_s) + swing;
}

namespace {

double true_mean(const CleanPressure& pressure, double from_s, double to_s)
{
    constexpr int kPieces = 600; // Simpson
    const double width = (to_s - from_s) / kPieces;
    double sum = pressure.base_at(from_s) + pressure.base_at(to_s);
    for (int k = 1; k < kPieces; ++k) {
        sum += (k % 2 == 1 ? 4.0 : 2.0) * pressure.base_at(from_s + k * width);
    }
    return sum * width / 3.0 / (to_s - from_s);
}

// Where a curve reaches `fraction` between two times at which it lies below and above.
double halved(const std::function<double(double)>& along, double low, double high, double fraction)
{
    for (int j = 0; j < 50; ++j) {
        const double middle = (low + high) / 2.0;
        (along(middle) < fraction ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

// The first crossing of the middle after the command; below it the last crossing of the fraction before that (a ring of
// the phase that is left may lie above the 10 % point when the command comes), above it the first after that.
double true_crossing(const CleanPressure& pressure, double earliest_s, double command_s, double to_s, double from_level,
                     double to_level, double fraction)
{
    const auto along = [&](double time) { return (pressure.base_at(time) - from_level) / (to_level - from_level); };
    const double step = 1e-3;
    double mid = command_s;
    while (mid < to_s && along(mid) < 0.5) {
        mid += step;
    }
    double time = mid;
    if (fraction <= 0.5) {
        while (time > earliest_s && along(time) >= fraction) {
            time -= step;
        }
        return halved(along, time, time + step, fraction);
    }
    while (time < to_s && along(time) < fraction) {
        time += step;
    }
    return halved(along, time - step, time, fraction);
}

struct Bounds {
    double from_s, to_s;
};

Bounds level_window(PhaseKind kind, double from_s, double to_s)
{
    const double length = to_s - from_s;
    return kind == PhaseKind::pause ? Bounds{from_s + 0.75 * length, to_s}
                                    : Bounds{from_s + 0.5 * length, from_s + 0.9 * length};
}

} // namespace

std::vector<Truth> truth_of(const CleanPressure& pressure)
{
    const auto& segments = pressure.segments();
    std::vector<Truth> truth(segments.size());
    for (std::size_t k = 0; k < segments.size(); ++k) {
        truth[k].level_cmH2O = segments[k].level_cmH2O;
        truth[k].mid_s = segments[k].start_s;
    }
    const auto end_of = [&](std::size_t k) {
        return k + 1 < segments.size() ? segments[k + 1].start_s : pressure.end_s();
    };
    const auto crossing = [&](std::size_t k, double fraction) {
        const double earliest_s = (segments[k - 1].start_s + segments[k].start_s) / 2.0;
        return true_crossing(pressure, earliest_s, segments[k].start_s, end_of(k), truth[k - 1].level_cmH2O,
                             truth[k].level_cmH2O, fraction);
    };
    const auto take_levels = [&](auto start_of) {
        for (std::size_t k = 0; k < segments.size(); ++k) {
            const double from = k > 0 ? start_of(k) : segments[0].start_s;
            double to = k + 1 < segments.size() ? start_of(k + 1) : pressure.end_s();
            if (k == 0 && segments[0].kind == PhaseKind::pause && segments.size() > 1) {
                to = from + 0.7 * (to - from); // cut by the beginning: farther from the foot of the first edge
            }
            Bounds window = level_window(segments[k].kind, from, to);
            if (segments[k].oscillation_cmH2O > 0.0) {
                // The longest whole number of periods that ends at 90 % and begins at 30 % or later.
                const double periods = std::floor(0.6 * (to - from) * segments[k].oscillation_hz);
                window.from_s =
                    periods >= 1.0 ? window.to_s - periods / segments[k].oscillation_hz : from + 0.3 * (to - from);
            }
            truth[k].window_from_s = window.from_s;
            truth[k].window_to_s = window.to_s;
        }
        for (Truth& one : truth) {
            one.level_cmH2O = true_mean(pressure, one.window_from_s, one.window_to_s);
        }
    };
    const auto take_middles = [&] {
        std::vector<double> middles(segments.size());
        for (std::size_t k = 1; k < segments.size(); ++k) {
            middles[k] = crossing(k, 0.5);
        }
        for (std::size_t k = 1; k < segments.size(); ++k) {
            truth[k].mid_s = middles[k];
        }
    };
    const auto take_onsets = [&] {
        std::vector<Truth> next = truth;
        for (std::size_t k = 1; k < segments.size(); ++k) {
            next[k].onset_s = 1.5 * crossing(k, 0.1) - 0.5 * crossing(k, 0.3);
            next[k].time_10_90_s = crossing(k, 0.9) - crossing(k, 0.1);
        }
        truth = next;
    };
    take_middles(); // between the commanded levels: they bound the provisional phases
    take_levels([&](std::size_t k) { return truth[k].mid_s; });
    take_onsets();
    take_levels([&](std::size_t k) { return truth[k].onset_s; });
    take_onsets();
    take_middles();
    return truth;
}

double true_band_entry(const CleanPressure& pressure, double from_s, double to_s, double centre, double half_width)
{
    constexpr int kSteps = 4000;
    const double step = (to_s - from_s) / kSteps;
    int k = kSteps;
    // The foot of the edge that ends the pause is no exit.
    while (k > 0 && std::abs(pressure.base_at(from_s + (k - 1) * step) - centre) > half_width) {
        --k;
    }
    while (k-- > 0) {
        const double time = from_s + k * step;
        if (std::abs(pressure.base_at(time) - centre) > half_width) {
            return time + step / 2.0;
        }
    }
    return from_s;
}

Trace sampled(const CleanPressure& pressure, double rate_hz, const Trouble& trouble, std::mt19937_64& random)
{
    Trace trace;
    std::normal_distribution<double> noise(0.0, 1.0);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const double interval = 1.0 / rate_hz;
    const double offset = unit(random) * interval;
    const auto count = static_cast<std::size_t>((pressure.end_s() - offset) * rate_hz);
    for (std::size_t i = 0; i < count; ++i) {
        const double time = offset + static_cast<double>(i) * interval;
        trace.time_s.push_back(time);
        trace.pressure_cmH2O.push_back(pressure.at(time) + trouble.noise_cmH2O * noise(random));
    }
    for (int k = 0; k < trouble.spikes; ++k) {
        const auto at = std::min(count - 1, static_cast<std::size_t>(unit(random) * static_cast<double>(count)));
        trace.pressure_cmH2O[at] += unit(random) < 0.5 ? trouble.spike_cmH2O : -trouble.spike_cmH2O;
    }
    return trace;
}

namespace {

// The last crossing of `fraction` before the first sustained crossing of the middle, straight lines between samples.
double plain_crossing(Samples samples, double near_s, double from_level, double to_level, double fraction)
{
    const auto along = [&](std::size_t i) {
        return (samples.pressure_cmH2O[i] - from_level) / (to_level - from_level);
    };
    const auto begin = samples.time_s.begin();
    auto i = static_cast<std::size_t>(std::lower_bound(begin, samples.time_s.end(), near_s) - begin);
    i = std::clamp<std::size_t>(i, 1, samples.size() - 1);
    if (fraction > 0.5) {
        while (i + 1 < samples.size() && along(i) < fraction) {
            ++i;
        }
    } else {
        while (i + 1 < samples.size() && along(i) < fraction) {
            ++i;
        }
        while (i > 1 && along(i - 1) >= fraction) {
            --i;
        }
    }
    const double below = along(i - 1);
    const double above = along(i);
    const double share = above > below ? std::clamp((fraction - below) / (above - below), 0.0, 1.0) : 0.5;
    return samples.time_s[i - 1] + share * (samples.time_s[i] - samples.time_s[i - 1]);
}

double plain_mean(Samples samples, double from_s, double to_s)
{
    double sum = 0.0;
    double count = 0.0;
    const auto begin = samples.time_s.begin();
    for (auto i = static_cast<std::size_t>(std::lower_bound(begin, samples.time_s.end(), from_s) - begin);
         i < samples.size() && samples.time_s[i] <= to_s; ++i) {
        sum += samples.pressure_cmH2O[i];
        count += 1.0;
    }
    return count > 0.0 ? sum / count : 0.0;
}

} // namespace

std::vector<Truth> plain_definition(Samples samples, const CleanPressure& pressure, const std::vector<Truth>& truth)
{
    std::vector<Truth> plain = truth;
    const auto& segments = pressure.segments();
    const auto place = [&] {
        const std::vector<Truth> levels = plain;
        for (std::size_t k = 1; k < segments.size(); ++k) {
            const auto crossing = [&](double fraction) {
                return plain_crossing(samples, truth[k].mid_s, levels[k - 1].level_cmH2O, levels[k].level_cmH2O,
                                      fraction);
            };
            plain[k].onset_s = 1.5 * crossing(0.1) - 0.5 * crossing(0.3);
            plain[k].mid_s = crossing(0.5);
            plain[k].time_10_90_s = crossing(0.9) - crossing(0.1);
        }
    };
    place();
    for (std::size_t k = 0; k < segments.size(); ++k) {
        const double from = k > 0 ? plain[k].onset_s : 0.0;
        const double to = k + 1 < segments.size() ? plain[k + 1].onset_s : pressure.end_s();
        const Bounds window = level_window(segments[k].kind, from, to);
        plain[k].level_cmH2O = plain_mean(samples, window.from_s, window.to_s);
    }
    place();
    return plain;
}

CleanPressure cycling(const CycleForm& form)
{
    std::vector<Segment> segments;
    double time = 0.0;
    const auto add = [&](PhaseKind kind, double level, double length_s, double oscillation) {
        segments.push_back({kind, level, time, form.form, oscillation, form.oscillation_hz});
        time += length_s;
    };
    const double lead_s = 1.0 + form.form.edge_s;
    add(PhaseKind::pause, form.rest_cmH2O, lead_s, 0.0);
    for (int k = 0; k < form.cycles; ++k) {
        add(PhaseKind::insufflation, form.insufflation_cmH2O, form.insufflation_s, form.oscillation_cmH2O);
        add(PhaseKind::exsufflation, form.exsufflation_cmH2O, form.exsufflation_s, form.oscillation_cmH2O);
        if (form.pause_s > 0.0 && k + 1 < form.cycles) {
            add(PhaseKind::pause, form.rest_cmH2O, form.pause_s, 0.0);
        }
    }
    add(PhaseKind::pause, form.rest_cmH2O, lead_s + 2.0 * form.form.edge_s, 0.0);
    return CleanPressure(std::move(segments), time);
}

} // namespace zeroline::signal::analytic
