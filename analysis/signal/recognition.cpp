#include "analysis/signal/recognition.hpp"

#include <utility>

namespace zeroline::signal {

std::optional<Dwell> Recognizer::step(std::size_t index, double time_s, double pressure_cmH2O)
{
    const Zone zone = bounds_.zone_of(pressure_cmH2O);
    const double interval = begun_ ? time_s - time_s_ : 0.0;
    time_s_ = time_s;
    if (!begun_ || zone != run_.zone) {
        begun_ = true;
        run_ = Run{zone, index, 0.0};
    } else if (interval < kGap_s) {
        run_.seen_s += interval;
    }
    if (established_ && zone == dwell_.zone) {
        dwell_.last = index + 1;
        return std::nullopt;
    }
    // Times carry rounding: a dwell of exactly 0.2 s counts.
    if (run_.seen_s < kDwell_s - 1e-9) {
        return std::nullopt;
    }
    const Dwell ended = std::exchange(dwell_, Dwell{zone, run_.first, index + 1});
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
