#pragma once

#include "gui/records/attempts.hpp"

#include <string>
#include <vector>

namespace zeroline::console {

/// "WO-2041, RC-0117: attempt 1 fail, attempt 2 pass (in place of 1: plug). Attempt 2 stands: pass; attempt 1 is
/// replaced by ...". Attempts as found and as left are named so where there are both; those that do not count come
/// last, with the reason. All are of one order and unit. Empty for fewer than two; without a line end.
[[nodiscard]] std::string attempts_text(const std::vector<records::KeptAttempt>& attempts);

/// One line for each work order that has several attempts among these, in the order in which they come.
[[nodiscard]] std::string all_attempts_text(const std::vector<records::KeptAttempt>& attempts);

/// What a run is told of those before it, line by line. `replaces`: the fault of an earlier set-up was named.
[[nodiscard]] std::vector<std::string> told_of_earlier(const std::vector<records::KeptAttempt>& earlier, int attempt,
                                                       bool replaces);

} // namespace zeroline::console
