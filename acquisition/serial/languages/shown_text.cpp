#include "acquisition/serial/languages/shown_text.hpp"

namespace zeroline::serial {

namespace {

constexpr std::size_t kLongestShown = 24;

bool is_printable(char c) noexcept
{
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x20 && byte <= 0x7e;
}

} // namespace

std::string printable(std::string_view bytes)
{
    std::string text(bytes);
    for (char& c : text) {
        c = is_printable(c) ? c : '?';
    }
    return text;
}

std::string shown(std::string_view bytes)
{
    const bool cut = bytes.size() > kLongestShown;
    return '"' + printable(bytes.substr(0, kLongestShown)) + (cut ? "...\"" : "\"");
}

} // namespace zeroline::serial
