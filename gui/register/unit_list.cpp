#include "gui/register/unit_list.hpp"

#include "acquisition/trace/csv_cells.hpp"
#include "gui/records/json_file.hpp"

#include <algorithm>
#include <set>

namespace zeroline::unit_register {

using trace::InputError;

namespace {

constexpr const char* kHeading = "a heading with 'asset', and 'serial' and 'model' if there are any";

/// The table line by line.
class Table {
public:
    explicit Table(std::string_view text) : text_(text)
    {
        constexpr std::string_view mark = "\xEF\xBB\xBF";
        if (!trace::is_utf8(text_)) {
            throw InputError("the table", "bytes that are no UTF-8", "text saved as CSV UTF-8");
        }
        text_ = text_.starts_with(mark) ? text_.substr(mark.size()) : text_;
        whole_ = std::string(text_) + (text_.ends_with('\n') ? "" : "\n");
        at_ = whole_.data();
        separator_ = trace::separator_of(text_.substr(0, text_.find('\n')));
    }
    [[nodiscard]] bool is_at_end() const { return at_ == whole_.data() + whole_.size(); }
    [[nodiscard]] std::string where() const { return "line " + std::to_string(line_); }

    /// The cells of the next line; line_ is that on which it begins.
    std::vector<std::string> next()
    {
        line_ += lines_in_last_;
        lines_in_last_ = 1;
        std::vector<std::string> cells;
        bool more = true;
        while (more) {
            std::string scratch;
            const auto cell = trace::read_cell(at_, whole_.data() + whole_.size(), separator_, scratch);
            if (cell.end == nullptr || !cell.well_formed) {
                throw InputError(where(), "quotes that do not fit", "quotes around a cell, and doubled inside it");
            }
            cells.emplace_back(trace::trimmed(cell.text));
            lines_in_last_ += cell.line_breaks;
            more = *cell.end == separator_;
            at_ = cell.end + (more ? 1 : 0);
        }
        at_ += *at_ == '\r' ? 1 : 0;
        at_ += 1; // the line feed
        return cells;
    }

private:
    std::string_view text_;
    std::string whole_;
    const char* at_ = nullptr;
    char separator_ = ',';
    std::size_t line_ = 1, lines_in_last_ = 0;
};

std::string without_guard(const std::string& cell)
{
    const bool guarded =
        cell.size() > 1 && cell[0] == '\'' && std::string_view("=+-@").find(cell[1]) != std::string::npos;
    return guarded ? cell.substr(1) : cell;
}

/// Where each of our columns stands; one that is not there stays outside.
std::vector<std::size_t> columns_of(const std::vector<std::string>& heading, const std::vector<std::string>& names)
{
    std::vector<std::size_t> columns;
    for (const auto& name : names) {
        const auto found = std::find_if(heading.begin(), heading.end(), [&](std::string cell) {
            std::transform(cell.begin(), cell.end(), cell.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
            return cell == name;
        });
        columns.push_back(static_cast<std::size_t>(found - heading.begin()));
    }
    return columns;
}

} // namespace

std::vector<Value> units_in_csv(std::string_view text)
{
    const std::vector<std::string> names{"asset", "serial", "model"};
    Table table(text);
    const auto heading = table.next();
    const auto columns = columns_of(heading, names);
    if (columns[0] == heading.size()) {
        throw InputError("line 1", "no column 'asset'", kHeading);
    }
    std::vector<Value> units;
    std::set<std::string> seen;
    while (!table.is_at_end()) {
        const auto cells = table.next();
        if (cells.size() == 1 && cells[0].empty()) {
            continue;
        }
        auto unit = Value::object();
        for (std::size_t i = 0; i < names.size(); ++i) {
            unit[names[i]] = columns[i] < cells.size() ? without_guard(cells[columns[i]]) : std::string();
        }
        const auto asset = unit["asset"].get<std::string>();
        if (asset.empty() || !seen.insert(asset).second) {
            throw InputError(table.where(),
                             asset.empty() ? "no asset number" : "asset number '" + asset + "' once more",
                             "each unit once, with its asset number");
        }
        units.push_back(std::move(unit));
    }
    return units;
}

std::vector<Value> units_from(const std::filesystem::path& file)
{
    return records::reading(file, [&] { return units_in_csv(records::read_file(file)); });
}

} // namespace zeroline::unit_register
