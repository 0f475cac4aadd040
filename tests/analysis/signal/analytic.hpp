#pragma once

#include "analysis/signal/phases.hpp"

#include <cstdint>
#include <random>
#include <vector>

namespace zeroline::signal::analytic {

/// Shapes of a unit step in closed form; each takes `edge_s` from its 10 to its 90 % point.
enum class Shape { exponential, ramp, second_order, raised_cosine, two_poles, gaussian };

[[nodiscard]] const char* name_of(Shape shape);

struct EdgeForm {
    Shape shape = Shape::exponential;
    double edge_s = 0.1;
    double damping = 0.7; ///< second order only
};

/// Value of the unit step `time_s` after the command.
[[nodiscard]] double unit_step(const EdgeForm& form, double time_s);

/// One commanded level, from `start_s` on.
struct Segment {
    PhaseKind kind = PhaseKind::pause;
    double level_cmH2O = 0.0;
    double start_s = 0.0;
    EdgeForm form;
    double oscillation_cmH2O = 0.0; ///< zero to peak
    double oscillation_hz = 0.0;
};

/// A clean pressure that can be asked for its value at any time.
class CleanPressure {
public:
    CleanPressure(std::vector<Segment> segments, double end_s);

    /// With the superimposed oscillation.
    [[nodiscard]] double at(double time_s) const;
    /// Without it.
    [[nodiscard]] double base_at(double time_s) const;
    [[nodiscard]] const std::vector<Segment>& segments() const { return segments_; }
    [[nodiscard]] double end_s() const { return end_s_; }

private:
    [[nodiscard]] std::size_t segment_at(double time_s) const;

    std::vector<Segment> segments_;
    std::vector<double> from_; // pressure at the start of each segment
    double end_s_;
};

/// What the definitions give on the clean continuous pressure, one a segment. The first and last are cut.
struct Truth {
    double level_cmH2O = 0.0;
    double onset_s = 0.0;
    double mid_s = 0.0;
    double time_10_90_s = 0.0;
    double window_from_s = 0.0;
    double window_to_s = 0.0;
};

[[nodiscard]] std::vector<Truth> truth_of(const CleanPressure& pressure);

/// First time after `from_s` at which the pressure enters the band for good before `to_s`.
[[nodiscard]] double true_band_entry(const CleanPressure& pressure, double from_s, double to_s, double centre,
                                     double half_width);

struct Trouble {
    double noise_cmH2O = 0.1;
    int spikes = 0;
    double spike_cmH2O = 60.0;
};

struct Trace {
    std::vector<double> time_s;
    std::vector<double> pressure_cmH2O;
    [[nodiscard]] Samples samples() const { return {time_s, pressure_cmH2O}; }
};

/// Samples at a rate with a random phase, white noise and spikes.
[[nodiscard]] Trace sampled(const CleanPressure& pressure, double rate_hz, const Trouble& trouble,
                            std::mt19937_64& random);

/// The plain definition on samples: interpolated crossings, window means, two passes, started from the true levels.
[[nodiscard]] std::vector<Truth> plain_definition(Samples samples, const CleanPressure& pressure,
                                                  const std::vector<Truth>& truth);

/// Insufflation, exsufflation and, where `pause_s` > 0, pause; `cycles` times, led in by a rest and ended by one.
struct CycleForm {
    double insufflation_cmH2O = 40.0;
    double exsufflation_cmH2O = -40.0;
    double rest_cmH2O = 0.0;
    double insufflation_s = 1.5;
    double exsufflation_s = 1.5;
    double pause_s = 1.0;
    EdgeForm form;
    int cycles = 3;
    double oscillation_cmH2O = 0.0;
    double oscillation_hz = 0.0;
};

[[nodiscard]] CleanPressure cycling(const CycleForm& form);

} // namespace zeroline::signal::analytic
