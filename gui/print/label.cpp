#include "gui/print/dates_on_paper.hpp"
#include "gui/print/offscreen.hpp"
#include "gui/print/qr_code.hpp"
#include "gui/print/sheets.hpp"
#include "gui/print/verdict_cell.hpp"
#include "gui/records/attempts.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/record_folder.hpp"

#include "acquisition/trace/input_error.hpp"

namespace zeroline::print {

namespace {

const QSizeF kSize(50.0, 25.0);
constexpr double kMargin = 1.5;
constexpr double kCode = 15.5;

QString why_not(const PrintedRecord& record)
{
    if (record.simulated()) {
        return "the record is simulated: it says nothing about any unit";
    }
    if (record.text("/origin") != "captured-here") {
        return "the trace was imported: nobody here saw it captured";
    }
    if (record.result.breath()) {
        return "the check was stopped, as somebody seemed to be connected";
    }
    if (record.result.state != session::State::within && record.result.state != session::State::near_limit) {
        return "the record says: " + record.result.headline;
    }
    if (record.kept_out()) {
        return "the unit is kept out of use: " + record.text("/run/disposition/reason");
    }
    if (record.at("/run/restored") != nlohmann::json(true)) {
        return "nobody confirmed that the unit was given back as it must be";
    }
    return {};
}

/// First letters: "Jane van Dyck" to "JvD", "operator 3" to "o3".
QString initials_of(const PrintedRecord& record)
{
    QString initials;
    for (const auto& word : record.answers_for_it().split(' ', Qt::SkipEmptyParts)) {
        initials += word.front();
    }
    return initials;
}

QString label_code(const PrintedRecord& record)
{
    constexpr int kShownOfHash = 16;
    return "zeroline " + record.number + " sha256 " + record.sha256.left(kShownOfHash);
}

void draw(const PrintedRecord& record, const std::string& language, PagePainter& painter, const QRectF& box)
{
    const bool german = language.starts_with("de");
    const Style large{.size_pt = 11.0, .bold = true};
    const Style strong{.size_pt = 7.4, .bold = true};
    const Style small{.size_pt = 5.6};
    const double width = box.width() - kCode - 0.5;
    const auto due = next_due(record);
    const auto row = [&](double y, const QString& label, const QString& value) {
        painter.text_at({box.left(), box.top() + y}, label, small, Align::left);
        painter.text_at({box.left() + 13.0, box.top() + y}, value, strong, Align::left);
    };
    // A long inventory number takes the room it needs in smaller letters.
    const auto asset = record.text("/unit/asset");
    painter.text_at({box.left(), box.top() + 2.3}, asset, fitting(asset, large, width), Align::left);
    row(7.0, german ? "geprüft am" : "checked", record.text("/run/began").left(10));
    row(10.6, german ? "fällig am" : "next due", due.isEmpty() ? "____________" : due);
    row(14.2, german ? "durch" : "by", initials_of(record).isEmpty() ? "______" : initials_of(record));
    draw_qr_code(painter, {box.right() - kCode + 1.0, box.top() - 1.0, kCode, kCode}, label_code(record));
    const Style number{.size_pt = 6.2, .bold = true};
    painter.text_at({box.left(), box.bottom() - 4.0}, record.number, fitting(record.number, number, box.width()),
                    Align::left);
    painter.text_at({box.left(), box.bottom() - 1.1},
                    german ? "Druck und Zeit am geschlossenen Schlauchende"
                           : "pressures and times at a closed hose end only",
                    {.size_pt = 4.8}, Align::left);
}

} // namespace

namespace {

/// A label stands for the record alone on a shelf for a year: all of it is computed again, by keys that are known here.
std::string why_not_sealed_well(const std::filesystem::path& folder, const records::KeyList* known)
{
    const records::KeyList none;
    const auto result = records::recheck(folder, known != nullptr ? known : &none);
    if (!result.folder.sealed) {
        return "it is a draft that was never sealed";
    }
    if (!result.intact()) {
        return "it is not intact: " +
               (result.folder.troubles.empty() ? result.differences : result.folder.troubles).front();
    }
    if (!result.unknown_keys.empty()) {
        return "it was sealed with a key that is not known here: " + result.unknown_keys.front();
    }
    return result.dates.empty() ? std::string() : "it has dates that cannot be: " + result.dates.front();
}

std::string why_no_label(const std::filesystem::path& folder, const PrintedRecord& record,
                         const records::KeyList* known)
{
    if (const auto reason = why_not(record).toStdString(); !reason.empty()) {
        return reason;
    }
    const auto reason = why_not_sealed_well(folder, known);
    return reason.empty() ? records::why_not_standing(folder, known) : reason;
}

} // namespace

std::string why_no_label(const std::filesystem::path& folder, const records::KeyList* known)
{
    return why_no_label(folder, load_printed_record(folder), known);
}

Document label_sheet(const std::filesystem::path& folder, const PageOptions& options)
{
    const auto kept = std::make_shared<const PrintedRecord>(load_printed_record(folder));
    const auto& record = *kept;
    if (const auto reason = why_no_label(folder, record, options.known); !reason.empty()) {
        throw trace::InputError(folder.string(), "allows no label: " + reason,
                                "a sealed record of a run captured here that passed and stands for its work order, the "
                                "unit given back");
    }
    Document document;
    document.title = "Label " + record.number;
    document.date = record.text("/run/began");
    document.size_mm = kSize;
    document.margin_mm = kMargin;
    document.blocks = {drawing(kSize.height() - 2 * kMargin,
                               [kept, language = options.language](PagePainter& painter, const QRectF& box) {
                                   draw(*kept, language, painter, box);
                               })};
    return document;
}

void write_label(const std::filesystem::path& folder, const std::filesystem::path& out, const PageOptions& options)
{
    const Offscreen offscreen;
    records::write_file_whole(out, pdf_of(label_sheet(folder, options)).toStdString());
}

} // namespace zeroline::print
