#pragma once

#include "analysis/verification/scene.hpp"

#include <string>
#include <vector>

namespace zeroline::verification {

/// Something that keeps a judgement from being made: evidence that is missing, or a finding that touches it.
struct Obstacle {
    Reason reason;
    std::vector<std::string> measurands; ///< empty: every one
    std::string preset;                  ///< empty: every one

    [[nodiscard]] bool stops(const std::string& measurand, const std::string& of_preset) const;
};

/// Step 1 of a judgement (docs/method.md), in the order in which the first one found is named.
[[nodiscard]] std::vector<Obstacle> obstacles(const Scene& scene, const std::vector<Finding>& findings);

/// The first obstacle in the way of a measurand of a preset, or null.
[[nodiscard]] const Obstacle* first_obstacle(const std::vector<Obstacle>& all, const std::string& measurand,
                                             const std::string& preset);

} // namespace zeroline::verification
