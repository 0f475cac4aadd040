#pragma once

namespace zeroline::window {

/// Opens the window and runs until it is closed. Returns the program's exit status.
int run_window(int argc, char** argv);

} // namespace zeroline::window
