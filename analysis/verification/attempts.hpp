#pragma once

#include "analysis/metrology/decision.hpp"
#include "analysis/verification/run_log.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

/// One attempt of a work order, as its record says.
struct Attempt {
    int number = 1;
    metrology::Outcome verdict = metrology::Outcome::incomplete;
    std::optional<Replaces> replaces; ///< the earlier attempt it stands in place of, and why
};

/// Which attempt stands for the work order (docs/method.md, attempts): the worst one, the latest of equals. An attempt
/// that a later pass replaces, with a cause in the set-up and its evidence, no longer counts; nor does one that was
/// incomplete where any other was not, because it said nothing about the unit. Index into `attempts`; none for none.
[[nodiscard]] std::optional<std::size_t> standing_attempt(const std::vector<Attempt>& attempts);

/// The same as a sentence for people, with the reason why each other attempt does not stand; empty for fewer than two.
[[nodiscard]] std::string standing_sentence(const std::vector<Attempt>& attempts);

} // namespace zeroline::verification
