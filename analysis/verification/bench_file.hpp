#pragma once

#include "acquisition/trace/units.hpp"
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

/// What an instrument is held against: another gauge, or a water column.
struct SecondGauge {
    std::string name, certificate; ///< certificate: may be empty
    double uncertainty = 0.0;      ///< expanded, k = 2, in `unit`
    trace::PressureUnit unit = trace::PressureUnit::cmH2O;
};

/// A bench file, schema zeroline/bench/1: what belongs to the bench and its organisation, not to one order.
/// Empty texts: not given.
struct Bench {
    std::string organisation;
    std::string address;
    HouseProfile house = HouseProfile::standard();
    std::string key_file; ///< path of the signing key, as written
    Duty duty;
    std::optional<SecondGauge> second_gauge;
    std::optional<int> interval_months; ///< from one check of a unit to the next: how the next due date is found
};

/// Throws trace::InputError with a JSON pointer. Only `schema` is needed.
[[nodiscard]] Bench parse_bench(const nlohmann::json& tree);

/// The tree that parse_bench() reads back to the same bench.
[[nodiscard]] nlohmann::json to_json(const Bench& bench);

} // namespace zeroline::verification
