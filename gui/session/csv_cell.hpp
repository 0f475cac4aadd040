#pragma once

#include <string>
#include <string_view>

namespace zeroline::session {

/// `text` as one cell of comma-separated values, in the manner of RFC 4180: in quotes, and quotes inside doubled, where
/// it holds a comma, a quote or a line end. A spreadsheet would compute a text that begins with = + - or @ (or a tab or
/// carriage return before one): such a text gets an apostrophe in front and quotes around it. A number, with a point or
/// a comma, stays as it is.
[[nodiscard]] std::string csv_cell(std::string_view text);

} // namespace zeroline::session
