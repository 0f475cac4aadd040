#include "gui/console/line_zero.hpp"

#include "gui/console/feed_loop.hpp"
#include "gui/session/number_text.hpp"

namespace zeroline::console {

using session::fixed_text;
using session::signed_fixed_text;

std::optional<session::QuietStretch> zero_of_line(session::LiveFeed& feed, const LineOptions& options,
                                                  Terminal& terminal)
{
    terminal.say("Take the sensing line off the tee and leave it open to air; hold it still. Reading zero.");
    session::ZeroReading reading;
    std::optional<session::QuietStretch> zero;
    FeedLoop loop(feed, terminal, options.wait_s(), options.settings().instrument.nominal_hz);
    loop.run(std::nullopt, [&](const session::LiveFeed::Batch& batch) {
        for (const auto& sample : batch.samples) {
            zero = zero ? zero : reading.push(sample);
        }
        if (zero) {
            loop.stop();
        } else if (reading.disturbed() && !batch.samples.empty()) {
            terminal.progress("something moves: " + signed_fixed_text(batch.samples.back().pressure_cmH2O, 1) +
                              " cmH2O; is the line off the tee and open?");
        }
    });
    if (!zero && feed.counters().readings == 0) {
        terminal.say(why_nothing_reads(feed.counters(), options.port));
    } else if (!zero) {
        terminal.say("No zero was read.");
    } else {
        terminal.say("zero reads " + signed_fixed_text(zero->mean_cmH2O, 2) + " cmH2O, noise " +
                     fixed_text(zero->noise_cmH2O, 2));
    }
    return zero;
}

} // namespace zeroline::console
