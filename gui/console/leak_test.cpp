#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/feed_loop.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/line_options.hpp"
#include "gui/console/line_zero.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/session/leak_reading.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

using session::fixed_text;
using session::signed_fixed_text;

namespace {

struct LeakOptions : LineOptions {
    std::string limit = "1";
};

constexpr double kSmallestLimit_cmH2O_s = 0.01, kLargestLimit_cmH2O_s = 100.0;

std::optional<session::LeakRate> follow(FeedLoop& loop, Terminal& terminal, double target_cmH2O, double zero_cmH2O)
{
    terminal.chime();
    terminal.say(session::leak_asked(target_cmH2O));
    session::LeakReading reading(target_cmH2O, zero_cmH2O);
    const auto rate =
        loop.find([&](const session::LiveSample& sample) { return reading.push(sample); },
                  [&](const session::LiveFeed::Batch&) {
                      terminal.progress(
                          signed_fixed_text(reading.pressure_cmH2O(), 1) + " cmH2O" +
                          (reading.follows()
                               ? ", hands off: " +
                                     fixed_text(verification::kLeakFollowed_s * (1.0 - reading.progress()), 0) + " s"
                               : std::string()));
                  });
    terminal.clear_progress();
    return rate;
}

ExitStatus leak_test(const LeakOptions& options)
{
    const EndsCleanly guarded;
    const double limit = number_typed(options.limit, "--limit", kSmallestLimit_cmH2O_s, kLargestLimit_cmH2O_s);
    const auto settings = options.settings();
    session::LiveFeed feed(settings);
    feed.start();
    Terminal terminal;
    FeedLoop loop(feed, terminal, options.wait_s(), settings.instrument.nominal_hz);
    if (feed.simulated()) {
        terminal.say("SIMULATED: " + options.port + " is a pseudo-terminal.");
    }
    terminal.say(
        "Leak test of the set-up, without the unit: the plug in the hose end, the tee, and a syringe with a tap "
        "where the unit would be.");
    const auto zero = zero_of_line(loop, feed, options.port, terminal);
    bool tight = zero.has_value();
    for (const double target : session::kLeakTargets_cmH2O) {
        const auto rate = zero ? follow(loop, terminal, target, zero->mean_cmH2O) : std::nullopt;
        if (!rate) {
            feed.stop();
            terminal.say("The leak test ends here, incomplete.");
            return ExitStatus::incomplete;
        }
        tight = tight && rate->loss_cmH2O_s <= limit;
        std::cout << session::leak_told(*rate, limit) << std::endl;
    }
    feed.stop();
    std::cout << (tight ? "The set-up is tight.\n"
                        : "The set-up leaks: look at plug, tee, hose and sensing line, one after the other.\n");
    return tight ? ExitStatus::pass : ExitStatus::fail;
}

} // namespace

void add_leak_test(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("leak-test", "how fast the closed set-up loses pressure, without the unit");
    const auto options = std::make_shared<LeakOptions>();
    add_line_options(*command, *options);
    command->add_option("--limit", options->limit, "largest loss in cmH2O/s (house figure, no published source)")
        ->type_name("N")
        ->capture_default_str();
    add_wait_option(*command, *options, "how long an instrument that is silent or gone is waited for");
    command->callback([&request, options] { request.act = [options] { return leak_test(*options); }; });
}

} // namespace zeroline::console
