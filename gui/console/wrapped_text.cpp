#include "gui/console/wrapped_text.hpp"

#include <algorithm>

namespace zeroline::console {

std::size_t letters_in(std::string_view text)
{
    const auto begins_letter = [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; };
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_letter));
}

std::string cut_to(std::string_view text, std::size_t letters)
{
    std::string cut;
    for (std::size_t seen = 0; const char c : text) {
        seen += letters_in({&c, 1});
        if (seen > letters) {
            break;
        }
        cut += c;
    }
    return cut;
}

std::string wrapped(std::string_view text, std::size_t width)
{
    const auto indent = std::min(text.find_first_not_of("- "), width / 4);
    std::string out;
    std::size_t in_line = 0;
    while (!text.empty()) {
        const auto word_at = text.find_first_not_of(' ');
        const auto word_end = std::min(text.find(' ', std::min(word_at, text.size())), text.size());
        const auto piece = text.substr(0, word_end);
        if (in_line > indent && in_line + letters_in(piece) > width) {
            out += '\n' + std::string(indent, ' ');
            in_line = indent;
            text.remove_prefix(std::min(word_at, text.size()));
            continue;
        }
        out += piece;
        in_line += letters_in(piece);
        text.remove_prefix(word_end);
    }
    return out;
}

} // namespace zeroline::console
