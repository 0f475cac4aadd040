#pragma once

#include <spawn.h>
#include <sys/wait.h>

#include <csignal>
#include <stdexcept>
#include <string>
#include <vector>

extern char** environ;

namespace zeroline::serial::test {

/// Another program, ended with the object at the latest.
class Process {
public:
    explicit Process(std::vector<std::string> command)
    {
        std::vector<char*> arguments;
        for (std::string& word : command) {
            arguments.push_back(word.data());
        }
        arguments.push_back(nullptr);
        if (::posix_spawnp(&id_, arguments.front(), nullptr, nullptr, arguments.data(), environ) != 0) {
            throw std::runtime_error("cannot start " + command.front());
        }
    }
    ~Process() { end(SIGTERM); }
    Process(const Process&) = delete;
    Process& operator=(const Process&) = delete;

    /// Sends `signal` and waits for the end.
    void end(int signal)
    {
        if (id_ > 0) {
            ::kill(id_, signal);
            wait();
        }
    }

    /// Waits until it ends by itself; its exit status, or -1.
    int wait()
    {
        int status = 0;
        const bool waited = ::waitpid(id_, &status, 0) == id_;
        id_ = -1;
        return waited && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

private:
    pid_t id_ = -1;
};

} // namespace zeroline::serial::test
