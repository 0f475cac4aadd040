#include "acquisition/trace/trace_csv.hpp"

#include "acquisition/trace/input_error.hpp"
#include "tests/temporary_folder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <random>

namespace zeroline::trace {
namespace {

using Numbers = std::vector<double>;

/// A file with this text, gone with the object.
class TextFile {
public:
    explicit TextFile(const std::string& text) { std::ofstream(path_, std::ios::binary) << text; }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    TemporaryFolder folder_;
    std::filesystem::path path_ = folder_ / "trace.csv";
};

void expect_same(const RawTrace& a, const RawTrace& b)
{
    EXPECT_EQ(a.unit, b.unit);
    EXPECT_EQ(a.from_arrivals, b.from_arrivals);
    EXPECT_EQ(a.moment_s, b.moment_s);
    EXPECT_EQ(a.count, b.count);
    ASSERT_EQ(a.pressure.size(), b.pressure.size());
    for (std::size_t i = 0; i < a.pressure.size(); ++i) {
        EXPECT_TRUE(a.pressure[i] == b.pressure[i] || (std::isnan(a.pressure[i]) && std::isnan(b.pressure[i]))) << i;
    }
    ASSERT_EQ(a.notes.size(), b.notes.size());
    for (std::size_t i = 0; i < a.notes.size(); ++i) {
        EXPECT_EQ(a.notes[i].row, b.notes[i].row);
        EXPECT_EQ(a.notes[i].kind, b.notes[i].kind);
        EXPECT_EQ(a.notes[i].text, b.notes[i].text);
    }
}

TEST(TraceCsv, TwoColumnsAreATrace)
{
    const auto trace = parse_trace_csv("time_s,pressure_cmH2O\n0,0\n0.01,1.5\n0.02,-40.25\n");
    EXPECT_EQ(trace.moment_s, (Numbers{0.0, 0.01, 0.02}));
    EXPECT_EQ(trace.pressure, (Numbers{0.0, 1.5, -40.25}));
    EXPECT_EQ(trace.unit, PressureUnit::cmH2O);
    EXPECT_FALSE(trace.from_arrivals);
    EXPECT_FALSE(trace.cut_last_line);
    EXPECT_TRUE(trace.count.empty());
    EXPECT_TRUE(trace.notes.empty());
}

TEST(TraceCsv, EveryPressureUnitStandsInTheHeader)
{
    for (const auto unit : all_pressure_units()) {
        const auto trace = parse_trace_csv("time_s,pressure_" + std::string(name_of(unit)) + "\n1,2\n");
        EXPECT_EQ(trace.unit, unit) << name_of(unit);
    }
}

TEST(TraceCsv, MillisecondsAndMicrosecondsBecomeSeconds)
{
    EXPECT_EQ(parse_trace_csv("time_ms,pressure_Pa\n1500,0\n1504,0\n").moment_s, (Numbers{1.5, 1.504}));
    EXPECT_EQ(parse_trace_csv("time_us,pressure_Pa\n1500,0\n1504,0\n").moment_s, (Numbers{0.0015, 0.001504}));
    EXPECT_EQ(parse_trace_csv("arrival_ms,pressure_Pa\n16,0\n16,0\n").moment_s, (Numbers{0.016, 0.016}));
}

TEST(TraceCsv, ColumnsStandInAnyOrderAmongOthers)
{
    const auto trace = parse_trace_csv("flow_lpm,note,pressure_hPa,channel,time_s,count\n"
                                       "12.5,,3,a,0.1,7\nnan,,4,\"b,c\",0.2,8\n");
    EXPECT_EQ(trace.moment_s, (Numbers{0.1, 0.2}));
    EXPECT_EQ(trace.pressure, (Numbers{3.0, 4.0}));
    EXPECT_EQ(trace.count, (std::vector<std::int64_t>{7, 8}));
}

TEST(TraceCsv, TimeIsUsedWhereArrivalStandsBesideIt)
{
    const auto trace = parse_trace_csv("arrival_s,time_s,pressure_Pa\n5,0.1,1\n5,0.2,2\n4,0.3,3\n");
    EXPECT_FALSE(trace.from_arrivals);
    EXPECT_EQ(trace.moment_s, (Numbers{0.1, 0.2, 0.3}));
}

TEST(TraceCsv, ACapturedTraceKeepsCountsClockAndNotes)
{
    const auto trace = parse_trace_csv("arrival_s,pressure_hPa,count,instrument_time_s,note\n"
                                       "0.016,0.1,0,1.000,\n"
                                       "0.016,,1,1.004,overrange\n"
                                       "0.032,,,,lost\n"
                                       "2.1,,,,back\n"
                                       "2.1,0.3,530,3.120,door opened\n");
    EXPECT_TRUE(trace.from_arrivals);
    EXPECT_EQ(trace.moment_s, (Numbers{0.016, 0.016, 0.032, 2.1, 2.1}));
    EXPECT_TRUE(std::isnan(trace.pressure[1]));
    EXPECT_EQ(trace.pressure[4], 0.3);
    EXPECT_EQ(trace.count, (std::vector<std::int64_t>{0, 1, -1, -1, 530}));
    EXPECT_EQ(trace.instrument_time_s[1], 1.004);
    EXPECT_TRUE(std::isnan(trace.instrument_time_s[2]));
    ASSERT_EQ(trace.notes.size(), 4U);
    EXPECT_EQ(trace.notes[0].kind, NoteKind::overrange);
    EXPECT_EQ(trace.notes[1].kind, NoteKind::lost);
    EXPECT_EQ(trace.notes[2].kind, NoteKind::back);
    EXPECT_EQ(trace.notes[3].kind, NoteKind::other);
    EXPECT_EQ(trace.notes[3].text, "door opened");
    EXPECT_EQ(trace.notes[3].row, 4U);
}

TEST(TraceCsv, RemarksAndBlankLinesAreSkippedAndLinesStillCounted)
{
    const std::string text = "# made by hand\n\ntime_s,pressure_Pa\n# zero\n0,0\n\n1,1\n# end\nx,2\n";
    try {
        static_cast<void>(parse_trace_csv(text));
        FAIL() << "line 9 is no row";
    } catch (const InputError& error) {
        EXPECT_EQ(error.where(), "line 9");
    }
    EXPECT_EQ(parse_trace_csv(text.substr(0, text.size() - 4)).moment_s, (Numbers{0.0, 1.0}));
}

TEST(TraceCsv, LinesMayEndAsOnOtherSystemsAndBeginWithAMark)
{
    const auto trace = parse_trace_csv("\xEF\xBB\xBFtime_s,pressure_Pa,note\r\n0,1,\r\n1,2,a\r\n");
    EXPECT_EQ(trace.pressure, (Numbers{1.0, 2.0}));
    EXPECT_EQ(trace.notes.at(0).text, "a");
}

TEST(TraceCsv, SemicolonsBringADecimalComma)
{
    const auto trace = parse_trace_csv("time_ms;pressure_kPa;note\n0;0,5;\n4;-1,25e0;\n8;3;\n");
    EXPECT_EQ(trace.moment_s, (Numbers{0.0, 0.004, 0.008}));
    EXPECT_EQ(trace.pressure, (Numbers{0.5, -1.25, 3.0}));
}

TEST(TraceCsv, SemicolonsMayBringADecimalPoint)
{
    EXPECT_EQ(parse_trace_csv("time_s;pressure_kPa\n0;0.5\n0.004;-1.25\n").pressure, (Numbers{0.5, -1.25}));
}

TEST(TraceCsv, QuotedCellsAreReadAsRfc4180Says)
{
    const auto trace = parse_trace_csv("\"time_s\",\"pressure_Pa\",note\n\"0\",\"1.5\",\"a \"\"b\"\", c\"\n"
                                       "1,2,\"two\nlines\"\n2,3,\n");
    EXPECT_EQ(trace.pressure, (Numbers{1.5, 2.0, 3.0}));
    EXPECT_EQ(trace.notes.at(0).text, "a \"b\", c");
    EXPECT_EQ(trace.notes.at(1).text, "two\nlines");
}

TEST(TraceCsv, SpacesAroundNamesAndNumbersAreNoTrouble)
{
    EXPECT_EQ(parse_trace_csv("time_s, pressure_Pa\n0, 1.5\n1,\t2\n").pressure, (Numbers{1.5, 2.0}));
}

TEST(TraceCsv, AHeaderAloneIsATraceWithoutRows)
{
    EXPECT_TRUE(parse_trace_csv("arrival_s,pressure_cmH2O,note\n").moment_s.empty());
    const auto unfinished = parse_trace_csv("arrival_s,pressure_cmH2O,no");
    EXPECT_TRUE(unfinished.moment_s.empty());
    EXPECT_TRUE(unfinished.cut_last_line);
}

// A line that was cut while it was written may end in a number that looks whole: -40.25 cut to -4.
TEST(TraceCsv, ACutLastLineIsDroppedAndSaid)
{
    const auto trace = parse_trace_csv("time_s,pressure_Pa\n0,-40.25\n1,-4");
    EXPECT_EQ(trace.pressure, (Numbers{-40.25}));
    EXPECT_TRUE(trace.cut_last_line);
}

TEST(TraceCsv, ARemarkMayEndTheFileUnfinished)
{
    EXPECT_FALSE(parse_trace_csv("time_s,pressure_Pa\n0,1\n# end").cut_last_line);
}

const std::string kCaptured = "arrival_s,pressure_cmH2O,count,note\n"
                              "0.016,-40.25,0,\n0.016,39.5,1,\n0.032,,2,overrange\n"
                              "0.048,1.5,3,\"a \"\"quoted\"\" note, with commas\"\n0.048,2.5,4,\n";

// What a killed capture leaves: the rows that were finished are there, none is altered, at most the last is missing.
TEST(TraceCsv, AFileCutAtAnyByteLoadsWithTheRowsThatWereFinished)
{
    const auto whole = parse_trace_csv(kCaptured);
    const std::size_t header = kCaptured.find('\n') + 1;
    for (std::size_t length = header; length <= kCaptured.size(); ++length) {
        const auto text = kCaptured.substr(0, length);
        const auto trace = parse_trace_csv(text);
        const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
        ASSERT_EQ(trace.moment_s.size(), lines - 1) << length;
        EXPECT_EQ(trace.cut_last_line, text.back() != '\n') << length;
        for (std::size_t row = 0; row < trace.moment_s.size(); ++row) {
            EXPECT_EQ(trace.moment_s[row], whole.moment_s[row]);
            EXPECT_EQ(trace.count[row], whole.count[row]);
            EXPECT_TRUE(trace.pressure[row] == whole.pressure[row] || std::isnan(whole.pressure[row]));
        }
    }
}

TEST(TraceCsv, AFileIsReadLikeItsText)
{
    const TextFile file(kCaptured);
    expect_same(load_trace_csv(file.path()), parse_trace_csv(kCaptured));
}

// Longer than any block the reader takes at once, with line breaks inside quotes near every border.
TEST(TraceCsv, BlocksLeaveNoMarkOnALongFile)
{
    std::string text = "time_s,pressure_Pa,note\n";
    for (int i = 0; i < 60'000; ++i) {
        text += std::to_string(i) + "," + std::to_string(-i) + ".5," + (i % 7 == 0 ? "\"line\nbreak\"" : "") + "\n";
    }
    const TextFile file(text);
    const auto trace = load_trace_csv(file.path());
    ASSERT_EQ(trace.moment_s.size(), 60'000U);
    EXPECT_EQ(trace.pressure[59'999], -59'999.5);
    EXPECT_EQ(trace.notes.size(), 8572U);
    expect_same(trace, parse_trace_csv(text));
}

TEST(TraceCsv, WhatIsWrittenIsReadBackToTheLastBit)
{
    std::mt19937_64 random(11);
    RawTrace raw;
    raw.from_arrivals = true;
    raw.unit = PressureUnit::hPa;
    double moment_s = 0.0;
    for (std::size_t i = 0; i < 20'000; ++i) {
        moment_s += std::ldexp(static_cast<double>(random() >> 12U), -60);
        raw.moment_s.push_back(moment_s);
        const double pressure = std::ldexp(static_cast<double>(static_cast<std::int64_t>(random())), -57);
        raw.pressure.push_back(i % 100 == 5 ? std::numeric_limits<double>::quiet_NaN() : pressure);
        raw.count.push_back(i % 50 == 3 ? -1 : static_cast<std::int64_t>(i * i));
        if (i % 100 == 5) {
            raw.notes.push_back({i, NoteKind::not_a_number, "not-a-number"});
        }
    }
    const auto again = parse_trace_csv(to_csv(raw));
    expect_same(again, raw);
    for (std::size_t i = 0; i < raw.moment_s.size(); ++i) {
        ASSERT_EQ(std::bit_cast<std::uint64_t>(again.moment_s[i]), std::bit_cast<std::uint64_t>(raw.moment_s[i]));
    }
}

TEST(TraceCsv, NotesOfEveryKindAreReadBackAsTheyAre)
{
    RawTrace raw;
    raw.from_arrivals = true;
    const std::string texts[] = {"overrange", "not-a-number",        "checksum", "lost",     "back", "a, b; \"c\"",
                                 "#hash",     "two\r\nlines\nthree", " spaces ", "\xC3\xBC", "other"};
    for (const auto& text : texts) {
        raw.notes.push_back({raw.moment_s.size(), note_kind_of(text), text});
        raw.moment_s.push_back(static_cast<double>(raw.moment_s.size()));
        raw.pressure.push_back(std::numeric_limits<double>::quiet_NaN());
    }
    expect_same(parse_trace_csv(to_csv(raw)), raw);
}

TEST(TraceCsvWriter, WritesShortestNumbersAndEmptyCells)
{
    const TraceCsvWriter writer(
        {.from_arrivals = true, .unit = PressureUnit::mbar, .count = true, .instrument_time = true, .note = true});
    std::string out = writer.header();
    writer.append_row(out, 0.1, -40.0, 12, 1e-7, "");
    writer.append_row(out, 0.2, std::numeric_limits<double>::quiet_NaN(), -1, std::numeric_limits<double>::quiet_NaN(),
                      "lost");
    EXPECT_EQ(out, "arrival_s,pressure_mbar,count,instrument_time_s,note\n0.1,-40,12,1e-07,\n0.2,,,,lost\n");
}

TEST(NoteKinds, WordsAreReadBack)
{
    for (const auto kind :
         {NoteKind::overrange, NoteKind::not_a_number, NoteKind::checksum, NoteKind::lost, NoteKind::back}) {
        EXPECT_EQ(note_kind_of(word_of(kind)), kind);
    }
    EXPECT_EQ(note_kind_of("Overrange"), NoteKind::other);
}

} // namespace
} // namespace zeroline::trace
