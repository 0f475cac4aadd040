#include "gui/print/pages.hpp"

#include "gui/print/document.hpp"
#include "gui/print/offscreen.hpp"
#include "gui/print/record_parts.hpp"
#include "gui/print/sheets.hpp"
#include "gui/print/trace_figures.hpp"
#include "gui/records/record_folder.hpp"

namespace zeroline::print {

namespace {

constexpr double kTraceHeight = 36.0;
constexpr double kOverlayHeight = 39.0;

void append(PageBlocks& blocks, PageBlocks more)
{
    for (auto& block : more) {
        blocks.push_back(std::move(block));
    }
}

/// One preset: its overlay beside the circumstances, which saves a page. More: overlays side by side.
void add_figures(PageBlocks& blocks, const Pictured& pictured, double scale)
{
    const auto& record = *pictured.record;
    blocks.push_back(trace_figure(pictured, scale * kTraceHeight));
    if (record.presets.size() == 1) {
        blocks.push_back(beside({{98.0, {overlay_figure(pictured, record.presets.front(), scale * kOverlayHeight)}},
                                 {84.0, {circumstances_part(record, pictured.numerals, 1)}}},
                                4.0, 1.0));
        return;
    }
    constexpr qsizetype kAbreast = 3;
    for (qsizetype first = 0; first < record.presets.size(); first += kAbreast) {
        std::vector<std::pair<double, PageBlocks>> row;
        for (qsizetype i = first; i < std::min(first + kAbreast, record.presets.size()); ++i) {
            row.push_back({1.0, {overlay_figure(pictured, record.presets[i], scale * kOverlayHeight)}});
        }
        blocks.push_back(beside(std::move(row), 4.0, 1.0));
    }
    blocks.push_back(heading("Instrument and circumstances"));
    blocks.push_back(circumstances_part(record, pictured.numerals, 2));
}

PageBlocks pieces_of(const Pictured& pictured, double scale)
{
    const auto& record = *pictured.record;
    PageBlocks blocks = title_part(record);
    append(blocks, verdict_part(record));
    append(blocks, identity_part(record, pictured.numerals));
    append(blocks, numbers_part(record));
    add_figures(blocks, pictured, scale);
    append(blocks, findings_part(record));
    append(blocks, earlier_part(record));
    append(blocks, hand_back_part(record, pictured.numerals));
    append(blocks, corrections_part(record));
    blocks.back().keeps_next = true; // a signature never stands on a page of its own
    append(blocks, signatures_part(record));
    return blocks;
}

QString line_of(const PrintedRecord& record)
{
    const auto dot = QString::fromUtf8("  \u00B7  ");
    return "Verification record " + record.number + dot + "unit " + record.text("/unit/asset") + dot +
           record.result.sign + " " + record.result.word +
           (record.across().isEmpty() ? QString() : dot + record.across());
}

Document document_of(const PrintedRecord& record)
{
    Document document;
    document.title = "Verification record " + record.number;
    document.date = record.text("/run/began");
    document.head = line_of(record);
    document.footer = record.number + (record.across().isEmpty() ? "" : "  " + record.across()) +
                      "   SHA-256 of record.json: " + record.sha256;
    document.across = record.across();
    document.attachments = {{"record.json", "application/json", record.record_json},
                            {"trace.csv", "text/csv", record.trace_csv}};
    return document;
}

/// Somewhat lower figures where they save a page: nobody wants to turn over for three lines.
void lay_out(Document& document, const Pictured& pictured)
{
    document.blocks = pieces_of(pictured, 1.0);
    const auto pages = page_count(document);
    for (const double scale : {0.92, 0.84, 0.76}) {
        Document tighter = document;
        tighter.blocks = pieces_of(pictured, scale);
        if (page_count(tighter) < pages) {
            document.blocks = std::move(tighter.blocks);
            return;
        }
    }
}

} // namespace

Document record_sheet(const std::filesystem::path& folder, const PageOptions& options)
{
    auto loaded = load_printed_record(folder);
    if (loaded.signatures.empty()) {
        loaded.signatures = options.signatures;
        loaded.draft = loaded.draft && loaded.signatures.empty();
    }
    const auto record = std::make_shared<const PrintedRecord>(std::move(loaded));
    auto document = document_of(*record);
    document.size_mm = size_of(options.paper);
    lay_out(document, pictured(record, Numerals("en")));
    return document;
}

void write_record_page(const std::filesystem::path& folder, const std::filesystem::path& out,
                       const PageOptions& options)
{
    const Offscreen offscreen;
    records::write_file_whole(out, pdf_of(record_sheet(folder, options)).toStdString());
}

} // namespace zeroline::print
