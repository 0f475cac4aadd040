#include "gui/print/document.hpp"
#include "gui/print/offscreen.hpp"
#include "gui/print/table.hpp"
#include "gui/records/record_folder.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

QString text_of(const std::string& text) { return QString::fromStdString(text); }

/// The longest text of a column, its head too.
double longest_in(const TextSection& section, std::size_t column)
{
    auto longest = text_of(section.columns[column]).size();
    for (const auto& row : section.rows) {
        longest = column < row.size() ? std::max(longest, text_of(row[column]).size()) : longest;
    }
    return static_cast<double>(longest);
}

/// What is short gets the room it needs; the long ones share the rest evenly and wrap.
std::vector<double> widths_of(const TextSection& section)
{
    constexpr double kCharacters = 118.0; // of this size, in a line across the page
    constexpr double kBetweenColumns = 3.0;
    std::vector<double> widths;
    for (std::size_t i = 0; i < section.columns.size(); ++i) {
        widths.push_back(longest_in(section, i) + kBetweenColumns);
    }
    auto sorted = widths;
    std::sort(sorted.begin(), sorted.end());
    double room = kCharacters;
    double widest = kCharacters;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        const double even = room / static_cast<double>(sorted.size() - i);
        widest = std::max(even, sorted[i]);
        if (sorted[i] > even) {
            widest = even;
            break;
        }
        room -= sorted[i];
    }
    for (auto& width : widths) {
        width = std::min(width, widest);
    }
    return widths;
}

Table table_of(const TextSection& section)
{
    Table content;
    const auto widths = widths_of(section);
    for (std::size_t i = 0; i < section.columns.size(); ++i) {
        content.columns.push_back({text_of(section.columns[i]), widths[i]});
    }
    for (const auto& row : section.rows) {
        std::vector<Cell> cells;
        for (std::size_t i = 0; i < section.columns.size(); ++i) {
            cells.push_back({.text = i < row.size() ? text_of(row[i]) : QString()});
        }
        content.rows.push_back(std::move(cells));
    }
    return content;
}

PageBlocks pieces_of(const TextPage& page)
{
    PageBlocks blocks{paragraph(text_of(page.title), {.size_pt = 17.0, .bold = true}),
                      paragraph(text_of(page.subtitle), {.size_pt = 8.6}, 0.6)};
    for (const auto& section : page.sections) {
        if (!section.heading.empty()) {
            blocks.push_back(heading(text_of(section.heading)));
        }
        for (const auto& words : section.paragraphs) {
            blocks.push_back(paragraph(text_of(words), {.size_pt = 7.6}, 0.8));
        }
        if (!section.columns.empty()) {
            auto rows = table(table_of(section));
            rows.front().gap_before = 1.0;
            blocks.insert(blocks.end(), rows.begin(), rows.end());
        }
    }
    return blocks;
}

} // namespace

void write_text_page(const TextPage& page, const std::filesystem::path& out, const PageOptions& options)
{
    const Offscreen offscreen;
    Document document;
    document.title = text_of(page.title);
    document.date = text_of(page.date);
    document.size_mm = size_of(options.paper);
    document.head = text_of(page.title);
    document.footer = text_of(page.footer.empty() ? page.title : page.footer);
    document.page_words = options.language.starts_with("de") ? "Seite %1 von %2" : "page %1 of %2";
    document.blocks = pieces_of(page);
    records::write_file_whole(out, pdf_of(document).toStdString());
}

} // namespace zeroline::print
