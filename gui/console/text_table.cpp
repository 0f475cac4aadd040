#include "gui/console/text_table.hpp"

#include <algorithm>

namespace zeroline::console {

namespace {

std::size_t width_of(const std::string& cell)
{
    return static_cast<std::size_t>(std::count_if(
        cell.begin(), cell.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

} // namespace

std::string TextTable::text() const
{
    std::vector<std::size_t> widths(rows_.front().size());
    for (const auto& row : rows_) {
        for (std::size_t i = 0; i < widths.size(); ++i) {
            widths[i] = std::max(widths[i], width_of(row[i]));
        }
    }
    std::string text;
    for (const auto& row : rows_) {
        for (std::size_t i = 0; i < widths.size(); ++i) {
            const std::string room(widths[i] - width_of(row[i]), ' ');
            const bool last = i + 1 == widths.size();
            text += i == 0 ? row[i] + room : "  " + (last ? row[i] : room + row[i]);
        }
        text += '\n';
    }
    return text;
}

} // namespace zeroline::console
