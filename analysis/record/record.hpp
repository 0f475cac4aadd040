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

/// Number of the method that a record is measured and judged by: raised once a release where the same samples come to
/// other values. A record says it under "method"; what was sealed before there were numbers has no such key, and is 1.
inline constexpr int kMethod = 3;

/// The number that a record names. 0 where it is no number of a method.
template <class Json> [[nodiscard]] int method_of(const Json& record)
{
    const auto found = record.find("method");
    if (found == record.end()) {
        return 1;
    }
    return found->is_number() ? found->template get<int>() : 0;
}

/// Without its cycles a tree costs the same however long a run has become: for what is shown while it goes on.
enum class Parts { all, without_cycles };

/// The tree of record.json, schema zeroline/record/1 (docs/formats.md). Keys keep their order of writing.
[[nodiscard]] nlohmann::ordered_json to_json(const verification::Evidence& evidence,
                                             const verification::Assessment& assessment, const Software& software,
                                             Parts parts = Parts::all);

/// The uncertainty budgets behind a record, a list of cycles: value, contributions, standard uncertainty, effective
/// degrees of freedom (null: endless), coverage factor, expanded uncertainty.
[[nodiscard]] nlohmann::ordered_json budgets_to_json(const verification::Assessment& assessment);

} // namespace zeroline::record
