#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace zeroline::console {

/// Letters of a text in UTF-8.
[[nodiscard]] std::size_t letters_in(std::string_view text);

/// The first so many letters of a text in UTF-8.
[[nodiscard]] std::string cut_to(std::string_view text, std::size_t letters);

/// `text`, one line, broken at blanks so that no line is longer than `width` letters; a word that is longer stays
/// whole. What goes on stands under where the text began, behind blanks and a dash in front.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t width);

} // namespace zeroline::console
