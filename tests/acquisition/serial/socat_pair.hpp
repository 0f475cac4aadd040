#pragma once

#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/process.hpp"
#include "tests/temporary_folder.hpp"

#include <filesystem>
#include <string>

namespace zeroline::serial::test {

/// Two pseudo-terminals joined by socat: what is written to one arrives at the other, as through a cable.
class SocatPair {
public:
    /// `most_at_once`: bytes that are carried in one piece, as text.
    explicit SocatPair(const std::string& most_at_once = "8192")
        : socat_({"socat", "-b", most_at_once, "pty,rawer,link=" + end_a(), "pty,rawer,link=" + end_b()}),
          ready_(soon([this] { return std::filesystem::exists(end_a()) && std::filesystem::exists(end_b()); }))
    {
    }
    [[nodiscard]] bool ready() const { return ready_; }
    [[nodiscard]] std::string end_a() const { return (folder_ / "a").string(); }
    [[nodiscard]] std::string end_b() const { return (folder_ / "b").string(); }
    /// Pulls the cable.
    void end() { socat_.end(SIGTERM); }

private:
    TemporaryFolder folder_;
    Process socat_;
    bool ready_;
};

} // namespace zeroline::serial::test
