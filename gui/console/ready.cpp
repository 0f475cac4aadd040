#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/json_reader.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/readiness.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/procedure_file.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

constexpr double kListen_s = 2.0;

struct ReadyOptions {
    std::string order, procedure, instrument, port, on;
    bool as_json = false;
};

/// The day asked about; today where none was named. Throws trace::InputError.
std::string day_of(const ReadyOptions& options)
{
    if (options.on.empty()) {
        return local_day();
    }
    const nlohmann::json typed = options.on;
    try {
        return trace::JsonReader(typed).date();
    } catch (const trace::InputError&) {
        throw trace::InputError("--on", "'" + options.on + "' is no date", "a day as YYYY-MM-DD");
    }
}

/// Collects what was looked at, each said as soon as it is known; for a script all at the end.
class List {
public:
    explicit List(bool as_json) : as_json_(as_json) {}

    void add(const Check& check)
    {
        misses_ += check.ok ? 0 : 1;
        checks_.push_back(check);
        if (as_json_) {
            return;
        }
        std::cout << (check.ok ? "ok    " : "MISS  ") << check.what << ": " << check.found << std::endl;
    }

    /// Loads a file; one that cannot be read is a miss.
    template <typename Load> auto add_file(const std::string& what, const std::string& file, Load load)
    {
        std::optional<decltype(load(file).meaning)> meaning;
        try {
            meaning = load(file).meaning;
            add({true, what, file + " is sound"});
        } catch (const trace::InputError& error) {
            add({false, what, error.what()});
        }
        return meaning;
    }

    [[nodiscard]] ExitStatus finish(const std::string& day) const
    {
        std::cout << (as_json_       ? json(day)
                      : misses_ == 0 ? std::string("ready")
                                     : "not ready: " + std::to_string(misses_) + " missing")
                  << '\n';
        return misses_ == 0 ? ExitStatus::pass : ExitStatus::fail;
    }

private:
    [[nodiscard]] std::string json(const std::string& day) const
    {
        nlohmann::ordered_json tree{{"ready", misses_ == 0}, {"day", day}, {"checks", nlohmann::ordered_json::array()}};
        for (const auto& check : checks_) {
            tree["checks"].push_back({{"what", check.what}, {"ok", check.ok}, {"found", check.found}});
        }
        return tree.dump(2, ' ', false, nlohmann::json::error_handler_t::replace);
    }

    bool as_json_;
    int misses_ = 0;
    std::vector<Check> checks_;
};

/// The port named, else all there are; what is plugged in stands before what is built in.
std::vector<std::string> ports_to_try(const ReadyOptions& options)
{
    if (!options.port.empty()) {
        return {options.port};
    }
    auto ports = serial::list_ports();
    std::stable_partition(ports.begin(), ports.end(),
                          [](const auto& port) { return port.transport == serial::Transport::usb; });
    std::vector<std::string> paths;
    for (const auto& port : ports) {
        paths.push_back(port.path);
    }
    return paths;
}

/// Ports that may be opened; where none may, the first one's refusal is the miss.
std::vector<std::string> usable(const std::vector<std::string>& ports, List& list)
{
    std::vector<std::string> usable;
    std::vector<Check> refused;
    for (const auto& port : ports) {
        const auto check = check_permission(port);
        if (check.ok) {
            usable.push_back(port);
            list.add(check);
        } else {
            refused.push_back(check);
        }
    }
    if (ports.empty()) {
        list.add({false, "port", "no serial port is there; plug the transducer in"});
    } else if (usable.empty()) {
        list.add(refused.front());
    }
    return usable;
}

/// What `verify` would take for this order.
void add_procedure(List& list, const std::string& chosen, const std::optional<std::filesystem::path>& bench,
                   verification::Occasion occasion)
{
    try {
        if (records::procedure_of_run(chosen, bench, occasion)) {
            const auto occasion_word = "'" + verification::word_of(occasion) + "'";
            list.add({true, "procedure",
                      chosen.empty() ? "that of the bench for " + occasion_word + " is sound"
                                     : chosen + " is sound, and for " + occasion_word + " too"});
        }
    } catch (const trace::InputError& error) {
        list.add({false, "procedure", error.what()});
    }
}

ExitStatus ready(const ReadyOptions& options, const Request& request)
{
    const auto day = day_of(options);
    List list(options.as_json);
    std::optional<verification::Bench> whose;
    if (const auto bench = request.bench()) {
        whose = list.add_file("bench", bench->string(), records::load_bench);
    }
    std::optional<verification::WorkOrder> order;
    if (!options.order.empty()) {
        order = list.add_file("order", options.order, records::load_work_order);
    }
    if (order) {
        add_procedure(list, options.procedure, request.bench(), order->occasion);
    } else if (!options.procedure.empty()) {
        list.add_file("procedure", options.procedure, records::load_procedure);
    }
    list.add(check_sealing(order, whose));
    if (whose || !request.bench()) {
        list.add(check_key(records::key_file(request.bench())));
    }
    const auto ports = usable(ports_to_try(options), list);
    if (options.instrument.empty()) {
        Terminal().say("without --instrument neither the sensor nor its calibration can be looked at");
    } else if (const auto instrument = list.add_file("instrument", options.instrument, records::load_instrument)) {
        list.add(check_calibration(*instrument, day));
        list.add(check_span(options.instrument, day));
        if (order) {
            list.add(check_range(*order, *instrument));
        }
        if (!ports.empty()) {
            list.add(check_sensor(ports, *instrument, kListen_s));
        }
    }
    list.add(check_disk(std::filesystem::current_path()));
    list.add(check_battery("/sys/class/power_supply"));
    return list.finish(day);
}

} // namespace

void add_ready(CLI::App& app, Request& request)
{
    auto* command =
        app.add_subcommand("ready", "before leaving: files, key, port, sensor, calibration, disk and battery");
    const auto options = std::make_shared<ReadyOptions>();
    command->add_option("--order", options->order, "work order")->type_name("FILE");
    command->add_option("--procedure", options->procedure, "procedure")->type_name("NAME|FILE");
    command->add_option("--instrument", options->instrument, "instrument file")->type_name("FILE");
    command->add_option("--port", options->port, "its serial port; without it all are tried")->type_name("PORT");
    command->add_option("--on", options->on, "day of the visit (today)")->type_name("YYYY-MM-DD");
    command->add_flag("--json", options->as_json, "for a script: everything at the end");
    command->callback([&request, options] { request.act = [&request, options] { return ready(*options, request); }; });
}

} // namespace zeroline::console
