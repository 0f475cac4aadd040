#include "gui/print/document.hpp"
#include "gui/print/home_words.hpp"
#include "gui/print/offscreen.hpp"
#include "gui/print/wording.hpp"
#include "gui/records/record_folder.hpp"

#include <QDate>

#include <algorithm>

namespace zeroline::print {

namespace {

/// A ground that black words stand out from on a printer without colours too.
QColor pale(const QColor& colour)
{
    const auto paler = [](int part) { return (part + 2 * 255) / 3; };
    return {paler(colour.red()), paler(colour.green()), paler(colour.blue())};
}

const Style kBody{.size_pt = 11.0};
const Style kStrong{.size_pt = 11.0, .bold = true};
const Style kHeading{.size_pt = 12.5, .bold = true};
constexpr double kTableSize = 10.5;

/// The copy of one record in one language.
class HomeCopy {
public:
    HomeCopy(const SavedRecord& record, const std::string& language)
        : record_(record), words_(home_words(language)), numerals_(language), german_(language.starts_with("de"))
    {
    }

    [[nodiscard]] Pieces pieces() const
    {
        Pieces all{paragraph(words_.title, {.size_pt = 20.0, .bold = true}), paragraph(when_and_who(), kBody, 1.0)};
        if (record_.simulated()) {
            all.push_back(paragraph(words_.simulated, kStrong, 2.0));
        }
        all.push_back(result());
        all.push_back(title(words_.settings));
        all.push_back(whole_table(settings(), 1.0));
        add_remarks(all);
        all.push_back(title(words_.not_told));
        all.push_back(paragraph(words_.not_told_more, kBody, 1.0));
        all.push_back(title(words_.call));
        all.push_back(paragraph(words_.call_more, kBody, 1.0));
        all.push_back(paragraph(contact(), {.size_pt = 14.0, .bold = true}, 1.2));
        all.push_back(title(words_.by_hand));
        all.push_back(framed({paragraph(five_lines(), {.size_pt = 10.0})}, {}, 1.2));
        return all;
    }

private:
    struct Result {
        QString large, more;
    };

    [[nodiscard]] Result result_words() const
    {
        const auto verdict = record_.text("/verdict");
        if (record_.only_a_breath()) {
            return {words_.again, words_.again_more};
        }
        if (record_.out_of_use()) {
            return {words_.out_of_use, words_.out_of_use_more};
        }
        if (verdict == "pass") {
            return {words_.agreed, words_.agreed_more};
        }
        if (verdict == "conditional-pass") {
            return {words_.close, words_.close_more};
        }
        const bool outside = verdict == "fail" || verdict == "conditional-fail";
        return outside ? Result{words_.outside, words_.outside_more}
                       : Result{words_.incomplete, words_.incomplete_more};
    }

    [[nodiscard]] Piece result() const
    {
        const auto mark = mark_of(record_.text("/verdict"), record_.out_of_use());
        const auto words = result_words();
        const QColor colour = record_.out_of_use() ? QColor(Qt::white) : QColor(Qt::black);
        const QColor ground = record_.out_of_use() ? mark.ground : pale(mark.ground);
        return framed({paragraph(mark.sign + " " + words.large, {.size_pt = 22.0, .bold = true, .colour = mark.ink}),
                       paragraph(words.more, {.size_pt = 11.0, .colour = colour}, 1.0)},
                      {ground, {0.5, Qt::black}, 3.0}, 3.0);
    }

    [[nodiscard]] static Piece title(const QString& text)
    {
        auto piece = paragraph(text, kHeading, 5.0);
        piece.keeps_next = true;
        return piece;
    }

    [[nodiscard]] QString day() const
    {
        const auto date = QDate::fromString(record_.text("/run/began").left(10), Qt::ISODate);
        return german_ ? date.toString("d.M.yyyy") : date.toString(Qt::ISODate);
    }

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

    [[nodiscard]] std::optional<double> mean_of(const QString& preset, const QString& measurand) const
    {
        for (const auto& row : record_.judgements) {
            if (row.preset == preset && row.measurand == measurand && row.against == "prescribed") {
                return row.mean;
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] QString measured(const QString& preset, const QString& phase) const
    {
        const auto pressure = mean_of(preset, phase + "-pressure");
        const auto duration = mean_of(preset, phase + "-duration");
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
            {{words_.setting, 34.0}, {"", 24.0}, {words_.prescribed, 62.0}, {words_.measured, 62.0}}, {}, kTableSize};
        for (std::size_t i = 0; i < static_cast<std::size_t>(record_.presets.size()); ++i) {
            const auto name = record_.presets[static_cast<qsizetype>(i)];
            const auto row = [&](const QString& preset, const QString& what, const QString& asked,
                                 const QString& seen) {
                content.rows.push_back(
                    {{.text = preset, .bold = true}, {.text = what}, {.text = asked}, {.text = seen}});
            };
            row(name, words_.breath_in, prescribed(i, "insufflation"), measured(name, "insufflation"));
            row({}, words_.breath_out, prescribed(i, "exsufflation"), measured(name, "exsufflation"));
            const auto pause = record_.figure("/prescription/" + std::to_string(i) + "/pause/duration");
            if (pause.value_or(0.0) > 0.0) {
                const auto seen = mean_of(name, "pause-duration");
                row({}, words_.rest, words_.seconds.arg(numerals_.plain(pause)),
                    seen ? words_.seconds.arg(numerals_.fixed(seen, 2)) : words_.not_seen);
            }
        }
        return content;
    }

    void add_remarks(Pieces& all) const
    {
        const bool set_otherwise = std::any_of(record_.findings.begin(), record_.findings.end(),
                                               [](const auto& finding) { return finding.code == "settings-differ"; });
        if (set_otherwise) {
            all.push_back(paragraph(words_.set_otherwise, kStrong, 2.0));
        }
        if (record_.out_of_use()) {
            all.push_back(paragraph(words_.held, kBody, 2.0));
            return;
        }
        const bool restored = record_.at("/run/restored") == nlohmann::json(true) && !record_.left_otherwise();
        all.push_back(paragraph(restored ? words_.given_back : words_.not_given_back, kBody, 2.0));
    }

    /// The first preset stands for all: five lines are five lines.
    [[nodiscard]] QString five_lines() const
    {
        const auto pair = [](const QString& in, const QString& out) { return in + " / " + out + " cmH2O"; };
        const auto asked = [&](const char* phase) {
            return numerals_.signed_plain(record_.figure("/prescription/0/" + std::string(phase) + "/pressure"));
        };
        const auto seen = [&](const char* phase) {
            return numerals_.signed_fixed(mean_of(record_.presets.front(), QString(phase) + "-pressure"), 1);
        };
        return words_.by_hand_lines.arg(record_.text("/unit/asset"), day(), result_words().large,
                                        pair(asked("insufflation"), asked("exsufflation")),
                                        pair(seen("insufflation"), seen("exsufflation")), contact());
    }

    const SavedRecord& record_;
    const HomeWords& words_;
    Numerals numerals_;
    bool german_;
};

} // namespace

void write_home_page(const std::filesystem::path& folder, const std::filesystem::path& out, const PageOptions& options)
{
    const auto record = load_saved_record(folder);
    const auto& words = home_words(options.language);
    const Offscreen offscreen;
    Document document;
    document.title = words.title;
    document.date = record.text("/run/began");
    document.size_mm = size_of(options.paper);
    document.margin_mm = 18.0;
    document.footer = record.number + (record.simulated() ? "  SIMULATED" : "");
    document.page_words = words.page;
    document.across = record.simulated() ? "SIMULATED" : "";
    document.pieces = HomeCopy(record, options.language).pieces();
    records::write_file_whole(out, pdf_of(document).toStdString());
}

} // namespace zeroline::print
