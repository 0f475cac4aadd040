#pragma once

#include "analysis/signal/blocks.hpp"
#include "analysis/signal/levels.hpp"

#include <vector>

namespace zeroline::signal {

/// The band about the prescribed pause level.
struct Band {
    double centre_cmH2O = 0.0;
    double half_width_cmH2O = 2.0;
    double level_u_cmH2O = 0.0; ///< expanded uncertainty of a level
};

struct ReturnToBand {
    bool returned = false;
    Instant entry;                  ///< where returned
    double slope_cmH2O_per_s = 0.0; ///< of the pressure there; 0: not known
    double next_entry_s = 0.0;      ///< entry that would count if an excursion within U of the band did
};

/// Last entry into the band during a pause. Judged on the local level over 5 samples, at least 20 ms: their mean, or
/// the middle of their parabola where they bend by more than noise does. An exit counts if it lasts over 20 ms and
/// exceeds the band by more than the level's U. What leaves the band at the very end, within the foot of the next edge
/// (`next_edge_s`: its 10-90 % time), is that edge, no exit. `blocks`: those of all the samples.
[[nodiscard]] ReturnToBand return_to_band(Samples samples, const std::vector<Block>& blocks, Interval pause, Band band,
                                          double next_edge_s, double noise_cmH2O);

} // namespace zeroline::signal
