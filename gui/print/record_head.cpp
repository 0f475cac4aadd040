#include "analysis/verification/preset_reader.hpp"
#include "gui/print/qr_code.hpp"
#include "gui/print/record_parts.hpp"
#include "gui/session/series_words.hpp"

#include <nlohmann/json.hpp>

#include <memory>

namespace zeroline::print {

namespace {

constexpr double kCodeSide = 24.0;
const Style kOrganisation{.size_pt = 7.6};
const Style kTitle{.size_pt = 17.0, .bold = true};
const Style kNumber{.size_pt = 10.5, .bold = true};

/// What the square code says: enough to find the record and to see that it is this one.
QString record_code(const PrintedRecord& record)
{
    return "zeroline record " + record.number + " sha256 " + record.sha256;
}

QString organisation_line(const PrintedRecord& record)
{
    return or_not_given(record.organisation) + (record.address.isEmpty() ? "" : ", " + record.address);
}

QString attempt_words(const PrintedRecord& record)
{
    auto words = QString::number(static_cast<int>(record.figure("/attempt").value_or(1)));
    if (const auto replaced = record.figure("/run/replaces/attempt")) {
        words += ", in place of attempt " + QString::number(static_cast<int>(*replaced)) + " (" +
                 record.text("/run/replaces/cause") + ": " + record.text("/run/replaces/evidence") + ")";
    }
    return words;
}

/// The sign stands large on the colour of the verdict, the words beside it on white; what is critical is dark as a
/// whole.
PageBlock verdict_box(const session::ResultView& result)
{
    constexpr double sign_mm = 20.0;
    constexpr double padding = 1.8;
    const auto colours = colours_of(result.tone);
    const bool dark = result.critical;
    const QColor ground = dark ? colours.ground : QColor(Qt::white);
    const QColor colour = dark ? colours.ink : QColor(Qt::black);
    PageBlocks words{paragraph(result.headline, {.size_pt = 19.0, .bold = true, .colour = colour})};
    if (!result.sentence.isEmpty()) {
        words.push_back(paragraph(result.sentence, {.size_pt = 8.4, .colour = colour}, 0.2));
    }
    if (!result.why.isEmpty()) {
        words.push_back(paragraph(result.why, {.size_pt = 8.4, .bold = true, .colour = colour}, 0.5));
    }
    for (const auto& line : result.to_do + result.after) {
        words.push_back(paragraph(line, {.size_pt = 8.4, .bold = true, .colour = colour}, 0.5));
    }
    words.push_back(paragraph(result.accuracy, {.size_pt = 7.2, .colour = colour}, 0.5));
    const auto inside = std::make_shared<const PageBlocks>(std::move(words));
    const auto height = [=](double width) { return height_of(*inside, width - sign_mm - 2 * padding) + 2 * padding; };
    return {height,
            [=, sign = result.sign](PagePainter& painter, const QRectF& box) {
                const QRectF left(box.left(), box.top(), sign_mm, box.height());
                painter.fill(box, ground);
                painter.fill(left, colours.ground);
                painter.text_at(left.center(), sign, {.size_pt = 30.0, .bold = true, .colour = colours.ink},
                                Align::centre);
                draw_all(*inside, painter, box.adjusted(sign_mm + padding, padding, -padding, -padding));
                painter.frame(box, {0.4, Qt::black});
            },
            1.6};
}

QString hours_words(const PrintedRecord& record, const Numerals& numerals)
{
    const auto hours = record.figure("/unit/hours");
    return hours ? numerals.plain(hours) + " h" : "not read";
}

QString preset_words(const nlohmann::json& preset, const Numerals& numerals)
{
    const auto figure = [&](const char* phase, const char* key) -> std::optional<double> {
        const auto it = preset.find(phase);
        return it != preset.end() && it->contains(key) ? std::optional((*it)[key].get<double>()) : std::nullopt;
    };
    const auto both = [&](const char* key, bool with_sign) {
        const auto in = figure("insufflation", key);
        const auto out = figure("exsufflation", key);
        return with_sign ? numerals.signed_plain(in) + " / " + numerals.signed_plain(out)
                         : numerals.plain(in) + " / " + numerals.plain(out);
    };
    auto words = QString::fromStdString(preset.value("name", "")) + ": " + both("pressure", true) + " cmH2O, " +
                 both("duration", false) + " / " + numerals.plain(figure("pause", "duration")) + " s";
    if (const auto flow = preset.find("flow"); flow != preset.end()) {
        const auto text = flow->is_string() ? flow->get<std::string>() : flow->value("class", "");
        words += ", flow " + QString::fromStdString(text);
    }
    if (const auto oscillation = preset.find("oscillation"); oscillation != preset.end() && oscillation->is_object()) {
        words += ", oscillation " + numerals.plain(oscillation->value("frequency", 0.0)) + " Hz, " +
                 numerals.plain(oscillation->value("amplitude", 0.0)) + " cmH2O";
    }
    const auto series = session::series_words(verification::read_preset(trace::JsonReader(preset)),
                                              session::ResultWords(session::Reader::paper));
    return series.isEmpty() ? words : words + ", " + series;
}

} // namespace

PageBlocks title_part(const PrintedRecord& record)
{
    auto number = record.number + QString::fromUtf8("  \u00B7  unit ") + record.text("/unit/asset");
    PageBlocks words{paragraph(organisation_line(record), kOrganisation), paragraph("Verification record", kTitle, 0.6),
                     paragraph(number, kNumber, 0.4),
                     paragraph("Mechanical insufflation-exsufflation unit, hose end closed. This record concerns the "
                               "unit named here, on this occasion, and no other.",
                               {.size_pt = 6.4}, 0.8)};
    for (const auto& line : record.result.banner) {
        words.push_back(paragraph(line, {.size_pt = 9.0, .bold = true}, 0.8));
    }
    const PageBlock code = drawing(kCodeSide, [text = record_code(record)](PagePainter& painter, const QRectF& box) {
        draw_qr_code(painter, {box.right() - kCodeSide, box.top(), kCodeSide, kCodeSide}, text);
    });
    return {beside({{156.0, words}, {kCodeSide, {code}}})};
}

PageBlocks verdict_part(const PrintedRecord& record)
{
    PageBlocks blocks;
    blocks.push_back(framed({paragraph(record.result.not_tested, {.size_pt = 7.8, .bold = true})}, {}, 1.2));
    blocks.push_back(verdict_box(record.result));
    return blocks;
}

QString next_due_words(const PrintedRecord& record)
{
    const auto due = next_due(record);
    const bool failed = record.result.outcome == metrology::Outcome::fail || record.result.critical;
    if (record.kept_out()) {
        return "none: kept out of use";
    }
    return failed ? "none: not released" : due.isEmpty() ? "not set" : due;
}

PageBlocks identity_part(const PrintedRecord& record, const Numerals& numerals)
{
    const auto ordered = record.text("/order/ordered_on");
    Facts pairs{
        {"unit", or_not_given(record.text("/unit/asset"))},
        {"serial number", or_not_given(record.text("/unit/serial"))},
        {"model", or_not_given(record.text("/unit/model"))},
        {"running hours", hours_words(record, numerals)},
        {"prescription", record.text("/order/reference") + (ordered.isEmpty() ? "" : ", ordered on " + ordered)},
        {"work order", record.text("/order/work_order") + ", attempt " + attempt_words(record)},
        {"occasion", with_blanks(record.text("/order/occasion"))},
        {"customer", or_not_given(record.text("/order/customer"))},
        {"run began", or_not_given(moment_text(record.text("/run/began")))},
        {"place", or_not_given(record.text("/run/place"))},
        {"operator", or_not_given(record.text("/run/operator"))},
        {"issued", or_not_given(moment_text(record.text("/issue/issued")))},
        {"next due", next_due_words(record)},
        {"contact", or_not_given(record.text("/order/contact"))},
    };
    if (!record.procedure.isEmpty()) {
        pairs.push_back({"procedure", record.procedure});
    }
    PageBlocks blocks{facts(pairs, 3, 19.0, 1.8)};
    QStringList presets;
    for (const auto& preset : record.at("/prescription")) {
        presets << preset_words(preset, numerals);
    }
    const Facts prescription{{"prescribed", presets.join('\n')}};
    blocks.push_back(facts(prescription, 1, 19.0));
    return blocks;
}

} // namespace zeroline::print
