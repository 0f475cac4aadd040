#pragma once

#include "gui/console/terminal.hpp"
#include "gui/session/live_feed.hpp"

#include <chrono>
#include <functional>
#include <optional>

namespace zeroline::console {

/// Reads a line until it is over; what comes is handed on some fifty times a second.
class FeedLoop {
public:
    /// `wait_s`: an instrument that sends nothing for so long ends it, as one that is gone does. `nominal_hz`: how many
    /// readings a second the instrument file states.
    FeedLoop(session::LiveFeed& feed, Terminal& terminal, double wait_s, double nominal_hz)
        : feed_(feed), terminal_(terminal), wait_s_(wait_s), nominal_hz_(nominal_hz)
    {
    }

    /// Until `seconds_s` after the first sample by this computer's clock, the instrument stays away, or somebody
    /// interrupts.
    void run(std::optional<double> seconds_s, const std::function<void(const session::LiveFeed::Batch&)>& take);
    /// Hands sample after sample to `push` until it finds something; `meanwhile` follows each batch. None: the
    /// instrument stays away, or somebody interrupts.
    template <typename Push>
    auto find(Push push, const std::function<void(const session::LiveFeed::Batch&)>& meanwhile)
        -> decltype(push(session::LiveSample{}))
    {
        decltype(push(session::LiveSample{})) found;
        run(std::nullopt, [&](const session::LiveFeed::Batch& batch) {
            for (const auto& sample : batch.samples) {
                found = found ? found : push(sample);
            }
            stopped_ = found.has_value();
            if (!found) {
                meanwhile(batch);
            }
        });
        return found;
    }

private:
    void tell_trouble();
    void tell_identity();
    void tell_disorder(double heard_s);
    void tell_too_many(double heard_s);

    session::LiveFeed& feed_;
    Terminal& terminal_;
    double wait_s_;
    double nominal_hz_;
    std::string told_;
    std::string told_identity_;
    bool told_back_ = false;
    bool told_too_many_ = false;
    bool stopped_ = false;
    /// The first sample, by this computer's clock: the instrument's count may stand or jump.
    std::optional<std::chrono::steady_clock::time_point> first_;
};

} // namespace zeroline::console
