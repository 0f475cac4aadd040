#include "analysis/signal/recognition.hpp"

#include "analysis/signal/held_levels.hpp"
#include "analysis/signal/shape.hpp"
#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace zeroline::signal {

// Times carry rounding: a dwell of exactly 0.2 s counts.
bool Recognizer::lasted(const Visits& visits) const noexcept
{
    return visits.seen_s >= kDwell_s - 1e-9 && visits.seen_s > visits.out_s;
}

void Recognizer::visit(Visits& visits, std::size_t index, double interval_s, bool came_from_outside) const noexcept
{
    const double away_s = time_s_ - visits.last_s;
    if (!visits.any || away_s > kBridged_s) {
        visits = Visits{true, index};
    } else if (came_from_outside) {
        visits.out_s += away_s;
    } else {
        visits.seen_s += interval_s < kGap_s ? interval_s : 0.0;
    }
    visits.last_s = time_s_;
}

std::optional<Dwell> Recognizer::step(std::size_t index, double time_s, double pressure_cmH2O)
{
    const Zone zone = bounds_.zone_of(pressure_cmH2O);
    if (established_ && zone == dwell_.zone && zone == run_.zone) {
        skip_to(index + 1, time_s);
        return std::nullopt;
    }
    const double interval = begun_ ? time_s - time_s_ : 0.0;
    const bool came_from_outside = !begun_ || zone != run_.zone;
    time_s_ = time_s;
    if (came_from_outside) {
        begun_ = true;
        run_ = Run{zone, index, 0.0};
    } else if (interval < kGap_s) {
        run_.seen_s += interval;
    }
    if (established_ && zone == dwell_.zone) {
        dwell_.last = index + 1;
        return std::nullopt;
    }
    Visits& visits = visits_[static_cast<std::size_t>(zone + 1)];
    visit(visits, index, interval, came_from_outside);
    const bool stayed = run_.seen_s >= kDwell_s - 1e-9;
    if (!stayed && !lasted(visits)) {
        return std::nullopt;
    }
    const Dwell ended = std::exchange(dwell_, Dwell{zone, stayed ? run_.first : visits.first, index + 1});
    visits_ = {};
    return std::exchange(established_, true) ? std::optional<Dwell>(ended) : std::nullopt;
}

void Recognizer::skip_to(std::size_t last, double time_s) noexcept
{
    dwell_.last = last;
    time_s_ = time_s;
    run_.seen_s = kDwell_s; // the zone is established: how long it has lasted no longer matters
}

std::optional<Dwell> Recognizer::under_way() const
{
    return established_ ? std::optional<Dwell>(dwell_) : std::nullopt;
}

PhaseKind kind_of(Zone zone) noexcept
{
    if (zone == 0) {
        return PhaseKind::pause;
    }
    return zone > 0 ? PhaseKind::insufflation : PhaseKind::exsufflation;
}

namespace {

// Whether all of a block lies in a zone, clear of its bounds: a value on a bound is left to the closer look.
bool within(const Block& block, Zone zone, ZoneBounds bounds)
{
    const bool above = zone < 0 || block.lowest_cmH2O > (zone > 0 ? bounds.upper_cmH2O : bounds.lower_cmH2O);
    const bool below = zone > 0 || block.highest_cmH2O < (zone < 0 ? bounds.lower_cmH2O : bounds.upper_cmH2O);
    return above && below;
}

} // namespace

std::vector<Dwell> dwells_of(Samples samples, const std::vector<Block>& blocks, ZoneBounds bounds)
{
    Recognizer recognizer(bounds);
    std::vector<Dwell> dwells;
    for (std::size_t i = 0; i < samples.size();) {
        // Whole blocks that stay where the dwell is need no closer look.
        if (i % kBlock == 0 && recognizer.steady() &&
            within(blocks[i / kBlock], recognizer.under_way()->zone, bounds)) {
            i = std::min(samples.size(), i + kBlock);
            recognizer.skip_to(i, samples.time_s[i - 1]);
            continue;
        }
        if (const auto ended = recognizer.step(i, samples.time_s[i], samples.pressure_cmH2O[i])) {
            dwells.push_back(*ended);
        }
        ++i;
    }
    if (const auto last = recognizer.under_way()) {
        dwells.push_back(*last);
    }
    return dwells;
}

namespace {

ZoneBounds bounds_about_zero(double noise_cmH2O, double larger_plateau_cmH2O)
{
    const double threshold = phase_threshold(noise_cmH2O, larger_plateau_cmH2O);
    return {-threshold, threshold};
}

} // namespace

LiveRecognition::LiveRecognition(double noise_cmH2O)
    : noise_cmH2O_(noise_cmH2O), recognizer_(bounds_about_zero(noise_cmH2O, 0.0))
{
}

void LiveRecognition::push(double time_s, double pressure_cmH2O)
{
    newest_ = {newest_[1], newest_[2], pressure_cmH2O};
    if (++seen_ >= newest_.size() && (probes_ == 0 || time_s >= next_probe_s_)) {
        learn(time_s);
    }
    // A single sample elsewhere ends no dwell.
    static_cast<void>(recognizer_.step(seen_ - 1, time_s, pressure_cmH2O));
}

void LiveRecognition::learn(double time_s)
{
    next_probe_s_ = time_s + kProbe_s;
    bends_[probes_ % bends_.size()] = std::abs(newest_[0] - 2.0 * newest_[1] + newest_[2]);
    held_[probes_ % held_.size()] = median_of_three(newest_[0], newest_[1], newest_[2]);
    ++probes_;
    if (probes_ < bends_.size()) {
        return;
    }
    if (probes_ == bends_.size() && noise_cmH2O_ <= 0.0) {
        noise_cmH2O_ = noise_of_bends({bends_.begin(), bends_.end()});
    }
    const auto [low, high] = std::minmax_element(held_.begin(), held_.end());
    const double held = std::max(*low, -*high);
    if (held > larger_plateau_cmH2O_) {
        larger_plateau_cmH2O_ = held;
        recognizer_.set_bounds(bounds_about_zero(noise_cmH2O_, larger_plateau_cmH2O_));
    }
}

std::optional<PhaseKind> LiveRecognition::now() const
{
    const auto dwell = recognizer_.under_way();
    return dwell ? std::optional(kind_of(dwell->zone)) : std::nullopt;
}

} // namespace zeroline::signal
