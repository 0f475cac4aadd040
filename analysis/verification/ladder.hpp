#pragma once

#include "analysis/verification/assessment.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// Straight line of what was measured against what was set, over the settings of a ladder. All U expanded.
struct LadderFit {
    std::string measurand, preset, unit;
    int settings = 0;                              ///< the line goes through so many
    double gain = 0.0, gain_uncertainty = 0.0;     ///< measured per set; 1: as it should be
    double offset = 0.0, offset_uncertainty = 0.0; ///< of the line at a setting of 0, in `unit`
    double largest_deviation = 0.0;                ///< measured minus line, with its sign
    double deviation_uncertainty = 0.0;            ///< of the mean that deviates
    double deviates_at = 0.0;                      ///< its setting
};

/// How far what was measured follows what was set, over the settings of a ladder (docs/method.md, the ladder): the line
/// of measured means against settings, by least squares, for each measurand that was set to three values or more. U is
/// expanded to kCoverage: the scatter about the line with n - 2 degrees of freedom (JCGM 100:2008, H.3), and the errors
/// that all settings share, such as the calibration, each carried through the line as one.
[[nodiscard]] std::vector<LadderFit> ladder_fits(const std::vector<Judgement>& judgements);

/// Whether a cycle was run at a setting that was dialled in for a ladder, not at the prescription.
[[nodiscard]] bool is_of_ladder(const Cycle& cycle, const Assessment& assessment);

} // namespace zeroline::verification
