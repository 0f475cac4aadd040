#include "acquisition/serial/trace_file.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/in_child.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>
#include <fstream>
#include <sstream>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;

constexpr std::string_view kHeader = "arrival_s,pressure_cmH2O,note\n";

std::string text_of(const std::filesystem::path& file)
{
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    return text.str();
}

std::string refusal_of(const std::filesystem::path& file)
{
    try {
        const TraceFile trace(file, kHeader);
    } catch (const trace::InputError& error) {
        return error.what();
    }
    return "created";
}

// Rows until the file is in trouble; returns its sentence and the rows that stand in the file.
std::string write_until_trouble(const std::filesystem::path& file)
{
    TraceFile trace(file, kHeader);
    std::string rows;
    for (int i = 0; i < 100; ++i) {
        rows += "0.5,12.25,\n";
    }
    const bool failed = soon([&] {
        trace.append(rows);
        return !trace.trouble().empty();
    });
    trace.close();
    const auto saved = trace::load_trace_csv(file);
    return (failed ? trace.trouble() : "no trouble") + " rows: " + std::to_string(saved.pressure.size()) +
           (saved.cut_last_line ? " cut" : " whole");
}

TEST(TraceFile, has_rows_within_a_tenth_of_a_second_without_being_closed)
{
    const TemporaryFolder folder;
    TraceFile trace(folder / "trace.csv", kHeader);
    EXPECT_EQ(text_of(folder / "trace.csv"), kHeader);
    const auto before = std::chrono::steady_clock::now();
    trace.append("0,1,\n");
    ASSERT_TRUE(soon([&] { return text_of(folder / "trace.csv").size() > kHeader.size(); }));
    // 200 ms is what a killed capture may lose.
    EXPECT_LT(std::chrono::steady_clock::now() - before, 200ms);
}

TEST(TraceFile, keeps_every_row_in_order)
{
    const TemporaryFolder folder;
    std::string expected(kHeader);
    {
        TraceFile trace(folder / "trace.csv", kHeader);
        for (int i = 0; i < 20000; ++i) {
            const std::string row = std::to_string(i) + ",1,\n";
            trace.append(row);
            expected += row;
        }
    }
    EXPECT_EQ(text_of(folder / "trace.csv"), expected);
}

TEST(TraceFile, never_writes_over_a_trace)
{
    const TemporaryFolder folder;
    std::ofstream(folder / "trace.csv") << "precious";
    EXPECT_THAT(refusal_of(folder / "trace.csv"), HasSubstr("the file is there already"));
    EXPECT_EQ(text_of(folder / "trace.csv"), "precious");
}

TEST(TraceFile, refuses_a_folder_that_is_missing_and_a_name_that_is_a_folder)
{
    const TemporaryFolder folder;
    EXPECT_THAT(refusal_of(folder / "no" / "trace.csv"), HasSubstr("the folder does not exist"));
    EXPECT_THAT(refusal_of(folder / ""), HasSubstr("this is a folder"));
}

TEST(TraceFile, refuses_a_read_only_folder)
{
    const TemporaryFolder folder;
    const auto closed = folder / "closed";
    std::filesystem::create_directory(closed);
    ::chmod((folder / "").c_str(), 0755);
    ::chmod(closed.c_str(), 0555);
    const std::string said = in_child([&] {
        constexpr uid_t kNobody = 65534;
        return ::geteuid() == 0 && ::setuid(kNobody) != 0 ? "cannot change user" : refusal_of(closed / "trace.csv");
    });
    EXPECT_THAT(said, HasSubstr("the folder is read-only"));
}

// Linux, full(4): every write fails with ENOSPC.
TEST(TraceFile, refuses_to_begin_on_a_full_disk)
{
    EXPECT_THAT(refusal_of("/dev/full"), HasSubstr("the disk is full"));
    EXPECT_TRUE(std::filesystem::exists("/dev/full"));
}

TEST(TraceFile, says_that_the_file_may_not_grow_and_ends_it_with_a_whole_row)
{
    const TemporaryFolder folder;
    const std::string said = in_child([&] {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{20005, 20005};
        ::setrlimit(RLIMIT_FSIZE, &limit);
        return write_until_trouble(folder / "trace.csv");
    });
    EXPECT_THAT(said,
                HasSubstr("trace.csv: the file may not grow any further; what was written before is in the file"));
    EXPECT_THAT(said, HasSubstr("rows: " + std::to_string((20005 - kHeader.size()) / 11) + " whole"));
}

TEST(TraceFile, says_that_the_disk_is_full_and_ends_the_file_with_a_whole_row)
{
    const TemporaryFolder folder;
    const auto disk = folder / "disk";
    std::filesystem::create_directory(disk);
    if (::mount("tmpfs", disk.c_str(), "tmpfs", 0, "size=64k") != 0) {
        GTEST_SKIP() << "a small disk can only be mounted by the super-user";
    }
    const std::string said = in_child([&] { return write_until_trouble(disk / "trace.csv"); });
    ::umount(disk.c_str());
    EXPECT_THAT(said, HasSubstr("trace.csv: the disk is full; what was written before is in the file"));
    EXPECT_THAT(said, HasSubstr(" whole"));
    EXPECT_THAT(said, testing::Not(HasSubstr("rows: 0 ")));
}

} // namespace
} // namespace zeroline::serial::test
