#pragma once

#include <string>

namespace zeroline::window {

struct WindowOptions {
    std::string bench_file; ///< empty: the usual place
    std::string language;   ///< "en", "de"; empty: the system's
    std::string place = {}; ///< register of units, as typed; empty: the one of the bench
};

/// Opens the window and runs until it is closed. Returns the program's exit status.
int run_window(int argc, char** argv, const WindowOptions& options);

} // namespace zeroline::window
