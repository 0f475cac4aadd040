#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <functional>
#include <stdexcept>
#include <string>

namespace zeroline::serial::test {

/// Runs `work` in a process of its own, where it may change user and limits, and returns the text it made.
/// Only from a single-threaded test.
inline std::string in_child(const std::function<std::string()>& work)
{
    std::array<int, 2> pipe{};
    if (::pipe(pipe.data()) != 0) {
        throw std::runtime_error("no pipe");
    }
    const pid_t child = ::fork();
    if (child == 0) {
        const std::string text = work();
        const ssize_t written = ::write(pipe[1], text.data(), text.size());
        ::_exit(written == static_cast<ssize_t>(text.size()) ? 0 : 1);
    }
    ::close(pipe[1]);
    std::string text;
    std::array<char, 512> room{};
    for (ssize_t bytes = 0; (bytes = ::read(pipe[0], room.data(), room.size())) > 0;) {
        text.append(room.data(), static_cast<std::size_t>(bytes));
    }
    ::close(pipe[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    return text;
}

} // namespace zeroline::serial::test
