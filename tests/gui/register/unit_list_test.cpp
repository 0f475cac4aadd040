#include "gui/register/unit_list.hpp"

#include <gmock/gmock.h>

namespace zeroline::unit_register {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

std::string refused_table(std::string_view text)
{
    try {
        (void)units_in_csv(text);
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return "nothing was refused";
}

TEST(UnitList, IsReadWhateverTheOrderOfItsColumnsAndTheirSeparator)
{
    const auto units =
        units_in_csv("\xEF\xBB\xBFModel;ward;ASSET;serial\r\nunit A;3;RC-1;K1\r\n\r\n\"unit;B\";4;RC-2;\r\n");
    ASSERT_THAT(units, SizeIs(2));
    EXPECT_EQ(units[0], (Value{{"asset", "RC-1"}, {"serial", "K1"}, {"model", "unit A"}}));
    EXPECT_EQ(units[1], (Value{{"asset", "RC-2"}, {"serial", ""}, {"model", "unit;B"}}));
}

TEST(UnitList, KeepsAnyTextAndTakesOffTheApostropheOfASpreadsheet)
{
    const auto units =
        units_in_csv("asset,model\n\"'=1+1\",\"two \"\"lines\"\"\nof it\"\n\xF0\x9F\xAB\x81,\xD9\x88\xD8\xAD");
    ASSERT_THAT(units, SizeIs(2));
    EXPECT_EQ(units[0]["asset"], "=1+1");
    EXPECT_EQ(units[0]["model"], "two \"lines\"\nof it");
    EXPECT_EQ(units[1]["asset"], "\xF0\x9F\xAB\x81");
}

TEST(UnitList, IsRefusedWithTheLineThatIsWrong)
{
    EXPECT_THAT(refused_table("serial,model\na,b\n"), HasSubstr("line 1: no column 'asset'"));
    EXPECT_THAT(refused_table("asset\nRC-1\n\"RC\n2\"\nRC-1\n"), HasSubstr("line 5: asset number 'RC-1' once more"));
    EXPECT_THAT(refused_table("asset,model\n,unit A\n"), HasSubstr("line 2: no asset number"));
    EXPECT_THAT(refused_table("asset\nGer\xE4t\n"), HasSubstr("no UTF-8"));
    EXPECT_THAT(refused_table(std::string_view("\xFF\xFE"
                                               "a\0s\0",
                                               6)),
                HasSubstr("no UTF-8"));
    EXPECT_THAT(refused_table("asset\n\"RC-1\n"), HasSubstr("line 2: quotes that do not fit"));
}

} // namespace
} // namespace zeroline::unit_register
