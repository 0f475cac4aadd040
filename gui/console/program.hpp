#pragma once

#include <functional>
#include <string>

namespace zeroline::console {

/// What holds for every command and for the window; stands before or after the command.
struct GlobalOptions {
    std::string bench_file; ///< --bench; empty: the usual place
    std::string place;      ///< --register, as typed; empty: the register of the bench
    std::string language;   ///< --language: "en", "de"; empty: the system's
};

/// Opens the window and runs until it is closed; returns the exit status.
using OpenWindow = std::function<int(const GlobalOptions&)>;

/// Runs the command that the command line names, or opens the window where it names none. Without a window (empty), no
/// command is an error. Returns the exit status (docs/formats.md). Never throws.
int run_program(int argc, char** argv, const OpenWindow& open_window);

} // namespace zeroline::console
