#include "gui/console/interrupt.hpp"

#include <csignal>
#include <initializer_list>

namespace zeroline::console {

namespace {

// A signal handler can reach nothing else.
volatile std::sig_atomic_t came = 0;

void note(int) { came = 1; }

} // namespace

void listen_to_signals()
{
    struct sigaction action = {};
    action.sa_handler = note;
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        ::sigaction(signal, &action, nullptr);
    }
    action.sa_handler = SIG_IGN;
    for (const int signal : {SIGPIPE, SIGXFSZ}) {
        ::sigaction(signal, &action, nullptr);
    }
}

bool interrupted() noexcept { return came != 0; }

} // namespace zeroline::console
