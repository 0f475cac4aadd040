#include "analysis/signal/recognition.hpp"

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

} // namespace zeroline::signal
