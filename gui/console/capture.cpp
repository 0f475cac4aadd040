#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/feed_loop.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/line_options.hpp"
#include "gui/session/awake.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;

namespace {

struct CaptureOptions : LineOptions {
    std::string out;
};

void refuse_existing(const std::string& file)
{
    std::error_code none;
    if (fs::symlink_status(file, none).type() != fs::file_type::not_found) {
        throw trace::InputError(file, "is there already", "a file that does not exist yet; nothing is overwritten");
    }
}

std::string progress_text(const session::LiveSample& newest, const serial::Counters& counters)
{
    const auto lost = losses(counters);
    return session::fixed_text(newest.time_s, 1) + " s  " + session::signed_fixed_text(newest.pressure_cmH2O, 1) +
           " cmH2O  " + std::to_string(counters.readings) + " readings" + (lost.empty() ? "" : "  " + lost);
}

ExitStatus finished(const CaptureOptions& options, const serial::Counters& counters, Terminal& terminal)
{
    if (counters.readings == 0) {
        std::error_code none;
        fs::remove(options.out, none);
        terminal.say(why_nothing_reads(counters, options.port) + " Nothing was saved.");
        return ExitStatus::incomplete;
    }
    const auto lost = losses(counters);
    terminal.say(std::to_string(counters.readings) + " readings saved in " + options.out + "; " +
                 (lost.empty() ? "nothing lost" : lost));
    return ExitStatus::pass;
}

ExitStatus capture(const CaptureOptions& options)
{
    const EndsCleanly guarded;
    const auto seconds_s = options.seconds_s();
    auto settings = options.settings();
    refuse_existing(options.out);
    settings.file = options.out;
    const double nominal_hz = settings.instrument.nominal_hz;
    session::LiveFeed feed(std::move(settings));
    feed.start();
    const session::Awake awake("a trace is captured");
    Terminal terminal;
    if (feed.simulated()) {
        terminal.say("SIMULATED: " + options.port + " is a pseudo-terminal.");
    }
    FeedLoop(feed, terminal, options.wait_s(), nominal_hz).run(seconds_s, [&](const session::LiveFeed::Batch& batch) {
        if (!batch.samples.empty()) {
            terminal.progress(progress_text(batch.samples.back(), feed.counters()));
        }
    });
    const bool failed = feed.state() == serial::LineState::failed;
    feed.stop();
    const auto status = finished(options, feed.counters(), terminal);
    return failed ? ExitStatus::wrong_input : status;
}

} // namespace

void add_capture(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("capture", "saves a trace of raw readings");
    const auto options = std::make_shared<CaptureOptions>();
    add_line_options(*command, *options);
    command->add_option("--out", options->out, "trace file to make")->type_name("TRACE.csv")->required();
    add_wait_option(*command, *options, "how long an instrument that is silent or gone is waited for");
    add_seconds_option(*command, *options);
    command->callback([&request, options] { request.act = [options] { return capture(*options); }; });
}

} // namespace zeroline::console
