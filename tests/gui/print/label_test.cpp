#include "gui/print/pages.hpp"

#include "gui/records/key_list.hpp"
#include "tests/gui/print/made_record.hpp"
#include "tests/gui/print/other_programs.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

namespace zeroline::print {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;

class Label : public testing::Test {
protected:
    std::string refusal_of(const MadeRecord& made)
    {
        fs::remove_all(here_ / "record");
        seal_record(made, here_ / "record", key_);
        return refusal();
    }
    std::string refusal()
    {
        const auto known = records::own_keys(key_);
        const auto message = trouble([&] { write_label(here_ / "record", here_ / "label.pdf", {.known = &known}); });
        EXPECT_EQ(fs::exists(here_ / "label.pdf"), message == "no trouble");
        return message;
    }
    TemporaryFolder here_;
    fs::path key_ = here_ / "keys" / "bench.key";
};

TEST_F(Label, names_unit_day_due_day_initials_and_record_on_50_by_25_mm)
{
    EXPECT_EQ(refusal_of(healthy()), "no trouble");
    const auto pdf = here_ / "label.pdf";
    // 50 mm and 25 mm are 141.7 and 70.9 points.
    EXPECT_THAT(output_of("pdfinfo '" + pdf.string() + "'"), testing::ContainsRegex("14[12](\\.[0-9]+)? x 7[01]"));
    EXPECT_THAT(text_of(pdf),
                AllOf(HasSubstr("RC-0117"), HasSubstr("checked 2026-08-31"), HasSubstr("next due 2027-02-28"),
                      HasSubstr("by JE"), HasSubstr("WO-2041-1"), HasSubstr("closed hose end only")));
    static_cast<void>(
        output_of("pdftoppm -r 300 -png -singlefile '" + pdf.string() + "' '" + (here_ / "label").string() + "'"));
    EXPECT_THAT(output_of("zbarimg -q --raw '" + (here_ / "label.png").string() + "' 2>/dev/null"),
                HasSubstr("zeroline WO-2041-1 sha256 "));
}

TEST_F(Label, is_refused_for_a_unit_that_passed_and_is_kept_out_of_use_all_the_same)
{
    auto made = healthy();
    made.run["disposition"] = {{"unit", "kept-out"}, {"reason", "cord is cut"}};
    EXPECT_THAT(refusal_of(made), HasSubstr("the unit is kept out of use: cord is cut"));
}

TEST(Tag, says_large_what_not_to_do_with_which_unit_why_and_whom_to_call)
{
    const TemporaryFolder here;
    auto made = healthy();
    made.exsufflation = -33.0;
    made.order["contact"] = "service desk, +00 000 0000";
    made.run["disposition"] = {{"unit", "kept-out"}, {"reason", "weak exsufflation"}, {"loaner", "RC-0200"}};
    seal_record(made, here / "record", here / "keys" / "bench.key");
    write_tag(here / "record", here / "tag.pdf");
    EXPECT_THAT(text_of(here / "tag.pdf"),
                AllOf(HasSubstr("DO NOT USE"), HasSubstr("RC-0117"), HasSubstr("why weak exsufflation"),
                      HasSubstr("loaner RC-0200"), HasSubstr("who to call service desk, +00 000 0000"),
                      HasSubstr("since 2026-08-31"), HasSubstr("record WO-2041-1")));
    EXPECT_EQ(pages_of(here / "tag.pdf"), 1);
    // 105 mm and 74 mm are 297.6 and 209.8 points.
    EXPECT_THAT(output_of("pdfinfo '" + (here / "tag.pdf").string() + "'"),
                testing::ContainsRegex("29[78](\\.[0-9]+)? x (209|210)"));
    for (const auto& word : words_of(here / "tag.pdf")) {
        EXPECT_TRUE(word.left >= 0.0 && word.right <= 298.0 && word.bottom <= 210.0) << word.text;
    }
    write_tag(here / "record", here / "tag-de.pdf", {.language = "de"});
    EXPECT_THAT(text_of(here / "tag-de.pdf"), AllOf(HasSubstr("NICHT BENUTZEN"), HasSubstr("Leihgerät RC-0200")));
    write_record_page(here / "record", here / "record.pdf");
    EXPECT_THAT(text_of(here / "record.pdf"),
                AllOf(HasSubstr("The unit: kept out of use (weak exsufflation)."),
                      HasSubstr("Loaner arranged: RC-0200."), HasSubstr("none: kept out of use")));
}

TEST(Tag, is_refused_where_nobody_said_that_the_unit_is_kept_out)
{
    const TemporaryFolder here;
    seal_record(healthy(), here / "record", here / "keys" / "bench.key");
    EXPECT_THAT(trouble([&] { write_tag(here / "record", here / "tag.pdf"); }),
                HasSubstr("nobody said that the unit is kept out of use"));
    EXPECT_FALSE(fs::exists(here / "tag.pdf"));
}

TEST_F(Label, leaves_room_for_the_due_day_where_no_interval_is_set)
{
    auto made = healthy();
    made.bench.erase("interval_months");
    EXPECT_EQ(refusal_of(made), "no trouble");
    EXPECT_THAT(text_of(here_ / "label.pdf"), HasSubstr("next due ___"));
}

TEST_F(Label, is_refused_for_what_allows_none_with_the_reason)
{
    auto made = healthy();
    made.run["origin"] = "simulated";
    EXPECT_THAT(refusal_of(made), HasSubstr("simulated"));
    made.run["origin"] = "imported";
    EXPECT_THAT(refusal_of(made), HasSubstr("imported"));
    made = healthy();
    made.exsufflation = -33.0;
    EXPECT_THAT(refusal_of(made), HasSubstr("the record says: Outside limits"));
    made.exsufflation = -52.0;
    EXPECT_THAT(refusal_of(made), HasSubstr("Keep this unit out of use"));
    made = healthy();
    made.run["restored"] = false;
    EXPECT_THAT(refusal_of(made), HasSubstr("incomplete"));
    made.run.erase("restored");
    EXPECT_THAT(refusal_of(made), HasSubstr("given back"));
}

TEST_F(Label, is_refused_for_a_record_that_was_never_sealed_or_was_changed_since)
{
    make_record(healthy(), here_ / "record");
    EXPECT_THAT(refusal(), HasSubstr("a draft that was never sealed"));
    auto critical = healthy();
    critical.exsufflation = -52.0;
    fs::remove_all(here_ / "record");
    seal_record(critical, here_ / "record", key_);
    change_record(here_ / "record", [](auto& record) {
        record["verdict"] = record["unit_accuracy"] = "pass";
        record["critical"] = false;
    });
    EXPECT_THAT(refusal(), HasSubstr("is not intact: record.json: is not the file that was sealed"));
}

TEST_F(Label, is_refused_where_the_key_is_not_known_or_a_date_cannot_be)
{
    seal_record(healthy(), here_ / "record", here_ / "stranger" / "bench.key");
    EXPECT_THAT(refusal(), HasSubstr("a key that is not known here"));
    fs::remove_all(here_ / "record");
    seal_record(healthy(), here_ / "record", key_,
                {"Jane Example", "operator", "performed the verification", "2016-08-31T09:30:00+02:00"});
    EXPECT_THAT(refusal(), HasSubstr("dates that cannot be"));
}

TEST_F(Label, is_for_the_attempt_that_stands_whatever_lies_beside_it)
{
    auto fail = healthy();
    fail.exsufflation = -33.0;
    seal_record(fail, here_ / "first", key_);
    auto made = healthy();
    made.run["attempt"] = 2;
    EXPECT_THAT(refusal_of(made), HasSubstr("Attempt 1 stands: fail; attempt 2 names no cause"));
    made.run["replaces"] = {{"attempt", 1}, {"cause", "plug"}, {"evidence", "it leaked"}};
    EXPECT_EQ(refusal_of(made), "no trouble");
    fs::remove(here_ / "label.pdf");
    fail.run["attempt"] = 3;
    seal_record(fail, here_ / "third", key_);
    EXPECT_THAT(refusal_of(made), AllOf(HasSubstr("Attempt 3 stands: fail"), HasSubstr("third")));
}

} // namespace
} // namespace zeroline::print
