#pragma once

#include "gui/print/samples.hpp"

#include <memory>

namespace zeroline::print {

/// What a figure is drawn from. Shared by the pieces that are drawn later.
struct Pictured {
    std::shared_ptr<const SavedRecord> record;
    std::shared_ptr<const Samples> samples;
    Numerals numerals;
};

/// The whole trace with spans, cycle numbers, tolerance bands, holes hatched.
[[nodiscard]] Piece trace_figure(const Pictured& pictured, double height_mm);

/// The judged cycles of a preset laid over one another, with their median and the tolerance bands.
[[nodiscard]] Piece overlay_figure(const Pictured& pictured, const QString& preset, double height_mm);

/// Limits of the pressure in each phase of a preset, as judged against the prescription; the pause's about its level.
struct Bands {
    std::optional<double> insufflation_lower, insufflation_upper;
    std::optional<double> exsufflation_lower, exsufflation_upper;
    std::optional<double> pause_lower, pause_upper;
};
[[nodiscard]] Bands bands_of(const SavedRecord& record, const QString& preset);
/// Draws the bands of one cycle, its times counted from `origin_s`.
void draw_bands(Plot& plot, const CycleRow& cycle, const Bands& bands, double origin_s);
/// Takes the bands' edges into the range of the pressure axis.
void take_in(Range& range, const Bands& bands);

} // namespace zeroline::print
