#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::trace {

/// What is known of an instrument's sample rate before anything was received.
struct StatedRate {
    double hz = 0.0;
    double tolerance_ppm = 0.0; ///< the clock keeps its rate within this, as its maker states
};

/// Sample times of a free-running instrument from the arrival times of its readings: arrival against count. Arrival
/// stamps come in batches and are never differenced.
struct ClockFit {
    double interval_s = 0.0; ///< between samples, mean over the series
    double first_s = 0.0;    ///< time of index 0 on the straight line
    double residual_s = 0.0; ///< rms of arrival minus fit of the freshest reading of each transfer; stalls clipped
    std::optional<double> batch_period_s; ///< transfers brought several readings each, this far apart

    // A clock that wanders: what is to be added to the straight line, at equally spaced indices. Empty: straight.
    std::vector<double> wander_s;
    double wander_begin = 0.0; ///< index of the first value
    double wander_step = 1.0;

    /// Sample time, on the scale of the arrival stamps: later by a constant that cannot be known.
    [[nodiscard]] double time_of(double index) const noexcept;
};

/// Final fit over a whole series. `index` increases strictly (lost readings leave holes), `arrival_s` does not run
/// backwards, both have the same length. A stated rate settles what the arrivals leave open, and yields to what they
/// show. Nothing where there are fewer than two readings, or where all arrived at once.
///
/// Method: docs/accuracy.md, "Sample clock". Cost: a few passes; memory beside the input: bounded.
[[nodiscard]] std::optional<ClockFit> fit_clock(std::span<const double> arrival_s, std::span<const std::int64_t> index,
                                                std::optional<StatedRate> stated = std::nullopt);

/// Causal sample times for the live display: provisional, bounded memory, strictly increasing. Follows with a memory of
/// about 20 s; starts afresh where the index runs backwards or arrivals keep away from what is expected. A lone index
/// far ahead of its time was damaged on the way and moves nothing.
class LiveClock {
public:
    explicit LiveClock(std::optional<double> nominal_hz);
    /// Time of the reading that arrived at `arrival_s`; `index` as above.
    [[nodiscard]] double push(double arrival_s, std::int64_t index);

private:
    void learn(double arrival_s, double index);
    void start(double arrival_s, double index);
    [[nodiscard]] double line(double index) const noexcept;
    [[nodiscard]] bool is_far_ahead(double arrival_s, double index) const noexcept;
    [[nodiscard]] double later(double time_s) noexcept;

    double nominal_interval_s_ = 0.0; ///< 0: not known
    double interval_s_ = 0.0;
    double weight_ = 0.0, mean_index_ = 0.0, mean_arrival_s_ = 0.0, s_ii_ = 0.0, s_ia_ = 0.0;
    double newest_arrival_s_ = 0.0, newest_index_ = 0.0; ///< of the transfer that is still open
    int astray_ = 0;                                     ///< transfers in a row that came far from the line
    int ahead_ = 0;                                      ///< readings in a row whose index was far ahead of its time
    bool running_ = false;
    double last_s_ = 0.0;
};

} // namespace zeroline::trace
