#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/units.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/line_options.hpp"
#include "gui/console/line_zero.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/signing.hpp"
#include "gui/console/text_table.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/records/instrument_checks.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <deque>
#include <iostream>
#include <memory>

namespace zeroline::console {

using session::number_text;
using session::signed_fixed_text;
using trace::InputError;
using verification::GaugePoint;
using verification::InstrumentCheck;

namespace {

constexpr double kNearest_cmH2O = 5.0, kFarthest_cmH2O = 200.0;
constexpr double kTogether_s = 1.0; ///< so much of the trace is read beside the second gauge
constexpr double kHeld_cmH2O = 0.5; ///< more than this to either side of the middle: it is not held
constexpr double kAboutThere = 0.5; ///< share of a point, either way, by which it may be missed
constexpr std::size_t kFewestSamples = 3;

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

Plan plan_of(const CheckOptions& options)
{
    Plan plan;
    const auto unit = trace::pressure_unit_named(options.gauge_unit);
    if (!unit) {
        throw InputError("--gauge-unit", "'" + options.gauge_unit + "'",
                         "a unit of pressure such as cmH2O, hPa or mmHg");
    }
    plan.unit = *unit;
    plan.points_cmH2O = points_typed(options.points);
    auto& check = plan.check;
    check.on = local_day();
    check.due = verification::later_day(check.on, whole_number_typed(options.every_days, "--every-days", 1, 3660));
    check.done_by = options.done_by;
    check.gauge = options.gauge;
    check.gauge_certificate = options.gauge_certificate;
    check.gauge_uncertainty_cmH2O = trace::to_cmH2O(
        number_typed(options.gauge_uncertainty, "--gauge-uncertainty", 0.0, kFarthest_cmH2O), plan.unit);
    check.limit_cmH2O = number_typed(options.limit, "--limit", 0.01, kFarthest_cmH2O);
    check.limit_basis = options.basis;
    return plan;
}

/// The newest second of the line.
class NewestSecond {
public:
    explicit NewestSecond(session::LiveFeed& feed) : feed_(feed) {}

    void pull()
    {
        const auto batch = feed_.pull();
        samples_.insert(samples_.end(), batch.samples.begin(), batch.samples.end());
        while (!samples_.empty() && samples_.back().time_s - samples_.front().time_s > kTogether_s) {
            samples_.pop_front();
        }
    }
    [[nodiscard]] bool has_any() const { return samples_.size() >= kFewestSamples; }
    [[nodiscard]] double mean_cmH2O() const
    {
        double sum = 0.0;
        for (const auto& sample : samples_) {
            sum += sample.pressure_cmH2O;
        }
        return sum / static_cast<double>(samples_.size());
    }
    /// Half of what lies between the lowest and the highest.
    [[nodiscard]] double half_width_cmH2O() const
    {
        const auto [low, high] =
            std::minmax_element(samples_.begin(), samples_.end(),
                                [](const auto& a, const auto& b) { return a.pressure_cmH2O < b.pressure_cmH2O; });
        return (high->pressure_cmH2O - low->pressure_cmH2O) / 2.0;
    }
    [[nodiscard]] std::size_t size() const { return samples_.size(); }

private:
    session::LiveFeed& feed_;
    std::deque<session::LiveSample> samples_;
};

/// Half a step of the last digit that was typed, as a rectangle: its standard deviation.
double reading_off_u(const std::string& typed)
{
    const auto point = typed.find_first_of(".,");
    const auto digits = point == std::string::npos ? std::size_t{0} : typed.size() - point - 1;
    return std::pow(10.0, -static_cast<double>(digits)) / std::sqrt(12.0);
}

double rounded(double value) { return std::round(value * 1e3) / 1e3; }

/// The reading beside what was typed; a sentence where it cannot be taken so.
std::string why_not(const NewestSecond& newest, double reading_cmH2O, double point_cmH2O, double noise_cmH2O)
{
    if (newest.half_width_cmH2O() > std::max(kHeld_cmH2O, 5.0 * noise_cmH2O)) {
        return "The pressure moves: hold it still and type the gauge's value again.";
    }
    if (std::fabs(reading_cmH2O - point_cmH2O) > kAboutThere * std::fabs(point_cmH2O)) {
        return "The instrument reads " + signed_fixed_text(reading_cmH2O, 1) + " cmH2O, not about " +
               signed_fixed_text(point_cmH2O, 0) + ": press there and type again.";
    }
    return {};
}

/// None: given up.
std::optional<GaugePoint> ask_point(NewestSecond& newest, const Plan& plan, double point_cmH2O,
                                    const session::QuietStretch& zero, Terminal& terminal)
{
    const auto unit = std::string(trace::name_of(plan.unit));
    const auto question = "Press to about " + signed_fixed_text(point_cmH2O, 0) +
                          " cmH2O and hold it. What does the second gauge show, in " + unit + "?";
    for (;;) {
        terminal.chime();
        const auto line = terminal.ask(question, [&] { newest.pull(); });
        if (!line) {
            return std::nullopt;
        }
        try {
            const double typed = number_typed(*line, plan.check.gauge, -1e6, 1e6);
            newest.pull();
            if (!newest.has_any()) {
                terminal.say("No readings come in.");
                continue;
            }
            const double reading = newest.mean_cmH2O() - zero.mean_cmH2O;
            if (const auto trouble = why_not(newest, reading, point_cmH2O, zero.noise_cmH2O); !trouble.empty()) {
                terminal.say(trouble);
                continue;
            }
            const double mean_u = zero.noise_cmH2O / std::sqrt(static_cast<double>(newest.size()));
            const double read_u = trace::to_cmH2O(reading_off_u(*line), plan.unit);
            const double gauge_u = plan.check.gauge_uncertainty_cmH2O / 2.0;
            return GaugePoint{rounded(reading), rounded(trace::to_cmH2O(typed, plan.unit)),
                              rounded(2.0 * std::hypot(std::hypot(gauge_u, read_u), mean_u))};
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
    auto plan = plan_of(options);
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
    auto& check = plan.check;
    check.zero_cmH2O = rounded(zero->mean_cmH2O);
    check.noise_cmH2O = rounded(zero->noise_cmH2O);
    terminal.say("Put the line back on the tee.");
    NewestSecond newest(feed);
    for (const double point : plan.points_cmH2O) {
        const auto taken = ask_point(newest, plan, point, *zero, terminal);
        if (!taken) {
            terminal.say("The check ends here; nothing is written.");
            return ExitStatus::incomplete;
        }
        check.points.push_back(*taken);
    }
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
    command->add_option("--gauge", options->gauge, "name of the second gauge")->type_name("NAME")->required();
    command
        ->add_option("--gauge-uncertainty", options->gauge_uncertainty, "its expanded uncertainty, k = 2, in its unit")
        ->type_name("N")
        ->required();
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
