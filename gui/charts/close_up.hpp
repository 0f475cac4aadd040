#pragma once

#include "gui/charts/overlay_picture.hpp"
#include "gui/session/result_view.hpp"

namespace zeroline::charts {

/// The plateaus of a preset about their limits: what lies outside is tinted, what is prescribed a dashed line, the
/// worst value a thick one in the colour of its verdict.
struct CloseUp {
    OverlayPicture cycles;
    session::ResultRow row;          ///< of a plateau, in cmH2O
    double from_s = 0.0, to_s = 1.0; ///< of the phase, from the onset of insufflation

    /// Axis of pressures: limits, prescription and worst value with room about them, the same each time.
    [[nodiscard]] Axis pressures() const;
    [[nodiscard]] Picture between(double from_s, double to_s, int columns) const;
};

/// Zero readings, each from its own beginning, on an axis of +-1 cmH2O at least, with the band in which they may lie.
struct ZeroCloseUp {
    std::vector<std::vector<session::LiveSample>> readings; ///< times from the beginning of each
    std::vector<QString> names;
    session::PressureBand band;

    [[nodiscard]] double length_s() const;
    [[nodiscard]] Picture between(double from_s, double to_s, int columns) const;
};

} // namespace zeroline::charts
