#pragma once

#include "analysis/signal/blocks.hpp"
#include "analysis/signal/phases.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace zeroline::signal {

/// Which side of the rest a dwell lies on: -1, 0 or +1.
using Zone = int;

/// Where the zones meet. Above `upper` is +1, below `lower` is -1.
struct ZoneBounds {
    double lower_cmH2O = 0.0;
    double upper_cmH2O = 0.0;
    [[nodiscard]] Zone zone_of(double pressure_cmH2O) const noexcept
    {
        return static_cast<Zone>(pressure_cmH2O > upper_cmH2O) - static_cast<Zone>(pressure_cmH2O < lower_cmH2O);
    }
};

/// A stay in one zone of at least 0.2 s; shorter visits elsewhere do not end it. Where a pressure swings in and out of
/// a zone, times out of it of up to 0.13 s are bridged as long as it is in it for the longer part.
struct Dwell {
    Zone zone = 0;
    std::size_t first = 0; ///< first sample in the zone
    std::size_t last = 0;  ///< one past the last sample in the zone
};

/// Turns samples into dwells, one sample or one run at a time.
class Recognizer {
public:
    static constexpr double kDwell_s = 0.2;    ///< shortest dwell: no unit's phase is set shorter than 0.3 s
    static constexpr double kGap_s = 0.15;     ///< a longer interval holds no evidence of a dwell
    static constexpr double kBridged_s = 0.13; ///< half a period of 4 Hz: slower ones stay on one side

    explicit Recognizer(ZoneBounds bounds) : bounds_(bounds) {}

    void set_bounds(ZoneBounds bounds) noexcept { bounds_ = bounds; }
    [[nodiscard]] ZoneBounds bounds() const noexcept { return bounds_; }

    /// The next sample. Returns the dwell that has just ended, once the one after it has lasted.
    std::optional<Dwell> step(std::size_t index, double time_s, double pressure_cmH2O);

    /// How far samples may be skipped that all lie in the present zone: only where a dwell is established and nothing
    /// else is under way.
    [[nodiscard]] bool steady() const noexcept { return established_ && run_.zone == dwell_.zone; }
    /// Takes samples up to `last` (exclusive), all in the present zone, the newest at `time_s`. Only where steady().
    void skip_to(std::size_t last, double time_s) noexcept;

    /// The dwell under way, as far as it has come; none before the first has lasted.
    [[nodiscard]] std::optional<Dwell> under_way() const;

private:
    struct Run {
        Zone zone = 0;
        std::size_t first = 0;
        double seen_s = 0.0; // time spent in it, gaps left out
    };

    // Visits to a zone, those parted by no more than can be bridged taken together.
    struct Visits {
        bool any = false;
        std::size_t first = 0;
        double seen_s = 0.0;
        double out_s = 0.0;
        double last_s = 0.0; // time of the last sample in the zone
    };
    [[nodiscard]] bool lasted(const Visits& visits) const noexcept;
    void visit(Visits& visits, std::size_t index, double interval_s, bool came_from_outside) const noexcept;

    ZoneBounds bounds_;
    bool begun_ = false;
    bool established_ = false;
    double time_s_ = 0.0;
    Run run_;
    std::array<Visits, 3> visits_; // to the zones -1, 0 and +1, since the dwell under way was established
    Dwell dwell_;
};

[[nodiscard]] PhaseKind kind_of(Zone zone) noexcept;

/// The dwells of a whole stretch, the last of them as far as it has come. `blocks` are those of its pressures.
[[nodiscard]] std::vector<Dwell> dwells_of(Samples samples, const std::vector<Block>& blocks, ZoneBounds bounds);

/// The kind of dwell that live samples are in. What the trace's larger plateau and noise will be is not known yet: what
/// has been held so far is. Provisional; what is recorded is measured at the end.
class LiveRecognition {
public:
    /// `noise_cmH2O`: standard deviation at the open port; 0: learned from the first samples.
    explicit LiveRecognition(double noise_cmH2O);

    /// The next sample; times strictly increasing, zero subtracted.
    void push(double time_s, double pressure_cmH2O);
    /// None before anything has lasted.
    [[nodiscard]] std::optional<PhaseKind> now() const;

private:
    void learn(double time_s);

    double noise_cmH2O_;
    double larger_plateau_cmH2O_ = 0.0;
    Recognizer recognizer_;
    std::size_t seen_ = 0;
    std::size_t probes_ = 0;
    double next_probe_s_ = 0.0;
    std::array<double, 3> newest_{};
    std::array<double, 50> bends_{}; ///< second differences: enough for a median to a tenth
    std::array<double, 11> held_{};  ///< one every kProbe_s: a dwell of 0.2 s
};

} // namespace zeroline::signal
