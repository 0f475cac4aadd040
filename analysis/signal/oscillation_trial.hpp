#pragma once

#include "analysis/signal/thinning.hpp"

#include <array>
#include <vector>

namespace zeroline::signal {

/// The middle part of a phase in which an oscillation is looked for, thinned.
struct OscillationWindow {
    OwnedSamples points;
    double middle_s = 0.0;
    double span_s = 0.0;
    double group = 1.0;      ///< samples that one point averages over
    double interval_s = 0.0; ///< between samples
};

[[nodiscard]] OscillationWindow window_of(Samples samples);

/// Least squares at a frequency and a damping: constant, sine, cosine, slope and bend.
struct OscillationTrial {
    double frequency_hz = 0.0;
    double damping = 0.0; ///< of the envelope over half the window
    std::array<double, 5> linear{};
    double left = 0.0;
    double constant_factor = 0.0;
    double amplitude_factor = 0.0;
    bool solved = false;

    [[nodiscard]] double constant() const { return linear[0]; }
    [[nodiscard]] double sine() const { return linear[1]; }
    [[nodiscard]] double cosine() const { return linear[2]; }
};

[[nodiscard]] OscillationTrial trial_at(const OscillationWindow& window, double frequency_hz, double damping);

/// The same with the frequency that leaves the least, sought from `frequency_hz` on, and the damping too.
[[nodiscard]] OscillationTrial refined(const OscillationWindow& window, double frequency_hz, bool damped);

/// The points about their least-squares line.
struct AboutLine {
    std::vector<double> values;
    double sum_of_squares = 0.0;
};

[[nodiscard]] AboutLine about_line(const OscillationWindow& window);

/// Sum of squares that the best exponential beside a constant and a slope leaves; so many time constants are tried.
[[nodiscard]] double left_by_tail(const OscillationWindow& window, int trials = 5);

/// ... that a bend of third degree leaves: a settling phase may look like less than two periods of anything.
[[nodiscard]] double left_by_bend(const OscillationWindow& window);

/// ... that an oscillation leaves where an edge that still settles may lie beneath it: a short exponential beside it.
[[nodiscard]] double left_beside_tail(const OscillationWindow& window, double frequency_hz);

} // namespace zeroline::signal
