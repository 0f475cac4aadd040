#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace zeroline::record {

/// One place at which two records are not the same.
struct Difference {
    std::string pointer; ///< JSON pointer
    std::string saved;   ///< as JSON; "(missing)" where the key is not there
    std::string now;
};

/// How alike two records must be.
enum class Alike {
    exactly,    ///< the same build: every number to the last bit
    to_rounding ///< another build: numbers within 1e-9 of each other (1e-12 near 0), everything else exactly
};

/// Every difference between a saved record and one that was computed again, in the order of the saved one; keys that
/// only the new one has come last. The order of keys does not matter, that of lists does. Between builds `/software`
/// is expected to differ and is left out: whoever reports names both.
[[nodiscard]] std::vector<Difference> differences(const nlohmann::ordered_json& saved,
                                                  const nlohmann::ordered_json& now, Alike alike);

} // namespace zeroline::record
