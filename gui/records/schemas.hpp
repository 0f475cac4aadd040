#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace zeroline::records {

/// A JSON Schema (draft 7) that the program carries in itself; docs/schemas holds the same bytes. Beside the words of
/// the draft: `unit` of a number ("1": it has none), `expected`, put into the message that refuses a value.
struct ShippedSchema {
    std::string_view name; ///< "work-order", "record": what stands between the slashes of a file's "schema"
    std::string_view text;
};
[[nodiscard]] const std::vector<ShippedSchema>& shipped_schemas();

/// Checks a parsed file against the schema called `name`. Throws trace::InputError with a JSON pointer: another or a
/// newer "schema" (naming both versions), else the deepest place that does not fit: an unknown key, a missing one, a
/// value with what was expected there.
void check_schema(const nlohmann::json& tree, std::string_view name);

} // namespace zeroline::records
