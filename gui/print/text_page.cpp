#include "gui/print/document.hpp"
#include "gui/print/offscreen.hpp"
#include "gui/print/table.hpp"
#include "gui/records/record_folder.hpp"

namespace zeroline::print {

namespace {

QString text_of(const std::string& text) { return QString::fromStdString(text); }

/// Columns share the width by the longest text in each, within reason.
Table table_of(const TextSection& section)
{
    constexpr qsizetype kNarrowest = 5;
    constexpr qsizetype kWidest = 48;
    Table content;
    for (std::size_t i = 0; i < section.columns.size(); ++i) {
        qsizetype longest = text_of(section.columns[i]).size();
        for (const auto& row : section.rows) {
            longest = i < row.size() ? std::max(longest, text_of(row[i]).size()) : longest;
        }
        content.columns.push_back(
            {text_of(section.columns[i]), static_cast<double>(std::clamp(longest, kNarrowest, kWidest))});
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

Pieces pieces_of(const TextPage& page)
{
    Pieces pieces{paragraph(text_of(page.title), {.size_pt = 17.0, .bold = true}),
                  paragraph(text_of(page.subtitle), {.size_pt = 8.6}, 0.6)};
    for (const auto& section : page.sections) {
        if (!section.heading.empty()) {
            pieces.push_back(heading(text_of(section.heading)));
        }
        for (const auto& words : section.paragraphs) {
            pieces.push_back(paragraph(text_of(words), {.size_pt = 7.6}, 0.8));
        }
        if (!section.columns.empty()) {
            auto rows = table(table_of(section));
            rows.front().gap_before = 1.0;
            pieces.insert(pieces.end(), rows.begin(), rows.end());
        }
    }
    return pieces;
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
    document.pieces = pieces_of(page);
    records::write_file_whole(out, pdf_of(document).toStdString());
}

} // namespace zeroline::print
