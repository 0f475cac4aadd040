#pragma once

#include "acquisition/trace/input_error.hpp"

#include <optional>
#include <string_view>

namespace zeroline::records {

/// What text editors and habits put into files that are meant to be JSON, in words that say how to mend it.
///
/// `text` is the whole file, `byte` where the parser stopped (counted from 1, as it counts). Empty where none of them
/// is recognised: UTF-16, another encoding than UTF-8, quotation marks that are not plain, a decimal comma, a comma too
/// many or too few, a remark. `expected`: what the parser asked for there, in its words.
[[nodiscard]] std::optional<trace::InputError> known_pitfall(std::string_view text, std::size_t byte,
                                                             std::string_view expected);

/// "line 3, column 7" of a byte of `text`.
[[nodiscard]] std::string place_in(std::string_view text, std::size_t byte);

} // namespace zeroline::records
