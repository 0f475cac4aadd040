#include "gui/session/awake.hpp"

#include "tests/acquisition/serial/captured.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace zeroline::session::test {
namespace {

using serial::test::soon;
using testing::HasSubstr;

std::string text_of(const std::filesystem::path& file)
{
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    return text.str();
}

/// In place of the system's program (systemd-inhibit(1): options, then the command it holds the lock for): writes down
/// how it was called, runs the command, and writes down that the lock is given back.
class Inhibitor {
public:
    Inhibitor()
    {
        const auto program = folder_ / "systemd-inhibit";
        std::ofstream(program) << "#!/bin/sh\nfor command; do :; done\necho \"$*\" > " << (folder_ / "taken").string()
                               << "\n\"$command\"\ntouch " << (folder_ / "given-back").string() << "\n";
        ::chmod(program.c_str(), 0755);
        path_ = std::getenv("PATH");
        ::setenv("PATH", ((folder_ / "").string() + ":" + path_).c_str(), 1);
    }
    ~Inhibitor() { ::setenv("PATH", path_.c_str(), 1); }
    [[nodiscard]] std::string taken() const { return text_of(folder_ / "taken"); }
    [[nodiscard]] bool given_back() const { return std::filesystem::exists(folder_ / "given-back"); }

private:
    TemporaryFolder folder_;
    std::string path_;
};

TEST(Awake, holds_the_systems_lock_on_sleep_for_as_long_as_it_lives)
{
    const Inhibitor inhibitor;
    {
        const Awake awake("a run is measured");
        ASSERT_TRUE(soon([&] { return !inhibitor.taken().empty(); }));
        EXPECT_THAT(inhibitor.taken(), HasSubstr("--what=sleep:idle:handle-lid-switch"));
        EXPECT_THAT(inhibitor.taken(), HasSubstr("--why=a run is measured"));
        EXPECT_FALSE(inhibitor.given_back());
    }
    EXPECT_TRUE(inhibitor.given_back());
}

TEST(Awake, gives_the_lock_back_when_the_program_is_killed)
{
    const Inhibitor inhibitor;
    const pid_t program = ::fork();
    if (program == 0) {
        const Awake awake("a run is measured");
        ::pause();
    }
    ASSERT_TRUE(soon([&] { return !inhibitor.taken().empty(); }));
    EXPECT_FALSE(inhibitor.given_back());
    ::kill(program, SIGKILL);
    ::waitpid(program, nullptr, 0);
    EXPECT_TRUE(soon([&] { return inhibitor.given_back(); }));
}

TEST(Awake, does_without_where_the_system_offers_nothing)
{
    const std::string path = std::getenv("PATH");
    ::setenv("PATH", "/nowhere", 1);
    EXPECT_NO_THROW(Awake("a run is measured"));
    ::setenv("PATH", path.c_str(), 1);
}

} // namespace
} // namespace zeroline::session::test
