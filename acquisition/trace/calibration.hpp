#pragma once

#include "acquisition/trace/instrument.hpp"
#include "acquisition/trace/trace.hpp"

namespace zeroline::trace {

/// Corrects readings by the calibration points, straight lines between them, no extrapolation: outside the points the
/// correction of the nearest point is kept, and the assessment says `outside-calibration`.
class Correction {
public:
    /// No correction: the reading is taken as it is, only its unit converted.
    explicit Correction(PressureUnit reading_unit);
    Correction(PressureUnit reading_unit, const Instrument& instrument);

    /// Pressure in cmH2O for a reading in the reading's unit.
    [[nodiscard]] double to_cmH2O(double reading) const noexcept;

private:
    double reading_to_range_ = 1.0; ///< reading's unit -> range's unit
    double range_to_cmH2O_ = 1.0;
    std::vector<CalibrationPoint> points_;
};

/// Sample times and corrected pressures from the raw evidence. Without an instrument the readings are only converted
/// and arrival times are fitted with no nominal rate. Never fails: a raw trace that was read is derivable.
[[nodiscard]] Trace derive(RawTrace raw, const Instrument* instrument);

} // namespace zeroline::trace
