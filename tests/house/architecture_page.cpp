#include "tests/house/house_rules.hpp"

#include <algorithm>
#include <charconv>
#include <fstream>
#include <stdexcept>

namespace zeroline::house {
namespace {

using Row = std::vector<std::string>;

std::string trimmed(const std::string& text)
{
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

Row cells_of(const std::string& line)
{
    Row cells;
    for (std::size_t begin = 1; begin < line.size();) {
        const auto end = std::min(line.find('|', begin), line.size());
        cells.push_back(trimmed(line.substr(begin, end - begin)));
        begin = end + 1;
    }
    return cells;
}

/// The rows below the heading whose first cell is `first_heading`.
std::vector<Row> table(const std::vector<std::string>& lines, const std::string& first_heading, std::size_t columns)
{
    const auto heading = std::find_if(lines.begin(), lines.end(), [&](const std::string& line) {
        return line.starts_with('|') && cells_of(line).front() == first_heading;
    });
    std::vector<Row> rows;
    for (auto line = heading; line != lines.end() && line->starts_with('|'); ++line)
        rows.push_back(cells_of(*line));
    if (rows.size() < 3)
        throw std::runtime_error("no table '" + first_heading + "' in the architecture page");
    rows.erase(rows.begin(), rows.begin() + 2);
    for (const auto& row : rows)
        if (row.size() < columns)
            throw std::runtime_error("a row of table '" + first_heading + "' has too few cells: " + row.front());
    return rows;
}

std::vector<std::string> code_words(const std::string& cell)
{
    std::vector<std::string> words;
    for (auto open = cell.find('`'); open != std::string::npos;) {
        const auto close = cell.find('`', open + 1);
        if (close == std::string::npos)
            throw std::runtime_error("unclosed ` in the architecture page: " + cell);
        words.push_back(cell.substr(open + 1, close - open - 1));
        open = cell.find('`', close + 1);
    }
    return words;
}

std::string only_code_word(const std::string& cell)
{
    const auto words = code_words(cell);
    if (words.size() != 1)
        throw std::runtime_error("expected one name in the cell: " + cell);
    return words.front();
}

std::optional<int> limit(const std::string& cell)
{
    if (cell == "any")
        return std::nullopt;
    int number = 0;
    const auto* end = cell.data() + cell.size();
    if (const auto read = std::from_chars(cell.data(), end, number); read.ec != std::errc{} || read.ptr != end)
        throw std::runtime_error("expected a number or 'any': " + cell);
    return number;
}

} // namespace

std::vector<std::string> lines_of(const std::filesystem::path& file)
{
    std::ifstream in(file);
    if (!in)
        throw std::runtime_error("cannot read " + file.string());
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

Architecture read_architecture(const std::filesystem::path& page)
{
    const auto lines = lines_of(page);
    Architecture rules;
    for (const auto& row : table(lines, "part", 4))
        rules.parts.push_back({only_code_word(row[0]), only_code_word(row[1]), code_words(row[2]), code_words(row[3])});
    for (const auto& row : table(lines, "outside library", 5))
        rules.libraries.push_back({row[0], code_words(row[1]), only_code_word(row[2]), limit(row[3]), limit(row[4])});
    for (const auto& row : table(lines, "at the top", 2))
        for (const auto& name : code_words(row[0]))
            rules.at_the_top.push_back(name);
    return rules;
}

} // namespace zeroline::house
