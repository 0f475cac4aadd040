#pragma once

#include <array>
#include <csignal>

namespace zeroline::console {

/// A full disk and a closed pipe come back as errors of the call that met them. Called once, before anything runs.
void survive_full_disk_and_closed_pipe();

/// Lets Ctrl-C, a closed terminal and a polite kill end what it guards cleanly instead of at once: for what asks
/// interrupted() many times a second. Whatever does not ask must stay outside, and is then ended by the system at once,
/// which loses nothing: files are written whole or not at all. A second signal ends at once in any case. One thread.
class EndsCleanly {
public:
    EndsCleanly();
    ~EndsCleanly();
    EndsCleanly(const EndsCleanly&) = delete;
    EndsCleanly& operator=(const EndsCleanly&) = delete;

private:
    static constexpr std::array<int, 3> kSignals{SIGINT, SIGTERM, SIGHUP};
    std::array<struct sigaction, kSignals.size()> before_{};
};

/// One of the signals has come.
[[nodiscard]] bool interrupted() noexcept;

} // namespace zeroline::console
