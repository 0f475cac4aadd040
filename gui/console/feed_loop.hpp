#pragma once

#include "gui/console/terminal.hpp"
#include "gui/session/live_feed.hpp"

#include <functional>
#include <optional>

namespace zeroline::console {

/// Reads a line until it is over; what comes is handed on some fifty times a second.
class FeedLoop {
public:
    /// `wait_s`: an instrument that sends nothing for so long ends it, as one that is gone does.
    FeedLoop(session::LiveFeed& feed, Terminal& terminal, double wait_s)
        : feed_(feed), terminal_(terminal), wait_s_(wait_s)
    {
    }

    /// Until `seconds_s` after the first sample, the instrument stays away, or somebody interrupts.
    void run(std::optional<double> seconds_s, const std::function<void(const session::LiveFeed::Batch&)>& take);

private:
    void tell_trouble();
    void tell_identity();

    session::LiveFeed& feed_;
    Terminal& terminal_;
    double wait_s_;
    std::string told_;
    std::string told_identity_;
};

} // namespace zeroline::console
