#pragma once

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/work_order.hpp"

namespace zeroline::verification {

/// Reads `tolerances` of an order. A tolerance without a basis of its own takes the common one; where neither stands,
/// it is refused: a figure without its source judges nobody.
[[nodiscard]] Tolerances read_tolerances(const trace::JsonReader& at);

/// Reads `house` of a bench file onto the standard profile.
[[nodiscard]] HouseProfile read_house_profile(const trace::JsonReader& at);

} // namespace zeroline::verification
