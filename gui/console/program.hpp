#pragma once

namespace zeroline::console {

/// True where the command line names no command and asks for nothing: the window is wanted.
[[nodiscard]] bool names_no_command(int argc, char** argv);

/// Runs the command that the command line names. Returns the exit status (docs/formats.md). Never throws.
int run_program(int argc, char** argv);

} // namespace zeroline::console
