#include "gui/print/pages.hpp"

#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include "tests/gui/print/made_record.hpp"
#include "tests/gui/print/other_programs.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

namespace zeroline::print {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

class HomePage : public testing::Test {
protected:
    fs::path page_of(const MadeRecord& made, const std::string& language)
    {
        make_record(made, here_ / "record");
        write_home_page(here_ / "record", here_ / "home.pdf", {.language = language});
        return here_ / "home.pdf";
    }
    TemporaryFolder here_;
};

TEST_F(HomePage, says_in_plain_english_what_was_seen_and_whom_to_call)
{
    const auto pdf = page_of(healthy(), "en");
    EXPECT_EQ(pages_of(pdf), 1);
    EXPECT_THAT(text_of(pdf),
                AllOf(HasSubstr("As prescribed"), HasSubstr("does not tell whether the treatment is right"),
                      HasSubstr("sounds, feels or works differently"),
                      HasSubstr("service desk of the demonstration, +00 000 0000"), HasSubstr("+40 cmH2O for 1.5 s"),
                      HasSubstr("five lines"), HasSubstr("Unit RC-0117, checked on 2026-08-31."),
                      HasSubstr("handed back")));
}

TEST_F(HomePage, says_the_same_in_german_with_a_comma)
{
    const auto pdf = page_of(healthy(), "de-AT");
    EXPECT_EQ(pages_of(pdf), 1);
    EXPECT_THAT(text_of(pdf), AllOf(HasSubstr("Wie verordnet"), HasSubstr("ob die Behandlung für Sie richtig ist"),
                                    HasSubstr("anders klingt"), HasSubstr("+40 cmH2O für 1,5 s"),
                                    HasSubstr("Gerät RC-0117, geprüft am 31.8.2026."), HasSubstr("Seite 1 von 1"),
                                    Not(HasSubstr("1.5 s"))));
}

TEST_F(HomePage, tells_not_to_use_a_critical_unit_and_not_to_stay_without_one)
{
    auto made = healthy();
    made.insufflation = 52.0;
    EXPECT_THAT(text_of(page_of(made, "en")),
                AllOf(HasSubstr("Do not use this unit"), HasSubstr("not be left without one"),
                      HasSubstr("kept out of use"), Not(HasSubstr("handed back"))))
        << "whatever was confirmed";
    fs::remove_all(here_ / "record");
    EXPECT_THAT(text_of(page_of(made, "de")),
                AllOf(HasSubstr("Dieses Gerät nicht benutzen"), HasSubstr("Sie sollen nicht ohne bleiben")));
}

TEST_F(HomePage, does_not_call_an_unfinished_check_a_good_one)
{
    auto made = healthy();
    made.run["restored"] = false;
    EXPECT_THAT(text_of(page_of(made, "en")), AllOf(HasSubstr("Check not finished"), Not(HasSubstr("As prescribed")),
                                                    HasSubstr("before you use it"), Not(HasSubstr("handed back"))));
}

TEST_F(HomePage, does_not_say_that_a_unit_was_set_back_that_was_left_otherwise)
{
    auto made = healthy();
    made.run["settings_left"]["day"]["trigger"] = "off";
    made.order["prescription"]["presets"][0]["trigger"] = "on";
    EXPECT_THAT(text_of(page_of(made, "en")), AllOf(HasSubstr("before you use it"), Not(HasSubstr("handed back"))));
}

TEST_F(HomePage, blames_no_unit_for_a_breath)
{
    make_record(healthy(), here_ / "record");
    auto tree = records::parse_json(records::read_file(here_ / "record" / "record.json"));
    tree["critical"] = true;
    tree["verdict"] = "incomplete";
    tree["findings"].push_back({{"code", "breathing"}, {"severity", "critical"}, {"text", "x"}});
    records::write_file_whole(here_ / "record" / "record.json", tree.dump());
    write_home_page(here_ / "record", here_ / "home.pdf", {.language = "en"});
    EXPECT_THAT(text_of(here_ / "home.pdf"), AllOf(HasSubstr("To be checked again"), Not(HasSubstr("Do not use"))));
}

TEST_F(HomePage, stays_one_page_with_three_presets_and_long_names)
{
    EXPECT_EQ(pages_of(page_of(with_three_presets(), "de")), 1);
}

} // namespace
} // namespace zeroline::print
