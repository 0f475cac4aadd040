#include "tests/physics/plain.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::physics_study {

namespace {

std::size_t index_at(Series series, double time_s)
{
    const auto place = std::lower_bound(series.time_s.begin(), series.time_s.end(), time_s);
    return static_cast<std::size_t>(place - series.time_s.begin());
}

/// Time-weighted mean of the straight lines between the samples of a window.
double mean(Series series, double from_s, double to_s)
{
    const std::size_t first = index_at(series, from_s), end = index_at(series, to_s);
    if (end < first + 2)
        return first < series.time_s.size() ? series.pressure_cmH2O[first] : 0.0;
    double area = 0.0;
    for (std::size_t i = first + 1; i < end; ++i)
        area +=
            0.5 * (series.pressure_cmH2O[i - 1] + series.pressure_cmH2O[i]) * (series.time_s[i] - series.time_s[i - 1]);
    return area / (series.time_s[end - 1] - series.time_s[first]);
}

double level_of(Series series, bool pause, double from_s, double to_s)
{
    const double length_s = to_s - from_s;
    return pause ? mean(series, from_s + 0.75 * length_s, to_s)
                 : mean(series, from_s + 0.5 * length_s, from_s + 0.9 * length_s);
}

/// The edge between two levels, seen in [first, end) of the samples.
class Edge {
public:
    Edge(Series series, std::size_t first, std::size_t end, double from_cmH2O, double to_cmH2O)
        : series_(series), first_(first), end_(end), from_(from_cmH2O), step_(to_cmH2O - from_cmH2O)
    {
        for (std::size_t i = first_; i + 1 < end_; ++i)
            if (made(i) < 0.5 && made(i + 1) >= 0.5)
                middle_ = i;
    }

    [[nodiscard]] std::optional<double> middle_s() const { return middle_ ? crossing(*middle_, 0.5) : std::nullopt; }

    [[nodiscard]] std::optional<double> last_before_middle_s(double share) const
    {
        if (!middle_)
            return std::nullopt;
        for (std::size_t i = *middle_ + 1; i-- > first_;)
            if (made(i) < share)
                return crossing(i, share);
        return std::nullopt;
    }

    [[nodiscard]] std::optional<double> first_after_middle_s(double share) const
    {
        if (!middle_)
            return std::nullopt;
        for (std::size_t i = *middle_; i + 1 < end_; ++i)
            if (made(i + 1) >= share)
                return crossing(i, share);
        return std::nullopt;
    }

private:
    [[nodiscard]] double made(std::size_t i) const { return (series_.pressure_cmH2O[i] - from_) / step_; }

    [[nodiscard]] std::optional<double> crossing(std::size_t i, double share) const
    {
        const double part = (share - made(i)) / (made(i + 1) - made(i));
        return series_.time_s[i] + part * (series_.time_s[i + 1] - series_.time_s[i]);
    }

    Series series_;
    std::size_t first_, end_;
    double from_, step_;
    std::optional<std::size_t> middle_;
};

/// What is known of the phases so far: bounds that levels are taken between.
class Phases {
public:
    Phases(Series series, std::vector<Dwell> dwells)
        : series_(series), dwells_(std::move(dwells)), measured_(dwells_.size())
    {
    }

    void take_levels()
    {
        for (std::size_t k = 0; k < dwells_.size(); ++k)
            measured_[k].level_cmH2O = level_of(series_, dwells_[k].pause, dwells_[k].from_s, dwells_[k].to_s);
    }

    void take_edges()
    {
        for (std::size_t k = 0; k + 1 < dwells_.size(); ++k)
            take_edge(measured_[k], measured_[k + 1], centre(k), centre(k + 1));
    }

    /// The phases now lie between their onsets, or between the middles of their edges.
    void bound_by(std::optional<double> Measured::*in, std::optional<double> Measured::*out)
    {
        for (std::size_t k = 0; k < dwells_.size(); ++k) {
            dwells_[k].from_s = (measured_[k].*in).value_or(dwells_[k].from_s);
            dwells_[k].to_s = (measured_[k].*out).value_or(dwells_[k].to_s);
        }
    }

    void pass(std::optional<double> Measured::*in, std::optional<double> Measured::*out)
    {
        bound_by(in, out);
        take_levels();
        take_edges();
    }

    [[nodiscard]] const std::vector<Measured>& measured() const { return measured_; }

private:
    [[nodiscard]] double centre(std::size_t k) const { return 0.5 * (dwells_[k].from_s + dwells_[k].to_s); }

    void take_edge(Measured& before, Measured& after, double from_s, double to_s) const
    {
        const Edge edge(series_, index_at(series_, from_s), index_at(series_, to_s), before.level_cmH2O,
                        after.level_cmH2O);
        before.mid_out_s = after.mid_in_s = edge.middle_s();
        const auto ten = edge.last_before_middle_s(0.1), thirty = edge.last_before_middle_s(0.3);
        before.onset_out_s = after.onset_in_s = std::nullopt;
        if (ten && thirty)
            before.onset_out_s = after.onset_in_s = *ten - 0.5 * (*thirty - *ten);
        const auto ninety = edge.first_after_middle_s(0.9);
        after.time_10_90_s = ten && ninety ? std::optional(*ninety - *ten) : std::nullopt;
    }

    Series series_;
    std::vector<Dwell> dwells_;
    std::vector<Measured> measured_;
};

} // namespace

std::optional<double> Measured::duration_s() const
{
    return onset_in_s && onset_out_s ? std::optional(*onset_out_s - *onset_in_s) : std::nullopt;
}

std::optional<double> Measured::mid_level_duration_s() const
{
    return mid_in_s && mid_out_s ? std::optional(*mid_out_s - *mid_in_s) : std::nullopt;
}

namespace {

constexpr double kSettled_cmH2O = 0.2, kWorthMore_cmH2O = 1.5; // docs/decisions/passes-for-short-pauses.md
constexpr int kMostPasses = 14;

double farthest(const std::vector<Measured>& a, const std::vector<Measured>& b, const std::vector<bool>& pauses)
{
    double most = 0.0;
    for (std::size_t k = 0; k < a.size(); ++k)
        if (pauses[k])
            most = std::max(most, std::abs(a[k].level_cmH2O - b[k].level_cmH2O));
    return most;
}

/// More passes where a pause has not come to rest by the second.
std::vector<Measured> with_more_passes(Phases phases, const std::vector<bool>& pauses)
{
    const std::vector<Measured> second = phases.measured();
    std::vector<Measured> last = second;
    for (int pass = 2; pass < kMostPasses; ++pass) {
        phases.pass(&Measured::onset_in_s, &Measured::onset_out_s);
        const double moved = farthest(phases.measured(), last, pauses);
        last = phases.measured();
        if (moved < kSettled_cmH2O)
            break;
    }
    return farthest(last, second, pauses) > kWorthMore_cmH2O ? last : second;
}

} // namespace

std::vector<Measured> by_definition(Series series, std::vector<Dwell> dwells, Bounds bounds)
{
    std::vector<bool> pauses;
    for (const Dwell& dwell : dwells)
        pauses.push_back(dwell.pause);
    Phases phases(series, std::move(dwells));
    phases.take_levels();
    phases.take_edges();
    if (bounds == Bounds::rough)
        phases.pass(&Measured::mid_in_s, &Measured::mid_out_s);
    phases.pass(&Measured::onset_in_s, &Measured::onset_out_s);
    return with_more_passes(std::move(phases), pauses);
}

void name_values(std::vector<Value>& values, int cycle, signal::PhaseKind kind, const Measured& measured)
{
    const bool pause = kind == signal::PhaseKind::pause, blows = kind == signal::PhaseKind::insufflation;
    const std::string phase = pause ? "pause" : blows ? "insufflation" : "exsufflation";
    const auto add = [&](const std::string& name, std::optional<double> value) {
        if (value)
            values.push_back({cycle, name, *value});
    };
    add(phase + "-duration", measured.duration_s());
    add(phase + "-duration-mid-level", measured.mid_level_duration_s());
    add(pause ? "pause-residual" : phase + "-pressure", measured.level_cmH2O);
    add(pause ? "release-time" : blows ? "rise-time" : "swing-time", measured.time_10_90_s);
}

std::vector<Value> plain_values(const verification::Assessment& assessment, const trace::Trace& trace)
{
    std::vector<const signal::Phase*> phases;
    std::vector<int> cycles;
    for (const auto& cycle : assessment.cycles)
        for (const auto* phase : {&cycle.insufflation, &cycle.exsufflation, &cycle.pause})
            if (*phase) {
                phases.push_back(&**phase);
                cycles.push_back(cycle.index);
            }
    std::vector<Dwell> dwells;
    for (const auto* phase : phases)
        dwells.push_back({phase->kind == signal::PhaseKind::pause, phase->first_time_s, phase->last_time_s});
    std::vector<double> pressure(trace.pressure_cmH2O);
    for (double& value : pressure)
        value -= assessment.zero.before.value_or(0.0);
    const auto measured = by_definition({trace.time_s, pressure}, dwells, Bounds::middles);
    std::vector<Value> values;
    for (std::size_t k = 0; k < phases.size(); ++k)
        name_values(values, cycles[k], phases[k]->kind, measured[k]);
    return values;
}

} // namespace zeroline::physics_study
