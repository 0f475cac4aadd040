#include "gui/records/folder_hold.hpp"

#include "gui/records/record_folder.hpp"
#include "tests/gui/records/trouble.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <optional>

namespace {
/// What the file system says to flock(2), as one that cannot lock does; 0: it locks.
int lock_error = 0;
} // namespace

/// In place of the C library's, for this program.
extern "C" int flock(int descriptor, int operation) noexcept
{
    if (lock_error != 0) {
        errno = lock_error;
        return -1;
    }
    return static_cast<int>(::syscall(SYS_flock, descriptor, operation));
}

namespace zeroline::records {
namespace {

using testing::AllOf;
using testing::HasSubstr;
namespace fs = std::filesystem;

class FolderHoldTest : public testing::Test {
protected:
    FolderHoldTest() { fs::create_directory(here_ / "held"); }

    [[nodiscard]] std::string trouble_with(const std::string& name) const
    {
        return trouble([&] { static_cast<void>(FolderHold(here_ / name)); });
    }

    TemporaryFolder here_;
};

TEST_F(FolderHoldTest, the_second_is_told_which_process_works_there_until_the_first_is_done)
{
    std::optional<FolderHold> first(here_ / "held");
    const auto second = first;
    EXPECT_THAT(trouble_with("held"),
                AllOf(HasSubstr("held: process " + std::to_string(::getpid())), HasSubstr("works in it")));
    first.reset();
    EXPECT_THAT(trouble_with("held"), HasSubstr("works in it")) << "a copy holds it too";
}

TEST_F(FolderHoldTest, ends_with_the_last_copy)
{
    static_cast<void>(FolderHold(here_ / "held"));
    EXPECT_EQ(trouble_with("held"), "no trouble");
}

TEST_F(FolderHoldTest, survives_a_rename)
{
    const FolderHold hold(here_ / "held");
    fs::rename(here_ / "held", here_ / "renamed");
    EXPECT_THAT(trouble_with("renamed"), HasSubstr("works in it"));
}

TEST_F(FolderHoldTest, ends_with_the_program_however_it_ends)
{
    const auto child = ::fork();
    if (child == 0) {
        static FolderHold hold(here_ / "held");
        std::abort();
    }
    ::waitpid(child, nullptr, 0);
    EXPECT_EQ(trouble_with("held"), "no trouble");
}

/// ENOLCK and EOPNOTSUPP are what file systems of other computers answer.
TEST_F(FolderHoldTest, a_file_system_that_cannot_lock_is_refused_in_words_and_nothing_is_left_there)
{
    for (const int error : {ENOLCK, EOPNOTSUPP}) {
        lock_error = error;
        const auto said = trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r1")); });
        const auto with = trouble(
            [&] { static_cast<void>(RecordFolder::begin_with(here_ / "r2", "{}", [](const RecordFolder&) {})); });
        lock_error = 0;
        EXPECT_THAT(said, HasSubstr("cannot be locked"));
        EXPECT_THAT(with, HasSubstr("cannot be locked"));
        EXPECT_EQ(std::distance(fs::directory_iterator(here_.path()), {}), 1) << "only the folder of this test";
    }
    EXPECT_EQ(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r1")); }), "no trouble");
}

TEST_F(FolderHoldTest, what_is_not_there_is_refused) { EXPECT_THAT(trouble_with("none"), HasSubstr("No such file")); }

TEST_F(FolderHoldTest, a_record_in_the_making_is_held_by_who_makes_it)
{
    const auto made = RecordFolder::begin(here_ / "r1");
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::take_up(here_ / "r1.part")); }),
                HasSubstr("works in it"));
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r1")); }),
                AllOf(HasSubstr("works in it"), testing::Not(HasSubstr("assess"))))
        << "nobody is sent to disturb it";
    made.finish();
    EXPECT_EQ(trouble_with("r1"), "no trouble") << "a record may be added to";
}

} // namespace
} // namespace zeroline::records
