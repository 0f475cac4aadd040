#pragma once

#include "gui/print/plot.hpp"

namespace zeroline::print {

/// The samples of a trace as they are drawn: the reading of the open port taken off.
class Samples {
public:
    explicit Samples(const SavedRecord& record);

    [[nodiscard]] Range time() const;
    [[nodiscard]] Range pressure() const;

    /// Stretches without a sample: longer than three usual intervals.
    struct Hole {
        double from_s, to_s;
    };
    [[nodiscard]] const std::vector<Hole>& holes() const { return holes_; }

    /// Curves between the holes, each thinned to the lowest and highest sample of every stretch of `step_s`.
    [[nodiscard]] std::vector<QPolygonF> curves(double step_s) const;

    /// Pressure at a moment, on the line between its neighbours; none outside the trace or in a hole.
    [[nodiscard]] std::optional<double> at(double time_s) const;

private:
    [[nodiscard]] double pressure_at(std::size_t index) const { return trace_.pressure_cmH2O[index] - zero_; }
    [[nodiscard]] QPolygonF thinned(std::size_t first, std::size_t last, double step_s) const;

    const trace::Trace& trace_;
    double zero_;
    double longest_interval_s_;
    std::vector<Hole> holes_;
    std::vector<std::size_t> after_holes_; ///< index of the first sample after each hole
};

} // namespace zeroline::print
