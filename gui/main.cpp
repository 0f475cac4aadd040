#include "gui/console/program.hpp"
#ifdef ZEROLINE_WITH_WINDOW
#include "gui/window/run_window.hpp"
#endif

int main(int argc, char** argv)
{
    zeroline::console::OpenWindow open_window;
#ifdef ZEROLINE_WITH_WINDOW
    open_window = [&](const zeroline::console::GlobalOptions& options) {
        return zeroline::window::run_window(argc, argv, {options.bench_file, options.language, options.place});
    };
#endif
    return zeroline::console::run_program(argc, argv, open_window);
}
