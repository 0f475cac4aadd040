#pragma once

#include "analysis/signal/oscillation.hpp"

#include <optional>
#include <vector>

namespace zeroline::signal {

/// An insufflation or exsufflation in which an oscillation may lie.
struct OscillatingPhase {
    PhaseKind kind = PhaseKind::insufflation;
    bool cut = false;
    Interval interval; ///< its duration as far as it is known
    Samples around;    ///< samples that hold it
};

/// The oscillations of the phases of a stretch. A phase that shows one well is measured by itself; what hardly fits
/// into a phase is told by all of them together.
class Oscillations {
public:
    /// `expected`: one is prescribed, a weak one counts as well.
    Oscillations(double noise_cmH2O, bool expected) : noise_cmH2O_(noise_cmH2O), expected_(expected) {}

    /// One a phase, none where there is none.
    [[nodiscard]] std::vector<std::optional<SteadyOscillation>> find(const std::vector<OscillatingPhase>& phases);

private:
    using Found = std::vector<std::optional<SteadyOscillation>>;
    [[nodiscard]] Found find_each(const std::vector<OscillatingPhase>& phases) const;

    double noise_cmH2O_;
    bool expected_;
    std::optional<SharedOscillation> known_;
};

} // namespace zeroline::signal
