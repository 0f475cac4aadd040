#pragma once

#include <span>
#include <string>
#include <string_view>

namespace zeroline::trace {

/// What somebody probably meant who typed what is not known: the end of a refusal's "found", empty where nothing is
/// near.

/// "; did you mean \"presets\"?" where one of `words` is nearly `typed`; a conversion where `typed` names a unit of
/// pressure that files of ours do not use ("pressure_mbar").
[[nodiscard]] std::string meant_by_key(std::string_view typed, std::span<const std::string_view> words);

/// Why `text` is no day: "; there is no month 13", "; 2027-02 has 28 days".
[[nodiscard]] std::string no_day_because(std::string_view text);

/// "; 1 mbar is 1.01972 cmH2O" where `text` ends with the name of a unit of pressure other than cmH2O.
[[nodiscard]] std::string conversion_of(std::string_view text);

} // namespace zeroline::trace
