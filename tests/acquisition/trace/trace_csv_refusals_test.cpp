#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace zeroline::trace {
namespace {

using ::testing::HasSubstr;

struct CsvRefusal {
    const char* why;
    std::string text;
    const char* where;
    const char* found;
};

const std::string kHeader = "time_s,pressure_cmH2O\n";
const std::string kArrivals = "arrival_s,pressure_cmH2O,count,note\n";

const CsvRefusal kCsvRefusals[] = {
    {"empty", "", "line 1", "the file is empty"},
    {"a byte-order mark alone", "\xEF\xBB\xBF", "line 1", "the file is empty"},
    {"remarks alone", "# nothing\n\n", "line 3", "no header row"},
    {"UTF-16", std::string("\xFF\xFEt\0i\0", 6), "line 1", "UTF-16"},
    {"UTF-16 without a mark", std::string("t\0i\0m\0", 6), "line 1", "UTF-16"},
    {"no header", "0,1\n1,2\n", "line 1", "no time column among \"0\", \"1\""},
    {"no time", "t,pressure_Pa\n", "line 1", "no time column among \"t\", \"pressure_Pa\""},
    {"no pressure", "time_s,p\n", "line 1", "no pressure column among"},
    {"time without unit", "time,pressure_Pa\n", "line 1", "\"time\" has no unit"},
    {"pressure without unit", "time_s,pressure\n", "line 1", "\"pressure\" has no unit"},
    {"unknown pressure unit", "# a\ntime_s,pressure_torr\n", "line 2", "\"pressure_torr\" has an unknown unit"},
    {"unit in other letters", "time_s,pressure_cmh2o\n", "line 1", "\"pressure_cmh2o\" has an unknown unit"},
    {"unknown time unit", "time_min,pressure_Pa\n", "line 1", "\"time_min\" has an unknown unit"},
    {"two pressures", "time_s,pressure_Pa,pressure_kPa\n", "line 1", "two columns hold the pressure"},
    {"two times", "time_s,time_ms,pressure_Pa\n", "line 1", "two columns hold the time"},
    {"two counts", "time_s,count,count,pressure_Pa\n", "line 1", "two columns are called \"count\""},
    {"text in a number", kHeader + "0,1\n1,abc\n", "line 3", "\"abc\" in column \"pressure_cmH2O\""},
    {"text in a time", kHeader + "0,1\nsoon,1\n", "line 3", "\"soon\" in column \"time_s\""},
    {"text behind a number", kHeader + "0,1x\n", "line 2", "\"1x\""},
    {"NaN", kHeader + "0,nan\n", "line 2", "\"nan\""},
    {"infinity", kHeader + "0,-inf\n", "line 2", "\"-inf\""},
    {"too large for a double", kHeader + "0,1e999\n", "line 2", "\"1e999\""},
    {"an overrange code as a reading", kHeader + "0,9.9E37\n", "line 2", "\"9.9E37\""},
    {"a time beyond reason", kHeader + "1e30,0\n", "line 2", "\"1e30\""},
    {"no pressure and no note", kHeader + "0,1\n1,\n", "line 3", "no pressure"},
    {"no pressure and an empty note", kArrivals + "0,,1,\n", "line 2", "no pressure"},
    {"no time", kHeader + ",1\n", "line 2", "\"\" in column \"time_s\""},
    {"time that runs backwards", kHeader + "0,1\n2,1\n1,1\n", "line 4", "time 1 s after 2 s"},
    {"time that stands still", kHeader + "0.5,1\n0.5,1\n", "line 3", "time 0.5 s after 0.5 s"},
    {"arrivals that run backwards", kArrivals + "1,1,1,\n0.9,1,2,\n", "line 3", "time 0.9 s after 1 s"},
    {"too few cells", "time_s,pressure_Pa,x\n0,1,2\n1,2\n", "line 3", "only 2 cells"},
    {"too many cells", kHeader + "0,1\n1,2,3\n", "line 3", "more cells than the header names"},
    {"semicolons in a file of commas", kHeader + "0;1\n", "line 2", "\"0;1\""},
    {"a decimal comma in a file of commas", kHeader + "0,1,5\n", "line 2", "more cells"},
    {"both decimal marks", "time_s;pressure_Pa\n0,5;1,5\n1.5;1\n", "line 3", "\"1.5\""},
    {"a thousands mark", "time_s;pressure_Pa\n0;1.234,5\n", "line 2", "\"1.234,5\""},
    {"a negative count", kArrivals + "0,1,-1,\n", "line 2", "\"-1\" in column \"count\""},
    {"a broken count", kArrivals + "0,1,1.5,\n", "line 2", "\"1.5\" in column \"count\""},
    {"text behind a quote", "time_s,pressure_Pa,note\n0,1,\"a\"b\n", "line 2", "text behind a closing quote"},
    {"a quote that is never closed", "time_s,pressure_Pa,note\n0,1,\"a\n1,2,\n", "line 2", "never closed"},
    {"a bare carriage return", kHeader + "0,1\r1,2\n", "line 2", "a carriage return inside a line"},
    {"a note that is not UTF-8", kArrivals + "0,1,1,\xFC\n", "line 2", "not UTF-8"},
    {"a line behind a quoted line break", "time_s,pressure_Pa,note\n0,1,\"a\nb\"\n0,1,\n", "line 4",
     "time 0 s after 0 s"},
};

TEST(TraceCsvRefusal, NamesLineAndTrouble)
{
    for (const auto& refusal : kCsvRefusals) {
        SCOPED_TRACE(refusal.why);
        try {
            static_cast<void>(parse_trace_csv(refusal.text));
            ADD_FAILURE() << "was accepted";
        } catch (const InputError& error) {
            EXPECT_EQ(error.where(), refusal.where) << error.what();
            EXPECT_THAT(error.found(), HasSubstr(refusal.found));
            EXPECT_FALSE(error.expected().empty()) << error.what();
            EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
        }
    }
}

// A line near the end of a long file is named as well as one near its beginning.
TEST(TraceCsvRefusal, NamesALineFarDown)
{
    std::string text = kHeader;
    for (int i = 0; i < 200'000; ++i) {
        text += std::to_string(i) + ",1.5\n";
    }
    text += "200000,x\n";
    try {
        static_cast<void>(parse_trace_csv(text));
        FAIL() << "was accepted";
    } catch (const InputError& error) {
        EXPECT_EQ(error.where(), "line 200002");
    }
}

std::string refusal_of_file(const std::filesystem::path& file)
{
    try {
        static_cast<void>(load_trace_csv(file));
    } catch (const InputError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(TraceFileRefusal, NamesTheFile)
{
    EXPECT_EQ(refusal_of_file("/no/such/trace.csv"),
              "/no/such/trace.csv: cannot be read: No such file or directory; expected a readable trace file");
    EXPECT_THAT(refusal_of_file(std::filesystem::temp_directory_path()), HasSubstr("Is a directory"));
}

TEST(TraceFileRefusal, NamesFileAndLine)
{
    const TemporaryFolder folder;
    const auto file = folder / "refused.csv";
    std::ofstream(file) << kHeader << "0,1\n0,2\n";
    EXPECT_EQ(refusal_of_file(file),
              file.string() + ": line 3: time 0 s after 0 s; expected times that strictly increase");
    std::ofstream(file) << kHeader << std::string(1'000'000, '1');
    EXPECT_THAT(refusal_of_file(file), HasSubstr("line 2: a line that does not end"));
}

} // namespace
} // namespace zeroline::trace
