#include "gui/console/command.hpp"

#include "acquisition/serial/find.hpp"
#include "gui/console/feed_loop.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/line_options.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <memory>
#include <vector>

namespace zeroline::console {

using session::fixed_text;
using session::signed_fixed_text;

namespace {

constexpr double kEvery_s = 1.0;

/// One line for a second of samples: what stands on the line, how fast, how quiet, what was lost.
std::string summary(const std::vector<session::LiveSample>& samples, const serial::Counters& counters)
{
    double sum = 0.0;
    double low = samples.front().pressure_cmH2O;
    double high = low;
    double steps = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double pressure = samples[i].pressure_cmH2O;
        sum += pressure;
        low = std::min(low, pressure);
        high = std::max(high, pressure);
        // Between neighbours, so that a pressure that changes is not taken for noise (von Neumann's ratio).
        steps += i > 0 ? std::pow(pressure - samples[i - 1].pressure_cmH2O, 2.0) : 0.0;
    }
    const auto count = static_cast<double>(samples.size());
    const double span_s = samples.back().time_s - samples.front().time_s;
    std::string line = fixed_text(samples.back().time_s, 1) + " s  " + signed_fixed_text(sum / count, 2) + " cmH2O (" +
                       signed_fixed_text(low, 2) + " to " + signed_fixed_text(high, 2) + ")";
    if (samples.size() > 1 && span_s > 0.0) {
        line += "  " + fixed_text((count - 1.0) / span_s, 1) + " Hz  noise " +
                fixed_text(std::sqrt(steps / (2.0 * (count - 1.0))), 3);
    }
    const auto lost = losses(counters);
    return line + (lost.empty() ? "  nothing lost" : "  " + lost);
}

/// Collects a second of samples, then prints its line.
class Seconds {
public:
    explicit Seconds(const session::LiveFeed& feed) : feed_(feed) {}

    void take(const session::LiveFeed::Batch& batch)
    {
        for (const auto& sample : batch.samples) {
            samples_.push_back(sample);
            if (samples_.back().time_s - samples_.front().time_s >= kEvery_s) {
                std::cout << summary(samples_, feed_.counters()) << std::endl;
                samples_.clear();
            }
        }
    }

private:
    const session::LiveFeed& feed_;
    std::vector<session::LiveSample> samples_;
};

struct ListenOptions : LineOptions {
    bool find = false;
};

/// The parts of an instrument file that a fit settles, ready to be copied into one.
void print_fit(const serial::Fit& fit)
{
    trace::Instrument instrument;
    instrument.port = fit.port;
    instrument.language = fit.language;
    const auto tree = trace::to_json(instrument);
    std::cout << "\"port\": " << tree.at("port").dump() << ",\n\"language\": " << tree.at("language").dump()
              << "\n  reads " << fit.example << (fit.identity.empty() ? "" : "\n  says it is " + fit.identity) << "\n";
}

ExitStatus find(const ListenOptions& options)
{
    const EndsCleanly guarded;
    Terminal terminal;
    serial::SearchSettings search;
    search.port = options.port;
    search.first = options.settings().instrument.port;
    search.progress = [&](const std::string& next) {
        terminal.progress(next);
        return !interrupted();
    };
    const auto result = serial::find_settings(search);
    for (const auto& fit : result.fits) {
        print_fit(fit);
    }
    terminal.say(result.sentence);
    return result.fits.empty() ? ExitStatus::incomplete : ExitStatus::pass;
}

ExitStatus listen(const ListenOptions& options)
{
    const EndsCleanly guarded;
    if (options.find) {
        return find(options);
    }
    const auto seconds_s = options.seconds_s();
    const auto settings = options.settings();
    session::LiveFeed feed(settings);
    feed.start();
    Terminal terminal;
    if (const auto too_fast = why_too_fast(settings.instrument); !too_fast.empty()) {
        terminal.say(too_fast);
    }
    if (feed.simulated()) {
        terminal.say("SIMULATED: " + options.port + " is a pseudo-terminal.");
    }
    Seconds seconds(feed);
    FeedLoop(feed, terminal, options.wait_s(), settings.instrument.nominal_hz)
        .run(seconds_s, [&](const session::LiveFeed::Batch& batch) { seconds.take(batch); });
    feed.stop();
    const auto counters = feed.counters();
    if (counters.readings == 0) {
        terminal.say(why_nothing_reads(counters, options.port));
        return ExitStatus::incomplete;
    }
    std::cout << counters.readings << " readings; " << (losses(counters).empty() ? "nothing lost" : losses(counters))
              << '\n';
    return ExitStatus::pass;
}

} // namespace

void add_listen(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("listen", "readings, rate, noise and losses of an instrument, live");
    const auto options = std::make_shared<ListenOptions>();
    add_line_options(*command, *options);
    command->add_flag("--find", options->find, "try the usual settings and languages, and say which fit");
    add_wait_option(*command, *options, "how long an instrument that is silent or gone is waited for");
    add_seconds_option(*command, *options);
    command->callback([&request, options] { request.act = [options] { return listen(*options); }; });
}

} // namespace zeroline::console
