#pragma once

#include "analysis/signal/phases.hpp"
#include "gui/session/live_feed.hpp"

#include <optional>
#include <vector>

namespace zeroline::session {

/// What the pressure does right now, from live samples: which phases were seen, whether anything moves. Provisional.
class PressureWatch {
public:
    /// The zero reading that everything is seen against; the watch begins anew.
    void begin(double zero_cmH2O, double noise_cmH2O);
    [[nodiscard]] bool begun() const noexcept { return stream_.has_value(); }
    void push(const LiveSample& sample); ///< after begin() only
    /// Samples are missing here: a phase that spans the gap is not seen. Nothing happens before begin().
    void gap();

    /// Phases complete since the last call; none that began or ended unseen.
    [[nodiscard]] std::vector<signal::Phase> take();

    /// A level away from the pause, held for some tenths of a second: somebody or something presses.
    [[nodiscard]] bool pressing() const;
    /// Time since a level away from the pause was last seen; since the beginning where none was.
    [[nodiscard]] double still_for_s() const { return last_s_ - last_active_s_; }
    [[nodiscard]] double last_active_s() const noexcept { return last_active_s_; }
    [[nodiscard]] double pressure_cmH2O() const noexcept { return pressure_cmH2O_; } ///< newest, zero subtracted
    [[nodiscard]] double larger_plateau_cmH2O() const noexcept { return larger_cmH2O_; }

private:
    void begin_stream();
    [[nodiscard]] double threshold_cmH2O() const;
    void note_phases();

    double zero_cmH2O_ = 0.0;
    double noise_cmH2O_ = 0.0;
    double larger_cmH2O_ = 0.0;
    double pressure_cmH2O_ = 0.0;
    double first_s_ = 0.0;
    double last_s_ = 0.0;
    double last_active_s_ = 0.0;
    double active_since_s_ = 0.0;
    bool active_ = false;
    bool fresh_ = true;
    std::optional<signal::PhaseStream> stream_;
    std::vector<signal::Phase> phases_;
};

} // namespace zeroline::session
