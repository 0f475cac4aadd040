#include "gui/console/text_table.hpp"

#include <algorithm>
#include <numeric>

namespace zeroline::console {

namespace {

constexpr std::size_t kBetween = 2; // blanks from column to column

std::size_t width_of(const std::string& cell)
{
    return static_cast<std::size_t>(std::count_if(
        cell.begin(), cell.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

} // namespace

std::vector<std::size_t> TextTable::widths() const
{
    std::vector<std::size_t> widths(rows_.front().size());
    for (const auto& row : rows_) {
        for (std::size_t i = 0; i < widths.size(); ++i) {
            widths[i] = std::max(widths[i], width_of(row[i]));
        }
    }
    return widths;
}

std::size_t TextTable::width() const
{
    const auto widths = this->widths();
    return std::accumulate(widths.begin(), widths.end(), kBetween * (widths.size() - 1));
}

std::vector<std::string> TextTable::narrow_to(std::size_t letters, const std::vector<std::string>& gives_way)
{
    std::vector<std::string> left_out;
    for (const auto& heading : gives_way) {
        const auto found = std::find(rows_.front().begin(), rows_.front().end(), heading);
        if (width() <= letters || found == rows_.front().end()) {
            continue;
        }
        const auto column = found - rows_.front().begin();
        for (auto& row : rows_) {
            row.erase(row.begin() + column);
        }
        left_out.push_back(heading);
    }
    return left_out;
}

std::string TextTable::text() const
{
    const auto widths = this->widths();
    std::string text;
    for (const auto& row : rows_) {
        for (std::size_t i = 0; i < widths.size(); ++i) {
            const std::string room(widths[i] - width_of(row[i]), ' ');
            const bool last = i + 1 == widths.size();
            text += i == 0 ? row[i] + room : std::string(kBetween, ' ') + (last ? row[i] : room + row[i]);
        }
        text += '\n';
    }
    return text;
}

} // namespace zeroline::console
