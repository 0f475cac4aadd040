#pragma once

#include <string>
#include <string_view>

namespace zeroline::serial {

/// Bytes that may be anything, fit for a person's eye: what is no printable ASCII becomes a question mark.
[[nodiscard]] std::string printable(std::string_view bytes);

/// The same in quotation marks, cut to a length that fits a sentence.
[[nodiscard]] std::string shown(std::string_view bytes);

} // namespace zeroline::serial
