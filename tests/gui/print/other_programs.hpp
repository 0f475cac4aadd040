#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace zeroline::print {

// What programs of other people see in our pages: qpdf, poppler's pdf* programs, zbarimg, sha256sum.

/// Standard output of a shell command. The test fails where its exit status is not 0.
[[nodiscard]] std::string output_of(const std::string& command);

/// All text of a PDF, or of one page (from 1), blanks and line ends made one blank.
[[nodiscard]] std::string text_of(const std::filesystem::path& pdf, int page = 0);

[[nodiscard]] int pages_of(const std::filesystem::path& pdf);

/// A word on a page and its box, in points from the upper left corner.
struct Word {
    std::string text;
    int page = 0;
    double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;
};
[[nodiscard]] std::vector<Word> words_of(const std::filesystem::path& pdf);

} // namespace zeroline::print
