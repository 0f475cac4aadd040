#include "gui/session/csv_cell.hpp"

#include <gtest/gtest.h>

namespace zeroline::session {
namespace {

TEST(CsvCell, LeavesPlainWordsAndNumbersAsTheyAre)
{
    for (const auto* text : {"", "day", "RC-0117", "a = b", "0", "-40.25", "+40", "1e-05", "-1.5E+3"}) {
        EXPECT_EQ(csv_cell(text), text);
    }
}

/// RFC 4180, 2: fields with a comma, a quote or a line break stand in quotes, a quote doubled.
TEST(CsvCell, PutsInQuotesWhatWouldPartTheRow)
{
    EXPECT_EQ(csv_cell("ward 4, bed 2"), "\"ward 4, bed 2\"");
    EXPECT_EQ(csv_cell("a \"word\""), "\"a \"\"word\"\"\"");
    EXPECT_EQ(csv_cell("two\r\nlines"), "\"two\r\nlines\"");
    EXPECT_EQ(csv_cell("-1,5"), "\"-1,5\"") << "a number with a decimal comma is no formula";
}

/// OWASP, 'CSV Injection', names these first characters (from memory).
TEST(CsvCell, KeepsASpreadsheetFromComputingAText)
{
    EXPECT_EQ(csv_cell("=1+1"), "\"'=1+1\"");
    EXPECT_EQ(csv_cell("+40 asked"), "\"'+40 asked\"");
    EXPECT_EQ(csv_cell("-42.00 to -38.00"), "\"'-42.00 to -38.00\"");
    EXPECT_EQ(csv_cell("@SUM(A1:A9)"), "\"'@SUM(A1:A9)\"");
    EXPECT_EQ(csv_cell("\t=1"), "\"'\t=1\"");
    EXPECT_EQ(csv_cell("=HYPERLINK(\"x\",\"y\")"), "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
    EXPECT_EQ(csv_cell("-"), "\"'-\"");
}

} // namespace
} // namespace zeroline::session
