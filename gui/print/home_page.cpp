#include "gui/print/dates_on_paper.hpp"
#include "gui/print/document.hpp"
#include "gui/print/home_words.hpp"
#include "gui/print/offscreen.hpp"
#include "gui/print/sheets.hpp"
#include "gui/print/verdict_cell.hpp"
#include "gui/records/record_folder.hpp"

#include <QDate>

namespace zeroline::print {

using signal::PhaseKind;
using verification::MeasurandKind;

namespace {

/// A ground that black words stand out from on a printer without colours too.
QColor pale(const QColor& colour)
{
    const auto paler = [](int part) { return (part + 2 * 255) / 3; };
    return {paler(colour.red()), paler(colour.green()), paler(colour.blue())};
}

const Style kBody{.size_pt = 11.0};
const Style kStrong{.size_pt = 11.0, .bold = true};
const Style kHomeHeading{.size_pt = 12.5, .bold = true};
constexpr double kHomeTextSize = 10.5;

/// The copy of one record in one language.
class HomeCopy {
public:
    HomeCopy(const PrintedRecord& record, const std::string& language)
        : record_(record), words_(home_words(language)), numerals_(language), german_(language.starts_with("de"))
    {
    }

    [[nodiscard]] PageBlocks blocks() const
    {
        PageBlocks all{paragraph(words_.title, {.size_pt = 18.0, .bold = true}), paragraph(when_and_who(), kBody, 1.0)};
        if (record_.simulated()) {
            all.push_back(paragraph(words_.simulated, kStrong, 2.0));
        }
        if (record_.result.origin == "imported") {
            all.push_back(paragraph(words_.imported, kStrong, 2.0));
        }
        all.push_back(result());
        if (const auto due = next_due(record_); !due.isEmpty()) {
            all.push_back(paragraph(words_.next_due + " " + shown_day(due), kBody, 2.0));
        }
        all.push_back(title(words_.settings));
        all.push_back(whole_table(settings(), 1.0));
        add_remarks(all);
        all.push_back(title(words_.not_told));
        all.push_back(paragraph(words_.not_told_more, kBody, 1.0));
        all.push_back(title(words_.call));
        all.push_back(paragraph(words_.call_more, kBody, 1.0));
        all.push_back(paragraph(contact(), {.size_pt = 14.0, .bold = true}, 1.2));
        all.push_back(title(words_.by_hand));
        all.push_back(framed({paragraph(five_lines(), {.size_pt = 9.5})}, {}, 1.2));
        return all;
    }

    /// Every preset in the one line that the pressures have.
    [[nodiscard]] QString five_lines() const
    {
        QStringList asked, seen;
        for (qsizetype i = 0; i < record_.presets.size(); ++i) {
            const auto& name = record_.presets[i];
            const auto lead = record_.presets.size() > 1 ? name + " " : QString();
            const auto figure = [&](const char* phase) {
                return numerals_.signed_plain(
                    record_.figure("/prescription/" + std::to_string(i) + "/" + phase + "/pressure"));
            };
            const auto mean = [&](PhaseKind phase) {
                return numerals_.signed_fixed(mean_of(name, MeasurandKind::pressure, phase), 1);
            };
            asked << lead + figure("insufflation") + " / " + figure("exsufflation") + " cmH2O";
            seen << lead + mean(PhaseKind::insufflation) + " / " + mean(PhaseKind::exsufflation) + " cmH2O";
        }
        // Copied by hand they lose what stands across the page.
        const auto across = record_.across().isEmpty() ? QString() : " (" + record_.across() + ")";
        return words_.by_hand_lines.arg(record_.text("/unit/asset"), day(), result_words().large + across,
                                        asked.join("; "), seen.join("; "), contact());
    }

private:
    struct Result {
        QString large, more;
    };

    [[nodiscard]] Result result_words() const
    {
        switch (record_.result.state) {
        case session::State::breath:
            return {words_.again, words_.again_more};
        case session::State::out_of_use:
        case session::State::out_of_use_until_checked:
            return {words_.out_of_use, words_.out_of_use_more};
        case session::State::within:
            return {words_.agreed, words_.agreed_more};
        case session::State::near_limit:
            return {words_.close, words_.close_more};
        case session::State::within_but_not_as_set:
            return {words_.not_as_set, words_.not_as_set_more};
        case session::State::narrowly_outside:
        case session::State::outside:
            return {words_.outside, words_.outside_more};
        case session::State::not_in_order:
            return {words_.not_in_order, words_.not_in_order_more};
        case session::State::incomplete:
            break;
        }
        return {words_.incomplete, words_.incomplete_more};
    }

    [[nodiscard]] PageBlock result() const
    {
        const auto words = result_words();
        const bool dark = record_.result.out_of_use();
        const auto colours = colours_of(record_.result.tone);
        const QColor colour = dark ? colours.ink : QColor(Qt::black);
        const QColor ground = dark ? colours.ground : pale(colours.ground);
        return framed(
            {paragraph(record_.result.sign + " " + words.large, {.size_pt = 22.0, .bold = true, .colour = colour}),
             paragraph(words.more, {.size_pt = 11.0, .colour = colour}, 1.0)},
            {ground, {0.5, Qt::black}, 3.0}, 3.0);
    }

    [[nodiscard]] static PageBlock title(const QString& text)
    {
        auto block = paragraph(text, kHomeHeading, 3.4);
        block.keeps_next = true;
        return block;
    }

    [[nodiscard]] QString shown_day(const QString& iso) const
    {
        const auto date = QDate::fromString(iso.left(10), Qt::ISODate);
        return german_ ? date.toString("d.M.yyyy") : date.toString(Qt::ISODate);
    }

    [[nodiscard]] QString day() const { return shown_day(record_.text("/run/began")); }

    [[nodiscard]] QString when_and_who() const
    {
        auto who = record_.text("/run/operator");
        who += (who.isEmpty() || record_.organisation.isEmpty() ? "" : ", ") + record_.organisation;
        return words_.unit + " " + record_.text("/unit/asset") + " (" + record_.text("/unit/model") + ", " +
               record_.text("/unit/serial") + ")\n" + words_.checked_on + " " + day() +
               (who.isEmpty() ? QString() : " " + words_.by + " " + who);
    }

    [[nodiscard]] QString contact() const
    {
        const auto contact = record_.text("/order/contact");
        return contact.isEmpty() ? words_.no_contact : contact;
    }

    [[nodiscard]] std::optional<double> mean_of(const QString& preset, MeasurandKind kind, PhaseKind phase) const
    {
        for (const auto& row : record_.judgements) {
            const auto& known = row.known();
            if (row.preset == preset && known.kind == kind && known.phase == phase && row.against == "prescribed") {
                return row.mean;
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] QString measured(const QString& preset, PhaseKind phase) const
    {
        const auto pressure = mean_of(preset, MeasurandKind::pressure, phase);
        const auto duration = mean_of(preset, MeasurandKind::duration, phase);
        if (!pressure || !duration) {
            return words_.not_seen;
        }
        return words_.in_figures.arg(numerals_.signed_fixed(pressure, 1), numerals_.fixed(duration, 2));
    }

    [[nodiscard]] QString prescribed(std::size_t preset, const std::string& phase) const
    {
        const auto place = "/prescription/" + std::to_string(preset) + "/" + phase;
        return words_.in_figures.arg(numerals_.signed_plain(record_.figure(place + "/pressure")),
                                     numerals_.plain(record_.figure(place + "/duration")));
    }

    [[nodiscard]] Table settings() const
    {
        Table content{
            {{words_.setting, 34.0}, {"", 24.0}, {words_.prescribed, 62.0}, {words_.measured, 62.0}}, {}, kHomeTextSize};
        for (std::size_t i = 0; i < static_cast<std::size_t>(record_.presets.size()); ++i) {
            const auto name = record_.presets[static_cast<qsizetype>(i)];
            const auto row = [&](const QString& preset, const QString& what, const QString& asked,
                                 const QString& seen) {
                content.rows.push_back(
                    {{.text = preset, .bold = true}, {.text = what}, {.text = asked}, {.text = seen}});
            };
            row(name, words_.breath_in, prescribed(i, "insufflation"), measured(name, PhaseKind::insufflation));
            row({}, words_.breath_out, prescribed(i, "exsufflation"), measured(name, PhaseKind::exsufflation));
            const auto pause = record_.figure("/prescription/" + std::to_string(i) + "/pause/duration");
            if (pause.value_or(0.0) > 0.0) {
                const auto seen = mean_of(name, MeasurandKind::duration, PhaseKind::pause);
                row({}, words_.rest, words_.seconds.arg(numerals_.plain(pause)),
                    seen ? words_.seconds.arg(numerals_.fixed(seen, 2)) : words_.not_seen);
            }
        }
        return content;
    }

    void add_remarks(PageBlocks& all) const
    {
        if (record_.result.has_finding("settings-differ") &&
            record_.result.state != session::State::within_but_not_as_set) {
            all.push_back(paragraph(words_.set_otherwise, kStrong, 2.0));
        }
        if (record_.result.out_of_use()) {
            all.push_back(paragraph(words_.held, kBody, 2.0));
            return;
        }
        const bool restored = record_.at("/run/restored") == nlohmann::json(true) && !record_.left_otherwise();
        all.push_back(paragraph(restored ? words_.given_back : words_.not_given_back, kBody, 2.0));
    }

    const PrintedRecord& record_;
    const HomeWords& words_;
    Numerals numerals_;
    bool german_;
};

} // namespace

Document home_sheet(const std::filesystem::path& folder, const PageOptions& options)
{
    const auto record = load_printed_record(folder);
    const auto& words = home_words(options.language);
    Document document;
    document.title = words.title;
    document.date = record.text("/run/began");
    document.size_mm = size_of(options.paper);
    document.margin_mm = 18.0;
    document.footer = record.number + (record.across().isEmpty() ? QString() : "  " + record.across());
    document.page_words = words.page;
    document.across = record.across();
    document.blocks = HomeCopy(record, options.language).blocks();
    return document;
}

std::string home_lines(const std::filesystem::path& folder, const PageOptions& options)
{
    const auto record = load_printed_record(folder);
    return HomeCopy(record, options.language).five_lines().toStdString();
}

void write_home_page(const std::filesystem::path& folder, const std::filesystem::path& out, const PageOptions& options)
{
    const Offscreen offscreen;
    records::write_file_whole(out, pdf_of(home_sheet(folder, options)).toStdString());
}

} // namespace zeroline::print
