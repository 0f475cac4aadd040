#pragma once

#include "analysis/signal/beside_columns.hpp"
#include "analysis/signal/thinning.hpp"

#include <array>
#include <vector>

namespace zeroline::signal {

/// The middle part of a phase in which an oscillation is looked for, thinned; time and pressure about their middles.
struct OscillationWindow {
    std::vector<double> time_s;         ///< from the middle on
    std::vector<double> pressure_cmH2O; ///< less `level_cmH2O`
    double level_cmH2O = 0.0;
    double middle_s = 0.0;
    double span_s = 0.0;
    double group = 1.0;       ///< samples that one point averages over
    double interval_s = 0.0;  ///< between samples
    double about_line = 0.0;  ///< sum of squares about the points' straight line
    std::vector<double> left; ///< what that line leaves
    [[nodiscard]] std::size_t size() const noexcept { return time_s.size(); }
};

[[nodiscard]] OscillationWindow window_of(Samples samples);

/// Least squares at a frequency: constant, sine, cosine, slope and bend. A drift that cannot be told from the
/// oscillation is held at nothing.
struct OscillationFit {
    double frequency_hz = 0.0;
    std::array<double, 5> linear{};
    double left = 0.0;
    double constant_factor = 0.0;
    double amplitude_factor = 0.0;
    bool solved = false;

    [[nodiscard]] double constant() const { return linear[0]; }
    [[nodiscard]] double sine() const { return linear[1]; }
    [[nodiscard]] double cosine() const { return linear[2]; }
};

[[nodiscard]] OscillationFit fit_at(const OscillationWindow& window, double frequency_hz);

/// The same with the frequency that leaves the least, sought from `frequency_hz` on.
[[nodiscard]] OscillationFit refined(const OscillationWindow& window, double frequency_hz);

/// How the envelope of a fitted oscillation changes.
struct Decay {
    double over_half = 0.0; ///< over half the window, as a natural logarithm; positive: it dies away
    double left = 0.0;      ///< sum of squares that it leaves with that
};
[[nodiscard]] Decay decay_of(const OscillationWindow& window, const OscillationFit& fit);

/// Sum of squares that the best exponential beside a constant and a slope leaves.
[[nodiscard]] double left_by_tail(const OscillationWindow& window);

/// ... that a bend of third degree leaves: a settling phase may look like less than two periods of anything.
[[nodiscard]] double left_by_bend(const OscillationWindow& window);

/// What an oscillation leaves where an edge that still settles may lie beneath it: a short exponential beside it, or a
/// slope. Made once, asked at many frequencies.
class BesideSettling {
public:
    explicit BesideSettling(const OscillationWindow& window);
    /// Sum of squares.
    [[nodiscard]] double left(double frequency_hz) const;

private:
    using Beside = BesideColumns<5>; ///< constant, slope and three exponentials
    static std::vector<Beside::Row> rows_of(const OscillationWindow& window);

    double span_s_;
    Beside beside_;
};

} // namespace zeroline::signal
