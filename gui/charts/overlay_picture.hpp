#pragma once

#include "gui/charts/picture.hpp"
#include "gui/session/cycle_overlay.hpp"
#include "gui/session/run_marks.hpp"
#include "gui/session/trace_history.hpp"

#include <optional>
#include <vector>

namespace zeroline::charts {

/// What the cycles of a preset, laid over each other, are drawn from: thinned as a trace is, however many there are.
class OverlayPicture {
public:
    OverlayPicture() = default;
    /// `bands`: from the onset of insufflation. `earlier`: the median cycle of an earlier visit, may be empty.
    OverlayPicture(const session::CycleOverlay& overlay, std::vector<session::PhaseBand> bands,
                   const std::vector<session::LiveSample>& earlier = {});

    /// The words of the legend.
    struct Words {
        QString time_title, pressure_title, cycle, unjudged, median, earlier;
    };
    [[nodiscard]] Picture between(double from_s, double to_s, int columns, const Words& words) const;

    [[nodiscard]] double first_s() const noexcept { return first_s_; }
    [[nodiscard]] double last_s() const noexcept { return last_s_; }
    [[nodiscard]] double edge_cmH2O() const noexcept { return edge_cmH2O_; }
    [[nodiscard]] const session::TraceHistory& median() const noexcept { return median_; }
    [[nodiscard]] const std::vector<session::PhaseBand>& bands() const noexcept { return bands_; }

private:
    struct Cycle {
        bool judged = false;
        session::TraceHistory samples;
    };
    std::vector<Cycle> cycles_;
    session::TraceHistory median_, earlier_;
    std::vector<session::PhaseBand> bands_;
    double first_s_ = 0.0, last_s_ = 1.0;
    double edge_cmH2O_ = 50.0;
};

} // namespace zeroline::charts
