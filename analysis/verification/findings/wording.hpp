#pragma once

#include "analysis/verification/findings/look.hpp"

#include <string>

namespace zeroline::verification {

/// "Looks like WHAT because WHY. Try THIS." - a finding is never a proven cause.
struct Wording {
    std::string what;
    std::string why;
    std::string attempt;
};

[[nodiscard]] Finding finding(const std::string& code, Severity severity, const Wording& words);

/// Notes cycles in a finding: each once, in order.
void name_cycles(Finding& finding, const std::vector<Value>& values);
void name_cycles(Finding& finding, const std::vector<const Cycle*>& cycles);
void name_cycles(Finding& finding, const std::vector<int>& indices);

/// The number as it stands in a sentence, with so many decimals at most.
[[nodiscard]] std::string in_words(double value, int decimals = 2);
/// "1 cycle", "3 cycles".
[[nodiscard]] std::string counted(std::size_t count, const std::string& noun);
/// " (preset day)", or nothing where the order has one preset only.
[[nodiscard]] std::string of_preset(const Look& look, const Group& group);

} // namespace zeroline::verification
