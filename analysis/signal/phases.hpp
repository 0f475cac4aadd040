#pragma once

#include <cstddef>
#include <limits>
#include <memory>
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
    double sampling_u_s = 0.0; ///< from the residual of the local fit, else interval / sqrt(12)
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
    /// Level that the pauses really rest at (a residual, say): what phases are told from. None: found by measure(); a
    /// PhaseStream takes `pause_level_cmH2O`.
    std::optional<double> rest_cmH2O;
    /// Frequency of a superimposed oscillation where it is known. None: found in each phase; measure() pools what the
    /// phases show where they are too short to show it alone.
    std::optional<double> oscillation_hz;
    double oscillation_u_hz = 0.0; ///< standard uncertainty of that
    /// Periods between 30 and 90 % of a phase below which none is taken for one. measure() asks for more where few
    /// phases show one, or each another: something that moves by chance.
    double fewest_oscillation_periods = 0.0;
    /// What an oscillation may jump by where it is cut off: a sample that stands out by less is no spike. measure()
    /// finds it.
    double oscillation_cmH2O = 0.0;
};

/// Magnitude of the larger plateau of the samples: robust against spikes, rings and ramps; 0 where nothing dwells.
[[nodiscard]] double larger_plateau(Samples samples);

/// Streams samples into phases. push() may cut the samples anywhere; the phases do not depend on the cuts, to the last
/// bit. Memory is bounded by the longest phase. Live use: set `larger_plateau_cmH2O` 0, phases are then provisional.
class PhaseStream {
public:
    explicit PhaseStream(MeasureOptions options);
    ~PhaseStream();
    PhaseStream(PhaseStream&&) noexcept;
    PhaseStream& operator=(PhaseStream&&) noexcept;

    void push(Samples block);
    /// No more samples will come: the last phase is closed as cut.
    void finish();
    /// Phases complete since the last call, in order. Indices count from the first sample ever pushed.
    [[nodiscard]] std::vector<Phase> take();
    /// The kind of dwell the newest samples are in, for the display; none before anything is known.
    [[nodiscard]] std::optional<PhaseKind> now() const;

private:
    class State;
    std::unique_ptr<State> state_;
};

/// Every phase of a stretch of samples: larger_plateau() where it is not given, then one PhaseStream.
[[nodiscard]] std::vector<Phase> measure(Samples samples, MeasureOptions options);

} // namespace zeroline::signal
