#pragma once

#include "analysis/verification/findings/finding_basis.hpp"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace zeroline::verification {

/// "Looks like WHAT because WHY. Try THIS." - a finding is never a proven cause.
struct Wording {
    std::string what;
    std::string why;
    std::string attempt;
};

[[nodiscard]] Finding finding(const std::string& code, Severity severity, const Wording& words);

/// Cycles by their indices, from whatever a finding has at hand.
struct CycleIndices {
    CycleIndices() = default;
    CycleIndices(std::vector<int> all) : indices(std::move(all)) {}
    CycleIndices(const std::vector<const Cycle*>& cycles);
    CycleIndices(const std::vector<Value>& values);
    std::vector<int> indices;
};

/// Notes cycles in a finding: each once, in order.
void name_cycles(Finding& finding, const CycleIndices& cycles);

/// One about cycling at one setting: names its preset, its figures and the cycles it was seen in.
[[nodiscard]] Finding finding(const FindingBasis& basis, const Group& group, const std::string& code, Severity severity,
                              Wording words, std::map<std::string, double> figures = {},
                              const CycleIndices& cycles = {});

/// The number as it stands in a sentence, with so many decimals at most.
[[nodiscard]] std::string in_words(double value, int decimals = 2);
/// "1 cycle", "3 cycles".
[[nodiscard]] std::string counted(std::size_t count, const std::string& noun);

} // namespace zeroline::verification
