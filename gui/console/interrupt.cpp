#include "gui/console/interrupt.hpp"

namespace zeroline::console {

namespace {

// A signal handler can reach nothing else.
volatile std::sig_atomic_t came = 0;

void note(int signal)
{
    if (came != 0) {
        std::signal(signal, SIG_DFL);
        std::raise(signal);
    }
    came = 1;
}

} // namespace

void survive_full_disk_and_closed_pipe()
{
    std::signal(SIGPIPE, SIG_IGN);
    std::signal(SIGXFSZ, SIG_IGN);
}

EndsCleanly::EndsCleanly()
{
    struct sigaction action = {};
    action.sa_handler = note;
    for (std::size_t i = 0; i < kSignals.size(); ++i) {
        ::sigaction(kSignals[i], &action, &before_[i]);
    }
}

EndsCleanly::~EndsCleanly()
{
    for (std::size_t i = 0; i < kSignals.size(); ++i) {
        ::sigaction(kSignals[i], &before_[i], nullptr);
    }
}

bool interrupted() noexcept { return came != 0; }

} // namespace zeroline::console
