#pragma once

#include "analysis/signal/recognition.hpp"
#include "gui/session/live_feed.hpp"

#include <optional>
#include <vector>

namespace zeroline::session {

/// A stretch at one level, as it was seen live: a hold of the hand, a phase of the unit, or the rest between them.
struct Dwell {
    signal::PhaseKind kind = signal::PhaseKind::pause;
    double from_s = 0.0;
    double to_s = 0.0;
    double level_cmH2O = 0.0; ///< about, zero subtracted
};

/// What the pressure does right now, from live samples. Provisional: what is recorded is measured at the end.
class PressureWatch {
public:
    /// The zero reading that everything is seen against; the watch begins anew.
    void begin(double zero_cmH2O, double noise_cmH2O);
    [[nodiscard]] bool begun() const noexcept { return recognition_.has_value(); }
    void push(const LiveSample& sample); ///< after begin() only
    /// Samples are missing here: a stretch that spans the gap is not seen. Nothing happens before begin().
    void gap();

    /// Stretches that have ended since the last call.
    [[nodiscard]] std::vector<Dwell> take();

    /// A level away from the pause, held for some tenths of a second: somebody or something presses.
    [[nodiscard]] bool pressing() const;
    /// What the newest samples are recognised as; none before the first ones, or right after a gap.
    [[nodiscard]] std::optional<signal::PhaseKind> now() const noexcept { return now_; }
    [[nodiscard]] double now_from_s() const noexcept { return now_from_s_; } ///< since when it is recognised as that
    /// Time since a level away from the pause was last seen; since the beginning where none was.
    [[nodiscard]] double still_for_s() const { return last_s_ - last_active_s_; }
    [[nodiscard]] double last_active_s() const noexcept { return last_active_s_; }
    [[nodiscard]] double pressure_cmH2O() const noexcept { return pressure_cmH2O_; } ///< newest, zero subtracted

private:
    void begin_recognition();
    [[nodiscard]] double threshold_cmH2O() const;
    void note_active();
    void note_dwell();
    void begin_dwell();
    void end_dwell();

    double zero_cmH2O_ = 0.0;
    double noise_cmH2O_ = 0.0;
    double larger_cmH2O_ = 0.0;
    double pressure_cmH2O_ = 0.0;
    double last_s_ = 0.0;
    double last_active_s_ = 0.0;
    double active_since_s_ = 0.0;
    bool active_ = false;
    bool fresh_ = true;
    bool whole_ = false;  ///< the present dwell was seen from its beginning
    bool large_ = false;  ///< it has left the neighbourhood of zero
    bool rested_ = false; ///< the stream has been near zero
    bool rose_ = false;   ///< and has left it after that
    int small_toggles_ = 0;
    std::optional<signal::LiveRecognition> recognition_;
    std::optional<signal::PhaseKind> now_;
    double now_from_s_ = 0.0;
    std::vector<double> levels_; ///< of the present dwell
    std::vector<Dwell> dwells_;
    std::optional<signal::PhaseKind> last_small_;
};

} // namespace zeroline::session
