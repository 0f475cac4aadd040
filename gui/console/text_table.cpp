#include "gui/console/text_table.hpp"

#include "gui/console/wrapped_text.hpp"

#include <algorithm>
#include <numeric>

namespace zeroline::console {

namespace {

constexpr std::size_t kBetween = 2; // blanks from column to column

} // namespace

std::vector<std::size_t> TextTable::widths() const
{
    std::vector<std::size_t> widths(rows_.front().size());
    for (const auto& row : rows_) {
        for (std::size_t i = 0; i < widths.size(); ++i) {
            widths[i] = std::max(widths[i], letters_in(row[i]));
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
            const std::string room(widths[i] - letters_in(row[i]), ' ');
            const bool last = i + 1 == widths.size();
            text += i == 0 ? row[i] + room : std::string(kBetween, ' ') + (last ? row[i] : room + row[i]);
        }
        text += '\n';
    }
    return text;
}

} // namespace zeroline::console
