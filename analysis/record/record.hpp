#pragma once

#include "analysis/verification/assessment.hpp"

#include <nlohmann/json.hpp>

#include <string>

namespace zeroline::record {

/// Names of the program that made a record.
struct Software {
    std::string version;
    std::string build;
};

/// The tree of record.json, schema zeroline/record/1 (docs/formats.md). Keys keep their order of writing.
[[nodiscard]] nlohmann::ordered_json to_json(const verification::Evidence& evidence,
                                             const verification::Assessment& assessment, const Software& software);

/// The uncertainty budgets behind a record, a list of cycles: value, contributions, standard uncertainty, effective
/// degrees of freedom (null: endless), coverage factor, expanded uncertainty.
[[nodiscard]] nlohmann::ordered_json budgets_to_json(const verification::Assessment& assessment);

} // namespace zeroline::record
