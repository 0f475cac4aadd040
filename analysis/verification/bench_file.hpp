#pragma once

#include "analysis/verification/work_order.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>

namespace zeroline::verification {

/// How long a unit is cycled on a blocked outlet, and how long it rests after that. House figures.
struct Duty {
    double cycling_s = 90.0;
    double rest_s = 30.0;
};

/// A bench file, schema zeroline/bench/1: what belongs to the bench and its organisation, not to one order.
/// Empty texts: not given.
struct Bench {
    std::string organisation;
    std::string address;
    HouseProfile house = HouseProfile::standard();
    std::string key_file; ///< path of the signing key, as written
    Duty duty;
    std::optional<int> interval_months; ///< from one check of a unit to the next: how the next due date is found
};

/// Throws trace::InputError with a JSON pointer. Only `schema` is needed.
[[nodiscard]] Bench parse_bench(const nlohmann::json& tree);

/// The tree that parse_bench() reads back to the same bench.
[[nodiscard]] nlohmann::json to_json(const Bench& bench);

} // namespace zeroline::verification
