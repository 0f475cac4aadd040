#include "gui/print/offscreen.hpp"
#include "gui/print/pages.hpp"
#include "gui/print/printed_record.hpp"
#include "gui/print/qr_code.hpp"
#include "gui/print/sheets.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/record_folder.hpp"

namespace zeroline::print {

namespace {

const QSizeF kTag_mm(105.0, 74.0); // A7, on its side
constexpr double kTagMargin_mm = 4.0;
constexpr double kTagCode_mm = 17.0;

/// Words of the tag, in the language of the label.
struct TagWords {
    const char *head, *unit, *why, *loaner, *none, *record, *day, *call, *signed_by;
};
constexpr TagWords kTagEnglish{"DO NOT USE", "unit",  "why",         "loaner", "none arranged",
                               "record",     "since", "who to call", "by"};
constexpr TagWords kTagGerman{"NICHT BENUTZEN", "Gerät", "Grund",   "Leihgerät", "keines gestellt",
                              "Protokoll",      "seit",  "anrufen", "durch"};

/// Whom somebody calls who finds the unit: who the order names, else who runs the bench.
QString whom_to_call(const PrintedRecord& record)
{
    const auto contact = record.text("/order/contact");
    return contact.isEmpty() ? QStringList{record.organisation, record.address}.join(QStringLiteral(", ")) : contact;
}

PageBlocks blocks_of(const PrintedRecord& record, const TagWords& words)
{
    const auto loaner = record.text("/run/disposition/loaner");
    const std::pair<const char*, QString> rows[] = {
        {words.unit,
         record.text("/unit/asset") + ", " + record.text("/unit/model") + ", " + record.text("/unit/serial")},
        {words.why, record.text("/run/disposition/reason")},
        {words.loaner, loaner.isEmpty() ? QString::fromUtf8(words.none) : loaner},
        {words.call, whom_to_call(record)},
        {words.day, record.text("/run/began").left(10)},
        {words.signed_by, record.answers_for_it()},
        {words.record, record.number}};
    PageBlocks blocks;
    for (const auto& [label, value] : rows) {
        blocks.push_back(
            beside({{20.0, {paragraph(QString::fromUtf8(label), {.size_pt = 7.5})}},
                    {kTag_mm.width() - 2 * kTagMargin_mm - 20.0, {paragraph(value, {.size_pt = 9.5, .bold = true})}}}));
    }
    return blocks;
}

PageBlock head_of(const PrintedRecord& record, const TagWords& words)
{
    return drawing(kTagCode_mm, [head = QString::fromUtf8(words.head), number = record.number,
                                 simulated = record.simulated()](PagePainter& painter, const QRectF& box) {
        const QRectF bar(box.left(), box.top(), box.width() - kTagCode_mm - 2.0, box.height());
        painter.fill(bar, Qt::black);
        const Style large{.size_pt = 24.0, .bold = true, .colour = Qt::white};
        const auto text = simulated ? head + " (SIMULATED)" : head;
        painter.text_at(bar.center(), text, fitting(text, large, bar.width() - 4.0), Align::centre);
        draw_qr_code(painter, {box.right() - kTagCode_mm, box.top(), kTagCode_mm, kTagCode_mm}, "zeroline " + number);
    });
}

} // namespace

Document tag_sheet(const std::filesystem::path& folder, const PageOptions& options)
{
    const auto record = load_printed_record(folder);
    if (!record.kept_out()) {
        throw trace::InputError(folder.string(), "allows no tag: nobody said that the unit is kept out of use",
                                "a record that says so: --keep-out REASON, or the choice beside the signature");
    }
    const auto& words = options.language.starts_with("de") ? kTagGerman : kTagEnglish;
    Document document;
    document.title = "Tag " + record.number;
    document.date = record.text("/run/began");
    document.size_mm = kTag_mm;
    document.margin_mm = kTagMargin_mm;
    document.blocks = blocks_of(record, words);
    document.blocks.insert(document.blocks.begin(), head_of(record, words));
    return document;
}

void write_tag(const std::filesystem::path& folder, const std::filesystem::path& out, const PageOptions& options)
{
    const Offscreen offscreen;
    records::write_file_whole(out, pdf_of(tag_sheet(folder, options)).toStdString());
}

} // namespace zeroline::print
