#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

namespace zeroline::signal {

/// Samples to be measured. Same length; times strictly increasing, seconds; pressures in cmH2O, zero subtracted.
struct Samples {
    std::span<const double> time_s;
    std::span<const double> pressure_cmH2O;
    [[nodiscard]] std::size_t size() const noexcept { return time_s.size(); }
    [[nodiscard]] Samples part(std::size_t first, std::size_t last) const
    {
        return {time_s.subspan(first, last - first), pressure_cmH2O.subspan(first, last - first)};
    }
};

enum class PhaseKind { insufflation, exsufflation, pause };

/// A level with the part of its uncertainty that the signal itself shows.
struct Level {
    double value_cmH2O = 0.0;
    double noise_u_cmH2O = 0.0; ///< standard uncertainty of the mean, autocorrelation taken into account
    double noise_dof = std::numeric_limits<double>::infinity();
    double position_u_cmH2O = 0.0; ///< droop x standard uncertainty of the window's position
    double window_from_s = 0.0;
    double window_to_s = 0.0;
    std::size_t samples = 0;
};

/// An instant with the part of its uncertainty that the signal itself shows.
struct Instant {
    double time_s = 0.0;
    double noise_u_s = 0.0;    ///< noise divided by slope
    double sampling_u_s = 0.0; ///< how far it may bend between the samples and within what is fitted: a rectangle's
    double dof = std::numeric_limits<double>::infinity();
};

/// The edge between two phases, measured between the levels on its two sides.
struct Transition {
    double from_cmH2O = 0.0;            ///< level that is left
    double to_cmH2O = 0.0;              ///< level that is reached
    Instant onset;                      ///< by the 10/30 line
    Instant mid;                        ///< 50 % point
    std::optional<double> time_10_90_s; ///< rise, swing or release; none where it is not seen whole
    double time_10_90_u_s = 0.0;
    std::size_t samples_10_90 = 0; ///< samples between the 10 % and the 90 % point
    bool reached = true;           ///< false: the level on the far side was never settled on
};

/// A steady oscillation superimposed on a phase. Amplitude 0: it was expected, the window could have shown it, and none
/// was there above what noise shows.
struct Oscillation {
    double frequency_hz = 0.0;
    double amplitude_cmH2O = 0.0;   ///< zero to peak, fundamental, as the sensor saw it
    double frequency_u_hz = 0.0;    ///< standard uncertainty by what the fit leaves
    double amplitude_u_cmH2O = 0.0; ///< the same
};

/// One dwell and what was measured in it (docs/method.md). Null where it could not be measured.
struct Phase {
    PhaseKind kind = PhaseKind::pause;
    std::size_t first = 0; ///< samples [first, last) between the provisional bounds (50 % points)
    std::size_t last = 0;
    bool cut_begin = false; ///< the trace or span began inside it
    bool cut_end = false;
    double first_time_s = 0.0; ///< time of sample `first`
    double last_time_s = 0.0;  ///< time of sample `last - 1`
    std::optional<Transition> entering;
    std::optional<Transition> leaving;

    std::optional<Level> plateau; ///< pause: the level over its last quarter (nothing subtracted)
    bool settled = true;
    std::optional<double> peak_cmH2O;
    std::optional<double> overshoot_percent;
    std::optional<double> droop_cmH2O_per_s; ///< positive when the magnitude falls
    std::optional<double> ripple_cmH2O;
    std::optional<Oscillation> oscillation; ///< none: not to be seen here, and not expected or not measurable

    // pause only
    std::optional<Instant> return_to_band; ///< last entry into the band; none: never, or not seen whole
    bool returned = false;
    double return_slope_cmH2O_per_s = 0.0; ///< slope of the pressure at that entry; 0: not known
    double next_entry_s = 0.0;             ///< entry that would count if an excursion within U of the band did
    std::size_t spikes = 0;                ///< isolated samples left out of everything

    [[nodiscard]] double start_s() const;                   ///< onset entering; the first sample's time where cut
    [[nodiscard]] std::optional<double> duration_s() const; ///< onset to onset
    [[nodiscard]] std::optional<double> mid_level_duration_s() const;
    [[nodiscard]] bool cut() const noexcept { return cut_begin || cut_end; }
};

/// What the measuring of a stretch of trace needs to know beforehand.
struct MeasureOptions {
    double noise_cmH2O = 0.0;          ///< standard deviation at the open port; 0: estimated from the samples
    double larger_plateau_cmH2O = 0.0; ///< magnitude of the trace's larger plateau; 0: found in these samples
    double pause_level_cmH2O = 0.0;    ///< prescribed pause level: centre of the return band
    double zero_band_cmH2O = 2.0;      ///< half-width of the return band
    double level_u_cmH2O = 0.0;        ///< expanded uncertainty of a level, for entries and exits of the band
    /// Frequency of an oscillation that is prescribed: it is looked for more closely, and its absence is reported. One
    /// that stands clear is found in any case.
    std::optional<double> expected_oscillation_hz;
    /// Level that the pauses really rest at (a residual, say): what phases are told from. None: found in these samples.
    std::optional<double> rest_cmH2O;
};

/// Magnitude of the larger plateau of the samples: robust against spikes, rings and ramps; 0 where nothing dwells.
[[nodiscard]] double larger_plateau(Samples samples);

/// Every phase of a stretch of samples, in order; indices count from the first of them. A stretch may be a whole trace
/// or the samples of one cycle that has just ended (then give larger plateau, noise and rest). No state, any thread.
[[nodiscard]] std::vector<Phase> measure(Samples samples, MeasureOptions options);

} // namespace zeroline::signal
