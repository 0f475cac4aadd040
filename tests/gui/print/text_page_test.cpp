#include "gui/print/pages.hpp"

#include "tests/gui/print/made_record.hpp"
#include "tests/gui/print/other_programs.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

namespace zeroline::print {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(TextPage, runs_over_as_many_pages_as_its_table_needs_with_every_row_on_one_of_them)
{
    TemporaryFolder here;
    TextPage page{
        "Checks of this installation", "against published values", "2026-08-31T09:12:04+02:00", {}, "a footer"};
    TextSection section{"Units", {"Pressure units."}, {"value", "expected", "got"}, {}};
    constexpr int rows = 200;
    for (int i = 0; i < rows; ++i) {
        section.rows.push_back({"row" + std::to_string(i) + ".", "1 psi = 70.307 cmH2O", "agrees"});
    }
    page.sections.push_back(section);
    write_text_page(page, here / "text.pdf");
    ASSERT_GT(pages_of(here / "text.pdf"), 2);
    const auto text = text_of(here / "text.pdf");
    EXPECT_THAT(text,
                AllOf(HasSubstr("Checks of this installation"), HasSubstr("a footer"), HasSubstr("Pressure units.")));
    for (int i = 0; i < rows; ++i) {
        EXPECT_THAT(text, HasSubstr("row" + std::to_string(i) + "."));
    }
}

} // namespace
} // namespace zeroline::print
