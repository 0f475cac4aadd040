#include "gui/console/program.hpp"
#ifdef ZEROLINE_WITH_WINDOW
#include "gui/window/run_window.hpp"
#endif

int main(int argc, char** argv)
{
#ifdef ZEROLINE_WITH_WINDOW
    if (zeroline::console::names_no_command(argc, argv)) {
        return zeroline::window::run_window(argc, argv);
    }
#endif
    return zeroline::console::run_program(argc, argv);
}
