#pragma once

#include "acquisition/serial/capture.hpp"

#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace zeroline::console {

/// What the commands that read a port have in common.
struct LineOptions {
    std::string port;
    std::string instrument;
    std::string wait = "60";
    std::string seconds;

    /// Waiting time in s. Throws trace::InputError.
    [[nodiscard]] double wait_s() const;
    /// --seconds; none: until interrupted. Throws trace::InputError.
    [[nodiscard]] std::optional<double> seconds_s() const;
    /// Loads the instrument. Throws trace::InputError.
    [[nodiscard]] serial::CaptureSettings settings() const;
};

void add_line_options(CLI::App& command, LineOptions& options);
/// `waits`: what is waited for so long, in words.
void add_wait_option(CLI::App& command, LineOptions& options, const std::string& waits);
void add_seconds_option(CLI::App& command, LineOptions& options);

/// One sentence on a line that brings no readings: no byte at all, and bytes that are no readings, are different
/// things.
[[nodiscard]] std::string why_nothing_reads(const serial::Counters& counters, const std::string& port);

/// One sentence where the instrument file states more readings a second than its line can carry; else empty.
[[nodiscard]] std::string why_too_fast(const trace::Instrument& instrument);

/// "lost 3 readings, 12 bytes not understood": what a person should know of; empty where all is well.
[[nodiscard]] std::string losses(const serial::Counters& counters);

} // namespace zeroline::console
