#include "gui/session/csv_cell.hpp"

#include "acquisition/trace/csv_cells.hpp"

namespace zeroline::session {

namespace {

bool is_number(std::string_view text) { return trace::number_in(text, '.') || trace::number_in(text, ','); }

bool would_be_computed(std::string_view text)
{
    constexpr std::string_view first = "=+-@\t\r";
    return !text.empty() && first.find(text.front()) != std::string_view::npos && !is_number(text);
}

} // namespace

std::string csv_cell(std::string_view text)
{
    const bool computed = would_be_computed(text);
    if (!computed && text.find_first_of(",\"\r\n") == std::string_view::npos) {
        return std::string(text);
    }
    std::string cell = computed ? "\"'" : "\"";
    for (const char c : text) {
        cell += c;
        if (c == '"') {
            cell += c;
        }
    }
    return cell + '"';
}

} // namespace zeroline::session
