// The printed record, looked at by programs that share no code with this one.

#include "gui/print/pages.hpp"

#include "gui/records/json_file.hpp"
#include "gui/records/manifest.hpp"
#include "gui/records/record_folder.hpp"
#include "tests/gui/print/made_record.hpp"
#include "tests/gui/print/other_programs.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <map>

namespace zeroline::print {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

constexpr double kPointsPerMm = 72.0 / 25.4;

/// As it is printed while it is sealed: no letters of a draft across it, among which other programs lose the lines.
const PageOptions kSigned{.signatures = {{"Jane Example", "", "", "", ""}}};

class RecordPage : public testing::Test {
protected:
    fs::path page_of(const MadeRecord& made, const PageOptions& options = kSigned)
    {
        make_record(made, here_ / "record");
        return print(options);
    }
    fs::path print(const PageOptions& options = kSigned, const std::string& name = "page.pdf")
    {
        write_record_page(here_ / "record", here_ / name, options);
        return here_ / name;
    }

    TemporaryFolder here_;
};

std::string quoted(const fs::path& path) { return "'" + path.string() + "'"; }

std::string sha256_of(const fs::path& file) { return output_of("sha256sum " + quoted(file)).substr(0, 64); }

TEST_F(RecordPage, shows_everything_that_a_record_must_name)
{
    const auto text = text_of(page_of(healthy()));
    for (const auto* words :
         {"Demonstration Workshop (invented), 1 Example Street, 00000 Nowhere", // organisation and address
          "Verification record",
          "WO-2041-1", // title and number (ISO/IEC 17025, 7.8.2.1)
          "This record concerns the unit named here, on this occasion, and no other",
          "Pressures and times at a closed hose end only. Not tested: flow, strength under flow, alarms",
          "Within limits",
          "It agreed with the prescription within the stated limits, on this occasion",
          "RC-0117",
          "K4471",
          "demonstration unit",
          "1204 h", // the unit
          "ward 4 of the demonstration",
          "workshop 2",
          "2026-08-31 09:12 +02:00",
          "Jane Example",
          "RX-88, ordered on 2026-08-02",
          "+40 / −40 cmH2O, 1.5 / 1.5 / 2 s, flow full",
          "2027-02-28", // six months after the last of August
          "invented service manual of the demonstration, section 5",
          "simple acceptance",
          "10/30 line",
          "+38.00 to +42.00",
          "−42.00 to −38.00",
          "1.350 to 1.650",
          "bench transducer 2, serial PT-3310",
          "CAL-771 of 2026-06-03",
          "2036-06-03",
          "22.5 °C, 1008 hPa, 41 % humidity",
          "test, 1.8 m, bore 22 mm",
          "no patient connected, outlet blocked, trigger off",
          "✓ confirmed",
          "intake filter",
          "✓ ok",
          "new",
          "settings found before the first change",
          "trigger on",
          "not a medical device",
          "page 1 of 1"}) {
        EXPECT_THAT(text, HasSubstr(words));
    }
    // Room to sign by hand, where nobody signs.
    EXPECT_THAT(text_of(print({}, "unsigned.pdf")),
                AllOf(HasSubstr("signature"), HasSubstr("meaning (checked, reviewed)")));
    EXPECT_THAT(text, Not(HasSubstr("SIMULATED")));
    // Words that nobody may read out of a pass.
    EXPECT_THAT(text, Not(testing::ContainsRegex("(^|[^a-z])(safe|certified)([^a-z]|$)")));
}

TEST_F(RecordPage, holds_the_four_numbers_of_record_json)
{
    const auto text = text_of(page_of(healthy()));
    const auto record = records::load_json(here_ / "record" / "record.json");
    int seen = 0;
    for (const auto& judgement : record["judgements"]) {
        if (judgement["measurand"] == "insufflation-pressure") {
            char row[64];
            std::snprintf(row, sizeof row, "+40 +40 +%.2f +%.2f (%d)", judgement["mean"].get<double>(),
                          judgement["worst"].get<double>(), judgement["worst_cycle"].get<int>());
            EXPECT_THAT(text, HasSubstr(row));
            ++seen;
        }
    }
    EXPECT_EQ(seen, 1);
}

TEST_F(RecordPage, is_a_sound_pdf_with_trace_and_record_inside_byte_for_byte)
{
    const auto pdf = page_of(healthy());
    EXPECT_THAT(output_of("qpdf --check " + quoted(pdf)), HasSubstr("No syntax or stream encoding errors"));
    fs::create_directory(here_ / "out");
    static_cast<void>(output_of("pdfdetach -saveall -o " + quoted(here_ / "out") + " " + quoted(pdf)));
    for (const auto* name : {"trace.csv", "record.json"}) {
        EXPECT_EQ(sha256_of(here_ / "out" / name), sha256_of(here_ / "record" / name)) << name;
    }
}

TEST_F(RecordPage, carries_number_and_hash_in_words_and_in_the_square_code)
{
    const auto pdf = page_of(healthy());
    const auto hash = sha256_of(here_ / "record" / "record.json");
    EXPECT_THAT(text_of(pdf), HasSubstr("SHA-256 of record.json: " + hash));
    static_cast<void>(output_of("pdftoppm -r 150 -png -singlefile " + quoted(pdf) + " " + quoted(here_ / "page")));
    EXPECT_EQ(output_of("zbarimg -q --raw " + quoted(here_ / "page.png") + " 2>/dev/null"),
              "zeroline record WO-2041-1 sha256 " + hash + "\n");
}

TEST_F(RecordPage, is_the_same_twice_to_the_byte_and_to_the_pixel)
{
    const auto first = page_of(healthy());
    const auto second = print(kSigned, "again.pdf");
    EXPECT_EQ(sha256_of(first), sha256_of(second));
    for (const auto* name : {"page", "again"}) {
        static_cast<void>(output_of("pdftoppm -r 60 -gray " + quoted(here_ / (name + std::string(".pdf"))) + " " +
                                    quoted(here_ / name)));
    }
    EXPECT_EQ(sha256_of(here_ / "page-1.pgm"), sha256_of(here_ / "again-1.pgm"));
    // The date of the PDF is that of the run, in universal time.
    EXPECT_THAT(output_of("TZ=UTC pdfinfo " + quoted(first)), HasSubstr("Mon Aug 31 07:12:04 2026"));
}

TEST_F(RecordPage, says_what_failed_and_by_how_much)
{
    auto made = healthy();
    made.exsufflation = -33.0;
    const auto text = text_of(page_of(made));
    EXPECT_THAT(text, AllOf(HasSubstr("Outside limits"), HasSubstr("✗"), HasSubstr("Do not give this unit out"),
                            HasSubstr("Check zero, plug and hose first. "), HasSubstr("This run is kept"),
                            HasSubstr("of −40 cmH2O in cycle"), HasSubstr("; the limits are −42.00 to"),
                            HasSubstr("−38.00"), HasSubstr("exsufflation off")));
    EXPECT_LE(pages_of(here_ / "page.pdf"), 2);
}

TEST_F(RecordPage, tells_to_keep_a_critical_unit_out_of_use_and_whom_to_call)
{
    auto made = healthy();
    made.insufflation = 52.0;
    const auto text = text_of(page_of(made));
    EXPECT_THAT(text, AllOf(HasSubstr("Keep this unit out of use"), HasSubstr("arrange a replacement now"),
                            HasSubstr("service desk of the demonstration, +00 000 0000"), HasSubstr("⚠ critical")));
}

TEST_F(RecordPage, shows_a_record_in_which_nothing_could_be_judged)
{
    auto made = healthy();
    made.with_run = false;
    const auto text = text_of(page_of(made));
    EXPECT_THAT(
        text, AllOf(HasSubstr("Incomplete ?"), HasSubstr("says neither that the unit agrees"), HasSubstr("not given")));
    EXPECT_EQ(output_of("qpdf --check " + quoted(here_ / "page.pdf") + " >&2; echo sound"), "sound\n");
}

/// The letters of a page that are more than 20 mm high, from the left. A program that reads text finds a word that runs
/// uphill in blocks.
std::string large_letters(const fs::path& pdf, int page)
{
    std::map<double, std::string> from_the_left;
    for (const auto& word : words_of(pdf)) {
        if (word.page == page && word.bottom - word.top > 20.0 * kPointsPerMm) {
            from_the_left[word.left] = word.text;
        }
    }
    std::string letters;
    for (const auto& [left, text] : from_the_left) {
        letters += text;
    }
    return letters;
}

TEST_F(RecordPage, of_what_was_never_sealed_says_draft_on_every_page)
{
    const auto pdf = page_of(with_three_presets(), {});
    ASSERT_GE(pages_of(pdf), 2);
    for (int page = 1; page <= pages_of(pdf); ++page) {
        EXPECT_EQ(large_letters(pdf, page), "DRAFT") << "not across page " << page;
        EXPECT_THAT(text_of(pdf, page), HasSubstr("DRAFT"));
    }
    const auto about_to_be = print({.signatures = {{"Jane Example", "", "", "", ""}}}, "signed.pdf");
    EXPECT_EQ(large_letters(about_to_be, 1), "");
}

TEST_F(RecordPage, is_not_printed_from_a_record_that_was_changed_since_it_was_sealed)
{
    seal_record(healthy(), here_ / "record", here_ / "keys" / "bench.key");
    EXPECT_EQ(large_letters(print(), 1), "");
    change_record(here_ / "record", [](auto& record) { record["verdict"] = "conditional-pass"; });
    const auto said = trouble([&] { print({}, "another.pdf"); });
    EXPECT_THAT(said, AllOf(HasSubstr("is not intact: record.json"), HasSubstr("zeroline recheck")));
    EXPECT_FALSE(fs::exists(here_ / "another.pdf"));
    fs::remove(here_ / "record" / "seal.json");
    EXPECT_THAT(trouble([&] { print({}, "another.pdf"); }), HasSubstr("is not intact")) << "half a seal is no draft";
}

TEST_F(RecordPage, says_simulated_on_every_page)
{
    auto made = with_three_presets();
    made.run["origin"] = "simulated";
    seal_record(made, here_ / "record", here_ / "keys" / "bench.key");
    const auto pdf = print();
    ASSERT_GE(pages_of(pdf), 2);
    for (int page = 1; page <= pages_of(pdf); ++page) {
        EXPECT_EQ(large_letters(pdf, page), "SIMULATED") << "not across page " << page;
        EXPECT_THAT(text_of(pdf, page), HasSubstr("SIMULATED"));
    }
}

TEST_F(RecordPage, labels_house_limits_as_such)
{
    const auto text = text_of(page_of(with_three_presets()));
    EXPECT_THAT(text, HasSubstr("house default, no published source, not approved"));
    EXPECT_THAT(text, HasSubstr("guarded acceptance"));
}

TEST_F(RecordPage, breaks_no_verdict_inside_its_word_in_the_widest_table)
{
    make_record(healthy(), here_ / "record");
    change_record(here_ / "record", [](auto& tree) {
        for (auto& row : tree["judgements"]) {
            row["verdict"] = "incomplete";
            row["set"] = 12.5; // differs: one column more
        }
    });
    const auto words = words_of(print());
    const auto whole =
        std::count_if(words.begin(), words.end(), [](const Word& one) { return one.text == "incomplete"; });
    EXPECT_GE(whole, 5);
    EXPECT_TRUE(std::none_of(words.begin(), words.end(),
                             [](const Word& one) { return one.text.starts_with("incomple") && one.text.size() < 10; }));
}

TEST_F(RecordPage, puts_as_found_beside_as_left_with_what_was_done_between)
{
    auto weak = healthy();
    weak.exsufflation = -33.0;
    make_record(healthy(), here_ / "record");
    make_record(weak, here_ / "record/as-found");
    change_record(here_ / "record", [](auto& tree) {
        tree["issue"] = {{"record_number", "2026-0007"},
                         {"issued", "2026-08-31T09:30:00+02:00"},
                         {"earlier",
                          {{"relation", "as-found"},
                           {"record_number", "2026-0006"},
                           {"verdict", "fail"},
                           {"reason", "intake filter replaced"}}}};
    });
    const auto text = text_of(print());
    EXPECT_THAT(text, AllOf(HasSubstr("As found: record 2026-0006, ✗ fail. Done between: intake filter replaced"),
                            HasSubstr("as found, worst"), HasSubstr("2026-0007")));
    EXPECT_THAT(text, testing::ContainsRegex("exsufflation pressure, cmH2O −3[23]\\.[0-9]+ ✗ fail −[0-9.]+ ✓ pass"));
}

TEST_F(RecordPage, puts_attempts_side_by_side_and_says_which_one_stands)
{
    auto first = healthy();
    first.exsufflation = -33.0;
    auto second = healthy();
    second.run["attempt"] = 2;
    second.run["replaces"] = {{"attempt", 1}, {"cause", "plug"}, {"evidence", "it leaked"}};
    make_record(second, here_ / "record");
    make_record(first, here_ / "record/attempt-before");
    make_record(first, here_ / "record/attempt-before/as-found");
    const auto follow = [](const char* relation, const char* number, const char* reason) {
        return [=](auto& tree) {
            tree["issue"] = {
                {"record_number", "2026-0009"},
                {"issued", "2026-08-31T09:30:00+02:00"},
                {"earlier",
                 {{"relation", relation}, {"record_number", number}, {"verdict", "fail"}, {"reason", reason}}}};
        };
    };
    change_record(here_ / "record", follow("attempt", "2026-0008", "plug: it leaked"));
    change_record(here_ / "record/attempt-before", follow("as-found", "2026-0006", "filter replaced"));
    const auto text = text_of(print());
    EXPECT_THAT(text, AllOf(HasSubstr("As found, as left, attempts"),
                            HasSubstr("As found: record 2026-0006, ✗ fail. Done between: filter replaced"),
                            HasSubstr("Before attempt 2: attempt 1, record 2026-0008, ✗ fail. Tried again: plug: it"),
                            HasSubstr("Attempt 2 stands: pass; attempt 1 is replaced by attempt 2 (plug: it leaked)")));
    EXPECT_THAT(text, testing::ContainsRegex("−3[23]\\.[0-9]+ ✗ fail −3[23]\\.[0-9]+ ✗ fail −[0-9.]+ ✓ pass"));
}

TEST_F(RecordPage, names_who_signed_with_the_meaning)
{
    seal_record(healthy(), here_ / "record", here_ / "keys" / "bench.key",
                {"Ada Example", "biomedical engineer", "checked and released", "2026-08-31T09:40:00+02:00"});
    const auto mark = records::parse_manifest(records::read_file(here_ / "record/manifest.sha256")).key.substr(0, 16);
    const auto text = text_of(print({.signatures = {{"somebody else", "", "", "", ""}}}));
    EXPECT_THAT(text, AllOf(HasSubstr("Ada Example"), HasSubstr("biomedical engineer"),
                            HasSubstr("checked and released"), HasSubstr("2026-08-31 09:40 +02:00"), HasSubstr(mark),
                            HasSubstr("claims no accreditation"), Not(HasSubstr("somebody else"))));
}

TEST_F(RecordPage, fits_letter_paper_too)
{
    const auto pdf = page_of(healthy(), {.paper = Paper::letter, .signatures = kSigned.signatures});
    EXPECT_THAT(output_of("pdfinfo " + quoted(pdf)), HasSubstr("612 x 792 pts (letter)"));
    EXPECT_LE(pages_of(pdf), 2);
}

TEST_F(RecordPage, stays_in_english_down_to_its_decimal_points)
{
    const auto english = text_of(page_of(healthy()));
    EXPECT_EQ(text_of(print({.language = "de", .signatures = kSigned.signatures}, "german.pdf")), english);
    EXPECT_THAT(english, HasSubstr("+38.00"));
}

TEST_F(RecordPage, refuses_a_damaged_record_by_name_and_leaves_nothing)
{
    make_record(healthy(), here_ / "record");
    change_record(here_ / "record", [](auto& tree) { tree.erase("judgements"); });
    EXPECT_THAT(trouble([&] { static_cast<void>(print()); }),
                AllOf(HasSubstr("record.json"), HasSubstr("/judgements")));
    EXPECT_FALSE(fs::exists(here_ / "page.pdf"));
    fs::remove(here_ / "record/record.json");
    EXPECT_THAT(trouble([&] { static_cast<void>(print()); }), HasSubstr("record.json"));
}

/// Words inside the margins, none over another: nothing is cut, nothing collides. The large word across a page lies
/// under everything on purpose.
void expect_tidy(const fs::path& pdf, double width_mm, double height_mm)
{
    constexpr double margin = 9.0 * kPointsPerMm;
    constexpr double touching = 1.5; // boxes of neighbouring lines reach into each other by their descenders
    std::vector<Word> words;
    for (const auto& word : words_of(pdf)) {
        if (word.bottom - word.top < 100.0) {
            words.push_back(word);
        }
    }
    ASSERT_GT(words.size(), 100u);
    for (std::size_t i = 0; i < words.size(); ++i) {
        const auto& one = words[i];
        EXPECT_GE(one.left, margin) << one.text;
        EXPECT_LE(one.right, width_mm * kPointsPerMm - margin) << one.text;
        EXPECT_LE(one.bottom, height_mm * kPointsPerMm - 4.0 * kPointsPerMm) << one.text;
        for (std::size_t j = i + 1; j < words.size(); ++j) {
            const auto& other = words[j];
            const double across = std::min(one.right, other.right) - std::max(one.left, other.left);
            const double down = std::min(one.bottom, other.bottom) - std::max(one.top, other.top);
            const double line = std::min(one.bottom - one.top, other.bottom - other.top);
            EXPECT_FALSE(one.page == other.page && across > touching && down > 0.4 * line)
                << one.text << " over " << other.text << " on page " << one.page;
        }
    }
}

TEST_F(RecordPage, keeps_long_names_and_many_presets_inside_the_paper)
{
    auto made = with_three_presets();
    made.exsufflation = -33.0;
    made.residual = 4.0;
    made.run["settings_left"]["day"]["trigger"] = "off";
    for (int i = 0; i < 30; ++i) {
        made.run["checklist"].push_back({{"item", "item " + std::to_string(i) + " of a long list"},
                                         {"outcome", i % 7 == 0 ? "not-ok" : "ok"},
                                         {"remark", "a remark of several words that says how it was"}});
    }
    expect_tidy(page_of(made), 210.0, 297.0);
    expect_tidy(print({.paper = Paper::letter, .signatures = kSigned.signatures}, "letter.pdf"), 215.9, 279.4);
}

TEST_F(RecordPage, never_leaves_a_signature_alone_on_a_page)
{
    int on_a_later_page = 0;
    for (int items = 0; items <= 40; items += 2) {
        auto made = healthy();
        made.run["checklist"].clear();
        for (int i = 0; i < items; ++i) {
            made.run["checklist"].push_back({{"item", "item " + std::to_string(i)}, {"outcome", "ok"}});
        }
        const auto text = output_of("pdftotext -layout " + quoted(page_of(made)) + " -");
        const auto at = text.find("Signatures\n");
        ASSERT_NE(at, std::string::npos);
        const auto page = text.rfind('\f', at);
        if (page == std::string::npos) {
            continue;
        }
        ++on_a_later_page;
        const auto before = text.substr(page, at - page);
        EXPECT_TRUE(before.find("hand-back") != std::string::npos || before.find("checklist") != std::string::npos)
            << items << " items: what is signed stands on another page:\n"
            << before;
    }
    EXPECT_GT(on_a_later_page, 0);
}

TEST_F(RecordPage, keeps_a_plain_record_tidy) { expect_tidy(page_of(healthy()), 210.0, 297.0); }

} // namespace
} // namespace zeroline::print
