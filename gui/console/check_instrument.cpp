#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/line_options.hpp"
#include "gui/console/line_zero.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/signing.hpp"
#include "gui/console/text_table.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/instrument_checks.hpp"
#include "gui/session/gauge_check.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <memory>

namespace zeroline::console {

using session::number_text;
using session::signed_fixed_text;
using trace::InputError;
using verification::InstrumentCheck;

namespace {

constexpr double kNearest_cmH2O = 5.0, kFarthest_cmH2O = 200.0;

struct CheckOptions : LineOptions {
    std::vector<std::string> points{"20", "40", "-20", "-40"};
    std::string gauge, gauge_certificate, gauge_uncertainty, gauge_unit = "cmH2O", limit = "1", basis = "house figure";
    std::string every_days = "90", done_by;
};

/// What is checked, as typed and understood.
struct Plan {
    std::vector<double> points_cmH2O;
    trace::PressureUnit unit = trace::PressureUnit::cmH2O;
    InstrumentCheck check; ///< without points
};

std::vector<double> points_typed(const std::vector<std::string>& words)
{
    std::vector<double> points;
    for (const auto& word : words) {
        const double point = number_typed(word, "--point", -kFarthest_cmH2O, kFarthest_cmH2O);
        if (std::fabs(point) < kNearest_cmH2O) {
            throw InputError("--point", word,
                             "a pressure of " + number_text(kNearest_cmH2O) + " cmH2O or more, either way");
        }
        points.push_back(point);
    }
    const auto above = std::count_if(points.begin(), points.end(), [](double one) { return one > 0.0; });
    if (above < 2 || static_cast<std::ptrdiff_t>(points.size()) - above < 2) {
        throw InputError("--point", std::to_string(points.size()) + " points", "two of each sign at least");
    }
    return points;
}

verification::SecondGauge gauge_typed(const CheckOptions& options)
{
    const auto unit = trace::pressure_unit_named(options.gauge_unit);
    if (!unit) {
        throw InputError("--gauge-unit", "'" + options.gauge_unit + "'",
                         "a unit of pressure such as cmH2O, hPa or mmHg");
    }
    return {options.gauge, options.gauge_certificate,
            number_typed(options.gauge_uncertainty, "--gauge-uncertainty", 0.0, kFarthest_cmH2O), *unit};
}

/// As typed, or the one that the bench file names.
verification::SecondGauge gauge_of(const CheckOptions& options, const std::optional<std::filesystem::path>& bench)
{
    if (!options.gauge.empty()) {
        return gauge_typed(options);
    }
    const auto known = bench ? records::load_bench(*bench).meaning.second_gauge : std::nullopt;
    if (!known) {
        throw InputError("--gauge", "no second gauge, and none in a bench file",
                         "its name and --gauge-uncertainty, or second_gauge in the bench file");
    }
    return *known;
}

Plan plan_of(const CheckOptions& options, const verification::SecondGauge& gauge)
{
    Plan plan;
    plan.unit = gauge.unit;
    plan.points_cmH2O = points_typed(options.points);
    auto& check = plan.check;
    check = session::check_with(gauge, local_day(), whole_number_typed(options.every_days, "--every-days", 1, 3660));
    check.done_by = options.done_by;
    check.limit_cmH2O = number_typed(options.limit, "--limit", 0.01, kFarthest_cmH2O);
    check.limit_basis = options.basis;
    return plan;
}

/// One point; false: given up.
bool ask_point(session::GaugeCheck& check, session::LiveFeed& feed, Terminal& terminal)
{
    const auto pull = [&] {
        for (const auto& sample : feed.pull().samples) {
            check.push(sample);
        }
    };
    for (;;) {
        terminal.chime();
        const auto line = terminal.ask(check.question(), pull);
        if (!line) {
            return false;
        }
        try {
            pull();
            const double typed = number_typed(*line, check.check().gauge, -1e6, 1e6);
            const auto trouble = check.take(typed, session::last_digit_of(*line));
            if (trouble.empty()) {
                return true;
            }
            terminal.say(trouble);
        } catch (const InputError& error) {
            terminal.say(error.what());
        }
    }
}

std::string table_of(const InstrumentCheck& check)
{
    TextTable table({"second gauge", "instrument", "error", "U (k = 2)", "cmH2O"});
    for (const auto& point : check.points) {
        const bool beyond = std::fabs(point.error_cmH2O()) > check.limit_cmH2O;
        table.add({signed_fixed_text(point.gauge_cmH2O, 2), signed_fixed_text(point.reading_cmH2O, 2),
                   signed_fixed_text(point.error_cmH2O(), 2), session::fixed_text(point.uncertainty_cmH2O, 2),
                   beyond ? "beyond the limit" : ""});
    }
    return table.text();
}

ExitStatus told(const InstrumentCheck& check)
{
    const auto limit = number_text(check.limit_cmH2O) + " cmH2O (" + check.limit_basis + ")";
    switch (check.outcome()) {
    case InstrumentCheck::Outcome::within:
        std::cout << "Within the limit of " << limit << "; next check by " << check.due << ".\n";
        return ExitStatus::pass;
    case InstrumentCheck::Outcome::outside:
        std::cout
            << "OUTSIDE the limit of " << limit
            << ": do not verify units with this instrument; have it calibrated. Runs with it will be incomplete.\n";
        return ExitStatus::fail;
    case InstrumentCheck::Outcome::too_uncertain:
        break;
    }
    std::cout << "Too uncertain to tell about the limit of " << limit << ": take a better second gauge.\n";
    return ExitStatus::incomplete;
}

void register_checks(const std::filesystem::path& file, const unit_register::Bench& bench, Terminal& terminal)
{
    unit_register::expect_record(bench, file); // so that it waits where the register is out of reach
    for (const auto& line : unit_register::deliver(bench, file, bench_key(bench.file))) {
        terminal.say(line);
    }
}

ExitStatus check_instrument(const CheckOptions& options, const Request& request)
{
    const EndsCleanly guarded;
    const auto plan = plan_of(options, gauge_of(options, request.bench()));
    (void)request.registering(); // says what is wrong with it before anybody holds a syringe
    const auto settings = options.settings();
    auto all = records::load_instrument_checks(options.instrument);
    all.instrument = settings.instrument.name;
    all.serial = settings.instrument.serial;
    Terminal terminal;
    if (!terminal.can_ask()) {
        throw InputError("check-instrument", "standard input is no terminal, so nobody can be asked",
                         "a terminal, and a person who reads the second gauge");
    }
    session::LiveFeed feed(settings);
    feed.start();
    if (feed.simulated()) {
        terminal.say("SIMULATED: " + options.port + " is a pseudo-terminal.");
    }
    terminal.say("Instrument and second gauge on one tee, with a syringe; no unit, and nobody, connected.");
    FeedLoop loop(feed, terminal, options.wait_s(), settings.instrument.nominal_hz);
    const auto zero = zero_of_line(loop, feed, options.port, terminal);
    if (!zero) {
        return ExitStatus::incomplete;
    }
    session::GaugeCheck points(plan.check, plan.unit, plan.points_cmH2O, *zero);
    terminal.say("Put the line back on the tee.");
    while (!points.done()) {
        if (!ask_point(points, feed, terminal)) {
            terminal.say("The check ends here; nothing is written.");
            return ExitStatus::incomplete;
        }
    }
    auto check = points.check();
    feed.stop();
    std::cout << table_of(check);
    check.simulated = feed.simulated();
    records::append_instrument_check(options.instrument, std::move(all), check);
    const auto file = records::checks_file(options.instrument);
    terminal.say("written to " + file.string());
    const auto status = told(check);
    register_checks(file, request.registering(), terminal);
    return status;
}

} // namespace

void add_check_instrument(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("check-instrument", "holds the instrument against a second gauge");
    const auto options = std::make_shared<CheckOptions>();
    add_line_options(*command, *options);
    auto* gauge = command->add_option("--gauge", options->gauge, "name of the second gauge; else the bench file's")
                      ->type_name("NAME");
    auto* uncertainty = command
                            ->add_option("--gauge-uncertainty", options->gauge_uncertainty,
                                         "its expanded uncertainty, k = 2, in its unit")
                            ->type_name("N");
    gauge->needs(uncertainty);
    uncertainty->needs(gauge);
    command->add_option("--gauge-certificate", options->gauge_certificate, "its calibration certificate")
        ->type_name("TEXT");
    command->add_option("--gauge-unit", options->gauge_unit, "unit that it shows")
        ->type_name("UNIT")
        ->capture_default_str();
    command->add_option("--point", options->points, "pressure to compare at, in cmH2O; again for each")
        ->type_name("N")
        ->allow_extra_args(false);
    command->add_option("--limit", options->limit, "largest error in cmH2O")->type_name("N")->capture_default_str();
    command->add_option("--basis", options->basis, "where the limit comes from")
        ->type_name("TEXT")
        ->capture_default_str();
    command->add_option("--every-days", options->every_days, "the check holds for so many days")
        ->type_name("N")
        ->capture_default_str();
    command->add_option("--operator", options->done_by, "who checks")->type_name("NAME");
    add_wait_option(*command, *options, "how long an instrument that is silent or gone is waited for");
    command->callback(
        [&request, options] { request.act = [&request, options] { return check_instrument(*options, request); }; });
}

} // namespace zeroline::console
