#include "gui/session/awake.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>

extern char** environ;

namespace zeroline::session {

namespace {

/// Starts systemd-inhibit around a program that reads `input` to its end; -1 where there is none. In a process group of
/// its own: Ctrl-C at the terminal is meant for this program, which may still have a record to finish.
pid_t start_inhibiting(const std::string& why, int input)
{
    std::array<std::string, 6> words{"systemd-inhibit", "--what=sleep:idle:handle-lid-switch",
                                     "--who=zeroline",  "--why=" + why,
                                     "--mode=block",    "cat"};
    std::array<char*, 7> arguments{};
    for (std::size_t i = 0; i < words.size(); ++i) {
        arguments[i] = words[i].data();
    }
    posix_spawn_file_actions_t files;
    ::posix_spawn_file_actions_init(&files);
    ::posix_spawn_file_actions_adddup2(&files, input, STDIN_FILENO);
    ::posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    ::posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawnattr_t traits;
    ::posix_spawnattr_init(&traits);
    ::posix_spawnattr_setflags(&traits, POSIX_SPAWN_SETPGROUP);
    pid_t process = -1;
    if (::posix_spawnp(&process, arguments[0], &files, &traits, arguments.data(), environ) != 0) {
        process = -1;
    }
    ::posix_spawnattr_destroy(&traits);
    ::posix_spawn_file_actions_destroy(&files);
    return process;
}

} // namespace

Awake::Awake(const std::string& why)
{
    std::array<int, 2> pipe{-1, -1};
    if (::pipe2(pipe.data(), O_CLOEXEC) != 0) {
        return;
    }
    process_ = start_inhibiting(why, pipe[0]);
    held_ = pipe[1];
    ::close(pipe[0]);
}

Awake::~Awake()
{
    if (held_ >= 0) {
        ::close(held_);
    }
    if (process_ > 0) {
        ::waitpid(process_, nullptr, 0);
    }
}

} // namespace zeroline::session
