#pragma once

#include "analysis/signal/crossings.hpp"
#include "analysis/signal/oscillations.hpp"
#include "analysis/signal/recognition.hpp"
#include "analysis/signal/spikes.hpp"

#include <optional>
#include <vector>

namespace zeroline::signal {

/// Measures every phase of a stretch, step by step: dwells, middles of the edges between them, levels, onsets, levels
/// again, and from these the edges (docs/method.md).
class Measurement {
public:
    /// `options`: larger plateau, rest and noise filled in. `noise_known`: not estimated from the samples. The samples
    /// must outlive it.
    Measurement(Samples samples, const MeasureOptions& options, bool noise_known);

    [[nodiscard]] std::vector<Phase> phases() const;

private:
    /// Of an S-shaped edge's 10-90 % time, from its command to its onset, twice: so long before its onset may swing
    /// what belongs to the phase after it.
    static constexpr double kBeforeOnset = 0.3;

    /// One dwell and what has been found out about it so far.
    struct Stay {
        Dwell dwell;
        PhaseKind kind = PhaseKind::pause;
        double level_cmH2O = 0.0;
        std::size_t middle = 0; ///< first sample beyond the middle of the edge into it; 0: not found
        std::optional<double> middle_s;
        std::optional<double> onset_s;
        std::optional<WindowFit> fit;
        std::optional<SteadyOscillation> oscillation;
        std::optional<Transition> entering;
    };

    struct FoundEdge {
        Edge edge;
        std::size_t middle = 0; ///< first sample beyond it, in the edge's own count
    };

    void recognise();
    [[nodiscard]] bool any_oscillates() const;
    [[nodiscard]] bool only_passed(const Dwell& before, const Dwell& dwell, const Dwell& after) const;
    void place_middles();
    void find_oscillations(Oscillations& oscillations, bool by_onsets);
    void place_onset(std::size_t k);
    void take_levels();
    void let_pauses_rest(const std::vector<double>& provisional_cmH2O);
    [[nodiscard]] bool wanders(std::size_t k, double provisional_cmH2O) const;
    double rest(std::size_t k, double provisional_cmH2O);
    void take_noise_beside_oscillations();
    void measure_edge(std::size_t k);
    [[nodiscard]] Transition beside_oscillations(FoundEdge found, std::size_t k) const;

    [[nodiscard]] Interval between(std::size_t k, std::optional<double> begin_s, std::optional<double> end_s) const;
    [[nodiscard]] Interval between_middles(std::size_t k) const;
    [[nodiscard]] Interval between_onsets(std::size_t k) const;
    [[nodiscard]] double provisional_level(std::size_t k) const;
    [[nodiscard]] std::optional<WindowFit> level_of(std::size_t k, Interval phase) const;
    [[nodiscard]] std::optional<WindowFit> level_with_oscillation(std::size_t k, Interval phase) const;
    [[nodiscard]] Samples around(std::size_t k) const; ///< middle of the dwell before to middle of the dwell after
    [[nodiscard]] std::size_t edge_first(std::size_t k) const;
    [[nodiscard]] std::optional<std::size_t> middle_of(const Edge& edge, std::size_t k) const;
    [[nodiscard]] std::optional<FoundEdge> edge_into(std::size_t k, EdgeLevels levels) const;

    [[nodiscard]] Phase phase_of(std::size_t k) const;
    [[nodiscard]] bool settled(std::size_t k, double left_cmH2O) const;
    void describe_level(Phase& phase, std::size_t k) const;
    void describe_peak(Phase& phase, std::size_t k) const;
    void describe_return(Phase& phase) const;

    MeasureOptions options_;
    ClearSamples clear_;
    Samples samples_;
    std::vector<Stay> stays_;
};

} // namespace zeroline::signal
