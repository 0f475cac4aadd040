#pragma once

#include <string>
#include <string_view>

namespace zeroline::trace {

/// Text from files as it may be shown to a person: what would steer a terminal or turn the order of letters round
/// stands there to be seen instead of working. Control characters (C0 but line feed and tab, DEL, C1), line and
/// paragraph separators and the bidirectional marks, embeddings, overrides and isolates of Unicode become \uXXXX, as in
/// JSON, so that JSON stays the same JSON; bytes that are no UTF-8 become \xXX.
[[nodiscard]] std::string visible(std::string_view text);

/// The same for what must stay on its line: line feeds and tabs too.
[[nodiscard]] std::string visible_on_one_line(std::string_view text);

/// Bytes at the end of `text` that are the beginning of a letter whose rest has not come yet: 0 to 3.
[[nodiscard]] std::size_t unfinished_letter(std::string_view text) noexcept;

} // namespace zeroline::trace
