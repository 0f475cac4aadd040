#include "acquisition/trace/calibration.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::trace {

namespace {

double factor(PressureUnit from, PressureUnit to) noexcept
{
    return from == to ? 1.0 : pascal_per(from) / pascal_per(to);
}

} // namespace

Correction::Correction(PressureUnit reading_unit) : range_to_cmH2O_(factor(reading_unit, PressureUnit::cmH2O)) {}

Correction::Correction(PressureUnit reading_unit, const Instrument& instrument)
    : reading_to_range_(factor(reading_unit, instrument.range.unit)),
      range_to_cmH2O_(factor(instrument.range.unit, PressureUnit::cmH2O)), points_(instrument.calibration.points)
{
}

double Correction::to_cmH2O(double reading) const noexcept
{
    const double indicated = reading * reading_to_range_;
    if (points_.empty()) {
        return indicated * range_to_cmH2O_;
    }
    const auto error = [](const CalibrationPoint& p) { return p.indicated - p.reference; };
    const auto above = std::find_if(points_.begin(), points_.end(),
                                    [&](const CalibrationPoint& p) { return indicated < p.indicated; });
    if (above == points_.begin()) {
        return (indicated - error(points_.front())) * range_to_cmH2O_;
    }
    if (above == points_.end()) {
        return (indicated - error(points_.back())) * range_to_cmH2O_;
    }
    const auto& low = *std::prev(above);
    const double share = (indicated - low.indicated) / (above->indicated - low.indicated);
    return (indicated - std::lerp(error(low), error(*above), share)) * range_to_cmH2O_;
}

} // namespace zeroline::trace
