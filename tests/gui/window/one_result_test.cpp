// One result, read alike: whatever a record says, window, terminal and paper say the same of it.

#include "tests/gui/print/made_record.hpp"
#include "tests/gui/print/other_programs.hpp"
#include "tests/gui/window/driven_window.hpp"
#include "tests/temporary_folder.hpp"

#include "gui/console/exit_status.hpp"
#include "gui/console/result_text.hpp"
#include "gui/print/pages.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/window/language.hpp"
#include "gui/window/result_page.hpp"

#include <QLocale>
#include <QTableView>
#include <QTranslator>

namespace zeroline::window {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using print::MadeRecord;
using session::Reader;
using session::State;
using testing::HasSubstr;

/// A record that comes to one outcome, and what everybody has to read of it.
struct Case {
    const char* name;
    std::function<void(MadeRecord&)> make;
    std::function<void(json& run)> in_the_run;
    std::function<void(nlohmann::ordered_json& record)> in_the_record;
    State state = State::within;
    const char* headline = "Within limits";
    const char* terminal = "PASS: ";
    int exit_status = 0;
    const char* at_home = "As prescribed";
    bool label = true; ///< the result allows one
};

void as_set(json& run, const json& settings)
{
    for (auto& span : run["spans"]) {
        if (span["what"] == "manual" || span["what"] == "automatic") {
            span["set"] = settings;
        }
    }
}

void put_issue(nlohmann::ordered_json& record)
{
    record["issue"] = {{"record_number", "2026-0001"}, {"issued", "2026-08-31T09:40:00+02:00"}};
}

std::vector<Case> cases()
{
    const json set_to_44{{"insufflation", {{"pressure", 44}}}};
    const json set_to_35{{"exsufflation", {{"pressure", -35}}}};
    const auto guarded = [](double out) {
        return [out](MadeRecord& made) {
            made.exsufflation = out;
            made.order["decision_rule"] = "guarded";
        };
    };
    return {
        {"pass", {}, {}, put_issue},
        {"not_sealed", {}, {}, {}},
        {"simulated",
         [](auto& made) { made.run["origin"] = "simulated"; },
         {},
         put_issue,
         State::within,
         "Within limits",
         "PASS: ",
         0,
         "As prescribed",
         false},
        {"imported",
         [](auto& made) { made.run["origin"] = "imported"; },
         {},
         put_issue,
         State::within,
         "Within limits",
         "PASS: ",
         0,
         "As prescribed",
         false},
        {"conditional_pass",
         guarded(-38.1),
         {},
         put_issue,
         State::near_limit,
         "Within limits, near a limit",
         "CONDITIONAL PASS: ",
         4,
         "As prescribed, but near a limit"},
        {"conditional_fail",
         guarded(-37.9),
         {},
         put_issue,
         State::narrowly_outside,
         "Outside limits, within uncertainty",
         "CONDITIONAL FAIL: ",
         1,
         "Not as prescribed",
         false},
        {"fail",
         [](auto& made) { made.exsufflation = -33.0; },
         {},
         put_issue,
         State::outside,
         "Outside limits",
         "FAIL: ",
         1,
         "Not as prescribed",
         false},
        {"incomplete",
         [](auto& made) { made.run["confirmed"] = json::array({"no-patient-connected"}); },
         {},
         put_issue,
         State::incomplete,
         "Incomplete",
         "INCOMPLETE: ",
         3,
         "Check not finished",
         false},
        {"not_given_back",
         [](auto& made) { made.run["restored"] = false; },
         {},
         put_issue,
         State::incomplete,
         "As prescribed: incomplete. As set: within limits",
         "INCOMPLETE: ",
         3,
         "Check not finished",
         false},
        {"critical",
         [](auto& made) { made.insufflation = 52.0; },
         {},
         put_issue,
         State::out_of_use,
         "Keep this unit out of use",
         "CRITICAL: ",
         1,
         "Do not use this unit",
         false},
        {"possible_critical",
         [](auto& made) {
             made.insufflation = 52.0;
             made.run["confirmed"] = json::array({"no-patient-connected"});
         },
         {},
         put_issue,
         State::out_of_use_until_checked,
         "Keep this unit out of use until it is checked again",
         "CRITICAL: ",
         3,
         "Do not use this unit",
         false},
        {"breath_only",
         [](auto& made) { made.run["restored"] = false; },
         {},
         [](auto& record) {
             put_issue(record);
             record["critical"] = true;
             record["verdict"] = "incomplete";
             record["findings"].push_back(
                 {{"code", "breathing"}, {"severity", "critical"}, {"text", "Stop. It moves as breath does."}});
         },
         State::breath,
         "Stopped: run again",
         "CRITICAL: ",
         3,
         "To be checked again",
         false},
        {"set_otherwise_and_delivered_as_prescribed",
         {},
         [=](json& run) { as_set(run, set_to_44); },
         put_issue,
         State::within_but_not_as_set,
         "As prescribed: within limits. As set: outside limits",
         "FAIL: ",
         1,
         "As prescribed, but not as it was set",
         false},
        {"set_otherwise_and_delivered_as_set", [](auto& made) { made.exsufflation = -35.0; },
         [=](json& run) { as_set(run, set_to_35); }, put_issue, State::outside,
         "As prescribed: outside limits. As set: within limits", "FAIL: ", 1, "Not as prescribed", false},
        {"checklist",
         [](auto& made) {
             made.run["checklist"].push_back({{"item", "mains lead"}, {"outcome", "not-ok"}, {"remark", "frayed"}});
         },
         {},
         put_issue,
         State::not_in_order,
         "As prescribed: not in order. As set: within limits",
         "FAIL: ",
         1,
         "Not in order",
         false},
    };
}

std::string on_one_line(const std::string& text)
{
    std::istringstream words(text);
    std::string line;
    for (std::string word; words >> word;) {
        line += (line.empty() ? "" : " ") + word;
    }
    return line;
}

/// As the terminal writes it: paper has a true minus sign.
std::string plain(std::string text)
{
    const std::string minus = "\u2212";
    for (auto at = text.find(minus); at != std::string::npos; at = text.find(minus)) {
        text.replace(at, minus.size(), "-");
    }
    return on_one_line(text);
}

/// Without what stands between the words of a page: the large letters across it, and the sign beside the verdict.
std::string words_alone(const std::string& text, const std::string& sign)
{
    std::istringstream words(text);
    std::string line;
    for (std::string word; words >> word;) {
        const bool letter = word.size() == 1 && word.front() >= 'A' && word.front() <= 'Z';
        if (!letter && word != sign) {
            line += (line.empty() ? "" : " ") + word;
        }
    }
    return line;
}

class OneResult : public testing::TestWithParam<Case> {
protected:
    void SetUp() override
    {
        application();
        QLocale::setDefault(QLocale::c());
        make();
    }

    void make()
    {
        const auto& wanted = GetParam();
        auto made = print::healthy();
        if (wanted.make) {
            wanted.make(made);
        }
        print::make_record(made, folder());
        if (wanted.in_the_run) {
            auto run = records::load_json(folder() / records::name::run);
            wanted.in_the_run(run);
            records::write_file_whole(folder() / records::name::run, run.dump(2));
            records::write_file_whole(folder() / records::name::record,
                                      records::assess(records::load_record_evidence(folder())).record_json);
        }
        if (wanted.in_the_record) {
            print::change_record(folder(), wanted.in_the_record);
        }
        record_json_ = records::read_file(folder() / records::name::record);
    }

    [[nodiscard]] fs::path folder() const { return here_ / "record"; }
    [[nodiscard]] session::ResultView view(Reader reader) const { return session::result_view(record_json_, reader); }
    [[nodiscard]] std::string terminal() const { return console::result_text(view(Reader::terminal)); }
    [[nodiscard]] std::string record_page() const
    {
        // As it is printed while it is sealed: no letters of a draft across it.
        print::write_record_page(folder(), here_ / "page.pdf", {.signatures = {{"Jane Example", "", "", "", ""}}});
        return plain(print::text_of(here_ / "page.pdf"));
    }
    [[nodiscard]] std::string home_copy() const
    {
        print::write_home_page(folder(), here_ / "home.pdf");
        return print::text_of(here_ / "home.pdf");
    }
    /// All words of the window's result page.
    [[nodiscard]] static std::string words_of(const ResultPage& page)
    {
        std::string all;
        for (const auto* label : page.findChildren<QLabel*>()) {
            all += label->text().toStdString() + "\n";
        }
        return on_one_line(all);
    }
    [[nodiscard]] static std::string label(const ResultPage& page, const char* name)
    {
        return page.findChild<QLabel*>(QLatin1String(name))->text().toStdString();
    }

    TemporaryFolder here_;
    std::string record_json_;
};

TEST_P(OneResult, has_the_state_the_headline_and_the_exit_status_that_it_should)
{
    const auto& wanted = GetParam();
    const auto seen = view(Reader::terminal);
    EXPECT_EQ(seen.state, wanted.state) << seen.headline.toStdString() << ": " << seen.why.toStdString();
    EXPECT_EQ(seen.headline.toStdString(), wanted.headline);
    EXPECT_EQ(seen.exit_status, wanted.exit_status);
    EXPECT_EQ(static_cast<int>(console::status_of(seen)), wanted.exit_status);
    EXPECT_THAT(terminal(), HasSubstr(std::string(wanted.terminal) + wanted.headline));
}

TEST_P(OneResult, reads_alike_in_window_terminal_and_paper)
{
    ResultPage page;
    page.show_record(folder());
    const auto window = plain(words_of(page));
    const auto text = plain(terminal());
    const auto paper = record_page();
    const auto seen = view(Reader::terminal);
    const auto sign = seen.sign.toStdString();
    QStringList said{seen.headline, seen.sentence, seen.accuracy, seen.not_tested};
    if (!seen.why.isEmpty()) {
        said << seen.why;
    }
    // That nobody has signed it stands beside the name of the unit in the window, and in what it says of the seal.
    for (const auto& line : said + seen.to_do + view(Reader::screen).banner) {
        EXPECT_THAT(window, HasSubstr(plain(line.toStdString()))) << "window";
    }
    EXPECT_EQ(label(page, "headVerdict"), plain((seen.sign + u' ' + seen.word).toStdString()));
    EXPECT_EQ(label(page, "notGivenOut"), seen.not_given_out() ? session::kNotGivenOut : "");
    for (const auto& line : said + seen.to_do + seen.banner) {
        const auto words = plain(line.toStdString());
        EXPECT_THAT(text, HasSubstr(words)) << "terminal";
        EXPECT_THAT(words_alone(paper, sign), HasSubstr(words_alone(words, sign))) << "paper";
    }
    EXPECT_EQ(label(page, "verdict"), seen.sign.toStdString() + " " + seen.headline.toStdString());
    EXPECT_THAT(paper, HasSubstr(sign));
}

TEST_P(OneResult, has_the_same_rows_findings_and_reasons_everywhere)
{
    const auto on_screen = view(Reader::screen);
    const auto in_text = view(Reader::terminal);
    const auto on_paper = view(Reader::paper);
    const auto text = plain(terminal());
    const auto paper = record_page();
    ASSERT_EQ(on_screen.rows.size(), in_text.rows.size());
    session::JudgementModel model({session::JudgementModel::worst, session::JudgementModel::limits,
                                   session::JudgementModel::uncertainty, session::JudgementModel::verdict});
    model.show(on_screen, {});
    ASSERT_EQ(model.rowCount(), static_cast<int>(in_text.rows.size()));
    for (std::size_t i = 0; i < in_text.rows.size(); ++i) {
        const auto& row = in_text.rows[i];
        const auto cell = [&](int column) {
            return model.index(static_cast<int>(i), column).data().toString().replace(QChar(0x2013), u'-');
        };
        EXPECT_EQ(cell(0), row.worst) << row.name.toStdString();
        EXPECT_EQ(cell(1), row.limits) << row.name.toStdString();
        EXPECT_EQ(cell(2), row.uncertainty) << row.name.toStdString();
        if (row.is.mean || row.is.verdict != metrology::Outcome::not_judged) {
            EXPECT_EQ(cell(3), row.sign + u' ' + row.word) << row.name.toStdString();
        }
        for (const auto& words : {row.limits, row.name, row.word}) {
            EXPECT_THAT(text, HasSubstr(plain(words.toStdString())));
        }
        EXPECT_THAT(words_alone(paper, {}), HasSubstr(plain(on_paper.rows[i].limits.toStdString())));
    }
    for (const auto& finding : in_text.findings) {
        EXPECT_THAT(text, HasSubstr(plain(finding.text.toStdString())));
        EXPECT_THAT(words_alone(paper, {}), HasSubstr(words_alone(plain(finding.text.toStdString()), {})));
    }
    ASSERT_EQ(on_screen.reasons.size(), in_text.reasons.size());
    for (std::size_t i = 0; i < in_text.reasons.size(); ++i) {
        EXPECT_EQ(on_screen.reasons[i].text, in_text.reasons[i].text);
        EXPECT_THAT(text, HasSubstr(plain(in_text.reasons[i].text.toStdString())));
    }
}

TEST_P(OneResult, says_the_same_to_the_person_at_home_and_on_the_label)
{
    EXPECT_THAT(home_copy(), HasSubstr(GetParam().at_home));
    // A record that nobody sealed gets no label whatever it says; what counts here is whether its result forbids one.
    const auto refused = print::why_no_label(folder(), nullptr);
    const auto by_the_result =
        testing::AnyOf(HasSubstr("the record says: " + std::string(GetParam().headline)), HasSubstr("is simulated"),
                       HasSubstr("was imported"), HasSubstr("somebody seemed to be connected"));
    if (GetParam().label) {
        EXPECT_THAT(refused, testing::Not(by_the_result));
    } else {
        EXPECT_THAT(refused, by_the_result);
    }
}

TEST_P(OneResult, reads_in_german_on_the_screen_and_in_english_on_paper_made_there)
{
    const auto in_english = record_page();
    install_language(application(), QStringLiteral("de"));
    const auto german = view(Reader::screen);
    EXPECT_NE(german.headline.toStdString(), GetParam().headline);
    EXPECT_EQ(view(Reader::terminal).headline.toStdString(), GetParam().headline);
    EXPECT_EQ(record_page(), in_english);
    for (auto* translator : application().findChildren<QTranslator*>()) {
        delete translator;
    }
    if (GetParam().state == State::within) {
        EXPECT_EQ(german.headline.toStdString(), "Innerhalb der Grenzen");
    }
}

INSTANTIATE_TEST_SUITE_P(Every, OneResult, testing::ValuesIn(cases()),
                         [](const auto& one) { return std::string(one.param.name); });

} // namespace
} // namespace zeroline::window
