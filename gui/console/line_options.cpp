#include "gui/console/line_options.hpp"

#include "acquisition/serial/languages/line_timing.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>

namespace zeroline::console {

namespace {

constexpr double kLongest_s = 7.0 * 86400.0;

std::string counted(std::uint64_t count, const std::string& what) { return std::to_string(count) + " " + what; }

void append(std::string& list, std::uint64_t count, const std::string& what)
{
    if (count > 0) {
        list += (list.empty() ? "" : ", ") + counted(count, what);
    }
}

} // namespace

double LineOptions::wait_s() const { return number_typed(wait, "--wait", 0.1, kLongest_s); }

std::optional<double> LineOptions::seconds_s() const
{
    return seconds.empty() ? std::nullopt : std::optional(number_typed(seconds, "--seconds", 0.001, kLongest_s));
}

serial::CaptureSettings LineOptions::settings() const
{
    serial::CaptureSettings settings;
    settings.port = port;
    settings.instrument = records::load_instrument(instrument).meaning;
    settings.wait_s = wait_s();
    return settings;
}

void add_line_options(CLI::App& command, LineOptions& options)
{
    command.add_option("--port", options.port, "serial port of the instrument")->type_name("PORT")->required();
    command.add_option("--instrument", options.instrument, "instrument file")->type_name("FILE")->required();
}

void add_wait_option(CLI::App& command, LineOptions& options, const std::string& waits)
{
    command.add_option("--wait", options.wait, waits + " (60)")->type_name("SECONDS");
}

void add_seconds_option(CLI::App& command, LineOptions& options)
{
    command.add_option("--seconds", options.seconds, "ends after so long; without it at Ctrl-C")->type_name("SECONDS");
}

std::string why_nothing_reads(const serial::Counters& counters, const std::string& port)
{
    if (counters.bytes == 0) {
        return "no byte has come from " + port +
               ": is the cable in, is the instrument on, does it need a start text, dtr or rts?";
    }
    return std::to_string(counters.bytes) + " bytes have come from " + port +
           ", but none of them reads as a pressure: are baud, parity, field, separator and unit of the instrument file "
           "right? `zeroline listen --find` tries the usual ones.";
}

std::string why_too_fast(const trace::Instrument& instrument)
{
    const double highest_hz = serial::highest_rate_hz(instrument);
    if (instrument.nominal_hz <= highest_hz) {
        return {};
    }
    return "the instrument file states " + session::fixed_text(instrument.nominal_hz, 0) + " readings a second; at " +
           std::to_string(instrument.port.baud) + " baud this line carries at most " +
           session::fixed_text(highest_hz, 0) + ": raise baud, or lower rate.nominal_hz";
}

std::string losses(const serial::Counters& counters)
{
    std::string list;
    append(list, counters.lost_readings, "readings lost by count");
    append(list, counters.counts_back, "times the count ran back (started anew, or two instruments on the line)");
    append(list, counters.without_value, "readings without a value");
    append(list, counters.discarded_bytes, "bytes not understood");
    append(list, counters.damaged_characters, "characters damaged on the line (parity, framing, overrun)");
    append(list, counters.unanswered, "requests not answered");
    append(list, counters.not_displayed, "readings not displayed (they are in the file)");
    return list;
}

} // namespace zeroline::console
