#include "acquisition/trace/visible_text.hpp"

#include "acquisition/trace/csv_cells.hpp"

#include <algorithm>
#include <array>

namespace zeroline::trace {

namespace {

unsigned byte_at(std::string_view text, std::size_t at) noexcept { return static_cast<unsigned char>(text[at]); }

/// Bytes of the letter that begins with `lead`, as UTF-8 announces them; 1 also where none may begin.
std::size_t announced_length(unsigned lead) noexcept
{
    return lead < 0xC2U || lead > 0xF4U ? 1 : lead < 0xE0U ? 2 : lead < 0xF0U ? 3 : 4;
}

/// Of a well-formed letter.
unsigned code_point(std::string_view letter) noexcept
{
    constexpr std::array<unsigned, 5> mask{0, 0x7F, 0x1F, 0x0F, 0x07};
    unsigned code = byte_at(letter, 0) & mask[letter.size()];
    for (std::size_t i = 1; i < letter.size(); ++i) {
        code = (code << 6U) | (byte_at(letter, i) & 0x3FU);
    }
    return code;
}

struct Range {
    unsigned first, last;
};

/// Unicode 15, UnicodeData.txt and PropList.txt (Bidi_Control), from memory.
constexpr std::array<Range, 7> kSteering{{{0x00, 0x1F},
                                          {0x7F, 0x9F},
                                          {0x61C, 0x61C},
                                          {0x200E, 0x200F},
                                          {0x2028, 0x202E},
                                          {0x2066, 0x2069},
                                          {0xFFF9, 0xFFFB}}};

bool steers(unsigned code) noexcept
{
    return std::any_of(kSteering.begin(), kSteering.end(),
                       [code](const Range& range) { return code >= range.first && code <= range.last; });
}

void append_hex(std::string& out, unsigned value, unsigned digits)
{
    for (unsigned shift = 4 * digits; shift > 0; shift -= 4) {
        out += "0123456789abcdef"[(value >> (shift - 4)) & 0xFU];
    }
}

std::string escaped(std::string_view text, std::string_view kept)
{
    std::string out;
    out.reserve(text.size());
    const auto plain = [&](char c) { return (c >= ' ' && c < 0x7F) || kept.find(c) != std::string_view::npos; };
    for (std::size_t i = 0; i < text.size();) {
        const auto* const end = std::find_if_not(text.begin() + i, text.end(), plain);
        if (end != text.begin() + i) {
            out.append(text.begin() + i, end);
            i = static_cast<std::size_t>(end - text.begin());
            continue;
        }
        const auto letter = text.substr(i, announced_length(byte_at(text, i)));
        if (!is_utf8(letter)) {
            out += "\\x";
            append_hex(out, byte_at(text, i), 2);
            i += 1;
        } else {
            if (const unsigned code = code_point(letter); steers(code)) {
                out += "\\u";
                append_hex(out, code, 4);
            } else {
                out += letter;
            }
            i += letter.size();
        }
    }
    return out;
}

} // namespace

std::string visible(std::string_view text) { return escaped(text, "\n\t"); }

std::string visible_on_one_line(std::string_view text) { return escaped(text, {}); }

std::size_t unfinished_letter(std::string_view text) noexcept
{
    for (std::size_t length = 1; length <= 3 && length <= text.size(); ++length) {
        const unsigned byte = byte_at(text, text.size() - length);
        if ((byte & 0xC0U) != 0x80U) {
            return announced_length(byte) > length ? length : 0;
        }
    }
    return 0;
}

} // namespace zeroline::trace
