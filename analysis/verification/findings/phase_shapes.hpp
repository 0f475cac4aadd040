#pragma once

#include "analysis/verification/findings/finding_basis.hpp"

#include <vector>

namespace zeroline::verification {

/// The same part of several phases of one kind, in blocks of equal length from the phase's onset on: what the phases
/// have in common (a release, a droop, an oscillation locked to the phase) can then be told from what they do not.
struct PhaseShapes {
    double block_s = 0.0;
    std::vector<double> start_s;               ///< of the first block of each phase
    std::vector<std::vector<double>> pressure; ///< [phase][block], block medians; all rows equally long

    [[nodiscard]] std::size_t phases() const noexcept { return pressure.size(); }
    [[nodiscard]] std::size_t blocks() const noexcept { return pressure.empty() ? 0 : pressure.front().size(); }
};

/// What is taken off rows of equal length before they are looked at.
struct TakenOff {
    bool levels = false;  ///< each row's own mean
    bool shape = false;   ///< the mean of all rows, block by block (rows equally long)
    bool overall = false; ///< the mean of everything
};
void take_off(TakenOff what, std::vector<std::vector<double>>& rows);
[[nodiscard]] std::vector<std::vector<double>> without(TakenOff what, std::vector<std::vector<double>> rows);

/// Adds the stretch as a row of its own length; one without samples in a block is left out.
void append_stretch(PhaseShapes& shapes, const FindingBasis& basis, double from_s, double to_s);

/// Phases of `kind` in a span, from `from_s` after the onset to the end of the shortest of them, `before_end_s` left
/// out. Cut phases and phases with an empty block are left out.
[[nodiscard]] PhaseShapes shapes_of(const FindingBasis& basis, const MeasuredSpan& span, signal::PhaseKind kind,
                                    double from_s, double before_end_s, double block_s);

} // namespace zeroline::verification
