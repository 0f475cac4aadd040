#pragma once

#include "acquisition/serial/languages/line_guess.hpp"
#include "acquisition/serial/reading.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial {

using Lines = std::vector<std::string_view>; ///< without their ends

[[nodiscard]] bool is_letter(char c) noexcept;

/// The fields of a line, blanks around them taken off; several blanks that separate count as one.
[[nodiscard]] std::vector<std::string_view> parts_of(std::string_view line, const std::string& separator);

/// The readings with a value that a language makes of bytes.
[[nodiscard]] std::vector<Reading> read_with(const trace::Language& language, std::string_view bytes);

/// Of the languages of a guess, leaves those worth proposing: none that reads a fragment of a number, says the same as
/// another, or would take an unknown unit for a known one; the unknown unit is named. `lines` is not empty.
void sift(LineGuess& guess, std::string_view bytes, const Lines& lines);

} // namespace zeroline::serial
