#pragma once

#include "analysis/signal/changeover.hpp"
#include "analysis/signal/edge.hpp"
#include "analysis/signal/levels.hpp"
#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/recognition.hpp"

#include <array>
#include <cstddef>
#include <deque>
#include <optional>
#include <vector>

namespace zeroline::signal {

/// Samples under work: appended at the end, dropped at the front, numbered from the first ever appended (spikes, which
/// are taken out, not counted).
class SampleBuffer {
public:
    void append(Samples block);
    /// Forgets samples before `first`.
    void drop_before(std::size_t first);

    [[nodiscard]] std::size_t begin() const noexcept { return base_; }
    [[nodiscard]] std::size_t end() const noexcept { return base_ + time_s_.size() - head_; }
    [[nodiscard]] double time(std::size_t index) const { return time_s_[index - base_ + head_]; }
    [[nodiscard]] double pressure(std::size_t index) const { return pressure_[index - base_ + head_]; }
    /// Takes a sample out, as if it had never come: those after it move up by one. In rising order only.
    void remove(std::size_t index);
    /// The number that a sample had when it came, those taken out before it counted.
    [[nodiscard]] std::size_t number_given(std::size_t index) const;
    /// Samples [first, last) by their numbers.
    [[nodiscard]] Samples view(std::size_t first, std::size_t last) const;

private:
    std::vector<double> time_s_;
    std::vector<double> pressure_;
    std::size_t head_ = 0;            // forgotten samples still at the front of the vectors
    std::size_t base_ = 0;            // number of the first sample kept
    std::deque<std::size_t> removed_; // numbers that the samples after those taken out have now
    std::size_t removed_before_ = 0;  // taken out before the first sample kept
};

/// From dwells to measured phases: rough levels, middles, then levels and onsets from one another kPasses times, each
/// as soon as what it needs from its neighbours is there (docs/method.md).
class Pipeline {
public:
    explicit Pipeline(MeasureOptions options) : options_(options) {}

    /// A dwell that has ended; samples of the one after it are in the buffer.
    void add(const Dwell& dwell, bool begins_trace, bool ends_trace, const SampleBuffer& buffer);
    /// A spike that was taken out, by the number it was given.
    void add_spike(std::size_t number) { spikes_.push_back(number); }
    void set_noise(double noise_cmH2O) noexcept { options_.noise_cmH2O = noise_cmH2O; }

    [[nodiscard]] std::vector<Phase> take();
    /// The first sample that is still needed.
    [[nodiscard]] std::size_t needed_from() const noexcept;

private:
    static constexpr std::size_t kPasses = 4;       // of provisional levels and onsets; all but the first two are spare
    static constexpr std::size_t kWithoutSwing = 2; // beside an oscillation: the pass in which it is known

    struct Node {
        Dwell dwell;
        bool begins_trace = false;
        bool ends_trace = false;
        PhaseKind kind = PhaseKind::pause;
        double rough_cmH2O = 0.0;
        std::optional<MidCrossing> enter; // indices by number
        std::array<double, kPasses> provisional_cmH2O{};
        std::array<std::optional<double>, kPasses> onset_s;
        std::optional<WindowFit> level;
        std::optional<SteadyOscillation> oscillation;
        std::optional<double> changeover_s;      ///< where the oscillation before ends and this one begins
        std::optional<EdgeLevels> grows_between; ///< where this one grows with the pressure
        std::optional<Transition> entering;
    };

    /// Samples of the edge into node k, what oscillates on both sides taken off.
    struct EdgeView {
        std::size_t first = 0;       ///< number of the first sample
        std::size_t last_before = 0; ///< last sample of the dwell that is left, counted from `first`
        EdgeOscillations swings;
        std::vector<Changeover> changeovers; ///< where something oscillates
        OwnedSamples still;                  ///< where something had to be taken off
        Samples samples;
    };

    void advance(const SampleBuffer& buffer);
    void place_middle(std::size_t k, const SampleBuffer& buffer);
    void take_provisional_level(std::size_t pass, std::size_t k, const SampleBuffer& buffer);
    void place_onset(std::size_t pass, std::size_t k, const SampleBuffer& buffer);
    void take_level(std::size_t k, const SampleBuffer& buffer);
    void measure_entering(std::size_t k, const SampleBuffer& buffer);
    [[nodiscard]] Transition transition_at(const EdgeView& edge, EdgeLevels levels, MidCrossing mid,
                                           const SampleBuffer& buffer) const;

    // The front node, when everything about it is known.
    void finish_phase(const SampleBuffer& buffer);
    [[nodiscard]] Phase outline(const SampleBuffer& buffer) const;
    void describe_level(Phase& phase, const SampleBuffer& buffer) const;
    void describe_return(Phase& phase, const SampleBuffer& buffer) const;

    [[nodiscard]] EdgeView edge_before(std::size_t k, EdgeLevels levels, const SampleBuffer& buffer) const;
    [[nodiscard]] std::optional<WindowFit> level_of(std::size_t k, Interval phase, const SampleBuffer& buffer) const;
    void look_for_oscillation(std::size_t k, Interval phase, const SampleBuffer& buffer);
    [[nodiscard]] Interval between(std::size_t k, std::optional<double> begin_s, std::optional<double> end_s,
                                   const SampleBuffer& buffer) const;
    [[nodiscard]] Interval between_middles(std::size_t k, const SampleBuffer& buffer) const;
    [[nodiscard]] bool moved(std::size_t pass, std::size_t k) const;
    [[nodiscard]] std::optional<double> end_at_rest(std::size_t k, const SampleBuffer& buffer) const;
    [[nodiscard]] bool beside_oscillation(std::size_t k) const;
    [[nodiscard]] Interval between_onsets(std::size_t pass, std::size_t k, const SampleBuffer& buffer) const;
    /// Samples from the middle of the dwell before to the middle of the dwell after.
    [[nodiscard]] Samples around(std::size_t k, const SampleBuffer& buffer) const;
    /// The same without what swings in it and in the dwells on both sides: with a slow start the next one's oscillation
    /// begins well before the onset.
    [[nodiscard]] OwnedSamples still_around(std::size_t k, const SampleBuffer& buffer) const;

    MeasureOptions options_;
    std::deque<Node> nodes_;
    std::size_t begun_ = 0; ///< sample at which the last phase began, as outline() counts them
    // How many nodes from the front each stage has done.
    std::size_t middles_ = 0, levels_ = 0, entering_ = 0;
    std::array<std::size_t, kPasses> provisional_{}, onsets_{};
    bool ended_ = false;
    std::size_t needed_from_ = 0;
    std::vector<Phase> done_;
    std::deque<std::size_t> spikes_;
};

} // namespace zeroline::signal
