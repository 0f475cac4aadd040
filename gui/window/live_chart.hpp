#pragma once

#include "gui/session/live_feed.hpp"

#include <QWidget>

#include <span>

namespace zeroline::window {

/// Draws the last seconds of a trace. The only place where Qt Charts is used.
///
/// The cost of a frame depends on the width in pixels, not on how many samples stand behind it.
class LiveChart : public QWidget {
    Q_OBJECT
public:
    explicit LiveChart(QWidget* parent = nullptr);

    /// Shows `samples` (time order) with the newest at the right edge and `seconds` from edge to edge.
    void show_samples(std::span<const session::LiveSample> samples, double seconds);

    /// How many points the line has at the moment.
    [[nodiscard]] int points() const;
    /// The pressures at the lower and upper edge, in cmH2O. They grow with the trace and never shrink by themselves.
    [[nodiscard]] double lower_edge_cmH2O() const;
    [[nodiscard]] double upper_edge_cmH2O() const;
    /// Back to the first edges.
    void reset_edges();

private:
    class Picture;
    Picture* picture_; ///< owned by this widget, as its child
};

} // namespace zeroline::window
