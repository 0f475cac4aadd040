#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace zeroline::records {

/// The dates of a record.json that cannot all be true, a sentence each: a run that began before its prescription was
/// ordered or its instrument calibrated, or after the record of it was signed. They tell of a clock that was wrong, or
/// of a date that was made up. Days are compared as they are written; instants whatever their offset.
[[nodiscard]] std::vector<std::string> impossible_dates(const nlohmann::json& record);

/// The same of a signature that was added at `time` to a record that was signed at `signed_at`, both RFC 3339.
[[nodiscard]] std::vector<std::string> impossible_addition(const std::string& signed_at, const std::string& time);

} // namespace zeroline::records
