#include "gui/console/line_zero.hpp"

#include "gui/console/line_options.hpp"
#include "gui/session/number_text.hpp"

namespace zeroline::console {

using session::fixed_text;
using session::signed_fixed_text;

std::optional<session::QuietStretch> zero_of_line(FeedLoop& loop, const session::LiveFeed& feed,
                                                  const std::string& port, Terminal& terminal)
{
    terminal.say("Take the sensing line off the tee and leave it open to air; hold it still. Reading zero.");
    session::ZeroReading reading;
    const auto zero = loop.find(
        [&](const session::LiveSample& sample) { return reading.push(sample); },
        [&](const session::LiveFeed::Batch& batch) {
            if (reading.disturbed() && !batch.samples.empty()) {
                terminal.progress("something moves: " + signed_fixed_text(batch.samples.back().pressure_cmH2O, 1) +
                                  " cmH2O; is the line off the tee and open?");
            }
        });
    if (!zero && feed.counters().readings == 0) {
        terminal.say(why_nothing_reads(feed.counters(), port));
    } else if (!zero) {
        terminal.say("No zero was read.");
    } else {
        terminal.say("zero reads " + signed_fixed_text(zero->mean_cmH2O, 2) + " cmH2O, noise " +
                     fixed_text(zero->noise_cmH2O, 2));
    }
    return zero;
}

} // namespace zeroline::console
