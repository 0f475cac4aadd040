#pragma once

#include <string>

namespace zeroline::unit_register {

// The one rule of when a verification that was captured here releases its unit: verdict and accuracy passed, with or
// without a condition (accuracy may be not judged), and nothing critical. As a function, and as the same words in SQL.

[[nodiscard]] bool is_released(const std::string& verdict, const std::string& unit_accuracy, bool critical);
/// Of the table of verifications that goes by `name`.
[[nodiscard]] std::string released_in_sql(const std::string& name);

} // namespace zeroline::unit_register
