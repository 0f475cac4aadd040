#include "fixtures/virtual_bench/virtual_bench.hpp"

#include "gui/console/asked_file.hpp"
#include "gui/console/command.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/templates.hpp"
#include "gui/console/terminal.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/number_text.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iostream>
#include <memory>

namespace zeroline::console {

using virtual_bench::Action;
using virtual_bench::BenchSettings;
using virtual_bench::VirtualBench;

namespace {

struct BenchOptions {
    std::string order, instrument, script, link, panel;
    std::vector<std::string> faults;
    std::string seed = "1";
    bool follow = false;
};

std::uint64_t seed_typed(const std::string& text)
{
    constexpr double largest = 9007199254740992.0; // every whole number up to it is a double
    return static_cast<std::uint64_t>(number_typed(text, "--seed", 0.0, largest));
}

BenchSettings settings_of(const BenchOptions& options)
{
    BenchSettings settings;
    settings.order = options.order.empty()
                         ? verification::parse_work_order(records::parse_json(template_text(Template::order)))
                         : records::load_work_order(options.order).meaning;
    settings.instrument = options.instrument.empty()
                              ? trace::parse_instrument(records::parse_json(template_text(Template::instrument)))
                              : records::load_instrument(options.instrument).meaning;
    for (const auto& fault : options.faults) {
        settings.faults.push_back(virtual_bench::parse_fault(fault));
    }
    settings.seed = seed_typed(options.seed);
    settings.link = options.link;
    settings.panel = options.panel;
    return settings;
}

void take_script(BenchSettings& settings, const BenchOptions& options)
{
    if (options.script.empty()) {
        return;
    }
    const auto text = records::read_file(options.script);
    const auto script =
        records::reading(options.script, [&] { return virtual_bench::parse_script(text, settings.order); });
    settings.script = script.actions;
    settings.restart = script.restart;
}

/// A hand at the hose and at the unit: one key an action.
std::optional<std::string> action_of_key(const std::string& key)
{
    const std::pair<const char*, const char*> keys[] = {
        {"o", "open-to-air"}, {"p", "plug"}, {"i", "hold-insufflation"}, {"e", "hold-exsufflation"}, {"r", "release"},
        {"a", "automatic"},   {"s", "stop"}};
    for (const auto& [name, action] : keys) {
        if (key == name) {
            return action;
        }
    }
    return key.size() > 1 ? std::optional(key) : std::nullopt;
}

/// What a run asks for is done one after the other; a person's key counts at once.
void follow(VirtualBench& bench, AskedReader& asked, const BenchSettings& settings)
{
    for (const auto& line : asked.next()) {
        bench.follow(virtual_bench::parse_action(line, settings.order));
    }
}

void obey(VirtualBench& bench, const std::string& line, const BenchSettings& settings, Terminal& terminal)
{
    const auto action = action_of_key(line);
    if (!action) {
        terminal.say(
            "keys, each with Enter: o open to air, p plug, i hold insufflation, e hold exsufflation, r release, "
            "a automatic, s stop; or an action such as 'connect-preset night' or 'syringe 40'");
        return;
    }
    try {
        bench.act(virtual_bench::parse_action(*action, settings.order));
    } catch (const trace::InputError& error) {
        terminal.say(error.what());
    }
}

ExitStatus run(const BenchOptions& options)
{
    const EndsCleanly guarded;
    auto settings = settings_of(options);
    take_script(settings, options);
    std::optional<AskedReader> asked;
    VirtualBench bench(settings);
    if (options.follow) {
        asked.emplace(asked_file(options.panel));
        bench.act({Action::Kind::open_to_air, 0.0, {}, 0});
    }
    std::cout << bench.port() << std::endl;
    Terminal terminal;
    constexpr double tick_s = 0.05;
    std::string told;
    while (!interrupted()) {
        const auto line = terminal.typed(tick_s);
        if (line) {
            obey(bench, *line, settings, terminal);
        }
        if (asked) {
            follow(bench, *asked, settings);
        }
        const auto doing = bench.doing();
        if (doing != told) {
            told = doing;
            terminal.progress(doing);
        }
    }
    return ExitStatus::pass;
}

std::string list_of_faults()
{
    std::string list =
        "Faults, with the size they have without =SIZE; @3 in the third cycle only, @12.5s from that second on:\n";
    for (const auto& fault : virtual_bench::known_faults()) {
        const std::string size = fault.unit.empty() ? "" : session::number_text(fault.middle) + " " + fault.unit + "; ";
        list += "  " + fault.code + std::string(22 - std::min<std::size_t>(21, fault.code.size()), ' ') + size +
                fault.does + "\n";
    }
    return list;
}

} // namespace

void add_virtual_bench(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("virtual-bench", "a simulated unit and transducer on a pseudo-terminal");
    const auto options = std::make_shared<BenchOptions>();
    command->add_option("--order", options->order, "work order the unit is set up for")->type_name("FILE");
    command->add_option("--instrument", options->instrument, "instrument that is simulated")->type_name("FILE");
    command->add_option("--fault", options->faults, "something that is wrong; may stand several times; listed below")
        ->type_name("CODE[=SIZE][@CYCLE|@SECONDSs]");
    command->add_option("--seed", options->seed, "another seed, another unit of the same kind (1)")->type_name("N");
    auto* script = command->add_option("--script", options->script, "what is done at the bench")->type_name("FILE");
    command->add_option("--link", options->link, "symbolic link kept to the terminal")->type_name("PATH");
    auto* panel =
        command->add_option("--panel", options->panel, "file kept with what the front panel shows")->type_name("PATH");
    command
        ->add_flag("--follow", options->follow, "does what 'verify --panel PATH' asks for, when it asks; needs --panel")
        ->excludes(script)
        ->needs(panel);
    command->footer(list_of_faults);
    command->callback([&request, options] { request.act = [options] { return run(*options); }; });
}

} // namespace zeroline::console
