#include "gui/console/command.hpp"

#include "acquisition/serial/find.hpp"
#include "acquisition/serial/raw_line.hpp"
#include "acquisition/serial/serial_link.hpp"
#include "acquisition/trace/input_error.hpp"
#include "gui/console/feed_loop.hpp"
#include "gui/console/found_instrument.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/line_options.hpp"
#include "gui/console/new_file.hpp"
#include "gui/console/range_watch.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>
#include <memory>
#include <optional>
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
    bool raw = false;
    std::string out;

    /// The instrument file, or the usual settings where none is named.
    [[nodiscard]] trace::Instrument known_instrument() const
    {
        return instrument.empty() ? trace::Instrument{} : settings().instrument;
    }
    [[nodiscard]] std::string known_text() const { return instrument.empty() ? "" : records::read_file(instrument); }
};

/// The parts of an instrument file that a fit settles, ready to be copied into one.
void print_fit(const serial::Fit& fit)
{
    trace::Instrument instrument;
    instrument.port = fit.port;
    instrument.language = fit.language;
    const auto tree = trace::to_json(instrument);
    std::cout << "\"port\": " << tree.at("port").dump() << ",\n\"language\": " << tree.at("language").dump()
              << "\n  reads " << reading_of(fit) << "\n  from " << fit.example
              << (fit.identity.empty() ? "" : "\n  says it is " + fit.identity) << "\n";
}

serial::SearchResult searched(const ListenOptions& options, Terminal& terminal)
{
    serial::SearchSettings search;
    search.port = options.port;
    search.first = options.known_instrument().port;
    search.progress = [&](const std::string& next) {
        terminal.progress(next);
        return !interrupted();
    };
    return serial::find_settings(search);
}

ExitStatus find(const ListenOptions& options)
{
    Terminal terminal;
    const auto result = searched(options, terminal);
    for (const auto& fit : result.fits) {
        print_fit(fit);
    }
    terminal.say(result.sentence);
    if (result.fits.empty()) {
        return ExitStatus::incomplete;
    }
    if (!options.out.empty()) {
        write_new_file(options.out, instrument_file_of(result.fits.front(), options.known_text()));
        terminal.say((result.fits.size() > 1 ? "the first of these is in " : "written to ") + options.out);
    }
    return ExitStatus::pass;
}

/// Prints what comes line by line; bytes that are no text as \xHH.
class RawLines {
public:
    explicit RawLines(std::optional<double> seconds_s) : seconds_s_(seconds_s) {}

    bool take(std::string_view bytes)
    {
        for (const char c : bytes) {
            const bool ends = c == '\n' || c == '\r';
            if (!ends) {
                line_ += c;
            }
            if ((ends && !line_.empty()) || line_.size() >= kWidest) {
                print();
            }
        }
        bytes_ += bytes.size();
        quiet_ = bytes.empty() ? quiet_ + 1 : 0;
        if (quiet_ == kPause && !line_.empty()) {
            print(); // a language without line ends
        }
        const std::chrono::duration<double> heard = std::chrono::steady_clock::now() - began_;
        return !interrupted() && !(seconds_s_ && heard.count() >= *seconds_s_);
    }

    [[nodiscard]] std::size_t bytes() const { return bytes_; }

private:
    static constexpr std::size_t kWidest = 512;
    static constexpr int kPause = 10; ///< turns without a byte, 0.2 s

    void print()
    {
        std::cout << serial::with_escapes(line_) << std::endl;
        line_.clear();
    }

    std::optional<double> seconds_s_;
    std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
    std::string line_;
    std::size_t bytes_ = 0;
    int quiet_ = 0;
};

ExitStatus show_raw(const ListenOptions& options)
{
    Terminal terminal;
    RawLines lines(options.seconds_s());
    const auto instrument = options.known_instrument();
    terminal.say("lines as they come at " + serial::in_words(instrument.port) + "; other bytes than text as \\xHH");
    if (!serial::listen_raw(options.port, instrument, [&](std::string_view bytes) { return lines.take(bytes); })) {
        terminal.say(options.port + " is gone");
    }
    return lines.bytes() > 0 ? ExitStatus::pass : ExitStatus::incomplete;
}

ExitStatus listen(const ListenOptions& options)
{
    const EndsCleanly guarded;
    if (options.find || options.raw) {
        return options.find ? find(options) : show_raw(options);
    }
    if (options.instrument.empty()) {
        throw trace::InputError("--instrument", "missing", "the instrument's file; without one, --find or --raw");
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
    RangeWatch range(settings.instrument.range);
    FeedLoop(feed, terminal, options.wait_s(), settings.instrument.nominal_hz)
        .run(seconds_s, [&](const session::LiveFeed::Batch& batch) {
            seconds.take(batch);
            if (const auto beyond = range.take(batch.samples); !beyond.empty()) {
                terminal.say(beyond);
            }
        });
    feed.stop();
    const auto counters = feed.counters();
    if (counters.readings == 0) {
        terminal.say(why_nothing_reads(counters, options.port));
        return ExitStatus::incomplete;
    }
    std::cout << counters.readings << " readings; " << (losses(counters).empty() ? "nothing lost" : losses(counters))
              << (range.beyond() > 0 ? "; " + std::to_string(range.beyond()) + " beyond the range" : "") << '\n';
    return ExitStatus::pass;
}

} // namespace

void add_listen(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("listen", "readings, rate, noise and losses of an instrument, live");
    const auto options = std::make_shared<ListenOptions>();
    add_line_options(*command, *options);
    command->get_option("--instrument")->required(false);
    auto* find = command->add_flag("--find", options->find, "try the usual settings and languages, and say which fit");
    command->add_option("--out", options->out, "with --find: file to make, the likeliest instrument file")
        ->type_name("FILE")
        ->needs(find);
    command->add_flag("--raw", options->raw, "show lines as they come; without an instrument file at 9600 baud, 8N1")
        ->excludes(find);
    add_wait_option(*command, *options, "how long an instrument that is silent or gone is waited for");
    add_seconds_option(*command, *options);
    command->callback([&request, options] { request.act = [options] { return listen(*options); }; });
}

} // namespace zeroline::console
