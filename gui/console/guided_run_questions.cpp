#include "gui/console/guided_run.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/session/number_text.hpp"
#include "gui/session/prescribed_settings.hpp"
#include "gui/session/run_steps.hpp"

namespace zeroline::console {

using verification::Displayed;
using verification::Preset;
using verification::Settings;
using verification::Shows;

namespace {

std::string in_one_line(const Settings& settings)
{
    const auto plain = [](const std::optional<double>& value) { return value ? session::number_text(*value) : "?"; };
    const bool positive = settings.insufflation_pressure.value_or(0.0) > 0.0;
    const auto pressures = (positive ? "+" : "") + plain(settings.insufflation_pressure) + " / " +
                           plain(settings.exsufflation_pressure) + " cmH2O";
    return !settings.pause_duration
               ? pressures
               : pressures + ", " + plain(settings.insufflation_duration) + " / " +
                     plain(settings.exsufflation_duration) + " / " + plain(settings.pause_duration) + " s";
}

bool means_no(const std::string& line) { return line.starts_with('n') || line.starts_with('N'); }

} // namespace

std::optional<std::string> GuidedRun::ask(const std::string& question)
{
    if (needed_now_) {
        return std::nullopt;
    }
    terminal_.chime();
    auto line = terminal_.ask(question, [this] { pump(); });
    // At the hand-back the unit is being given back already.
    needed_now_ = line == "b" && !run_;
    return needed_now_ ? std::nullopt : line;
}

bool GuidedRun::ask_yes(const std::string& question)
{
    const auto line = ask(question + " [Enter: yes, n: no]");
    return line && !means_no(*line);
}

std::optional<std::map<std::string, Settings>> GuidedRun::ask_settings(const std::string& when)
{
    const auto& order = inputs_.order.meaning;
    stated_ = false;
    if (!options_.panel.empty()) {
        return records::load_panel(options_.panel, order).set;
    }
    if (options_.yes) {
        return std::nullopt;
    }
    std::map<std::string, Settings> all;
    for (const auto& preset : order.presets) {
        const auto read = stated_ ? session::as_prescribed(preset) : ask_settings_of(preset, when, all.empty());
        if (!read) {
            return std::nullopt;
        }
        all[preset.name] = *read;
    }
    return all;
}

/// Asked until what was typed can be read; nothing where the run was ended instead.
template <typename Reading>
auto GuidedRun::ask_until(const std::string& question, Reading reading) -> std::optional<decltype(reading(question))>
{
    for (;;) {
        const auto line = ask(question);
        if (!line) {
            return std::nullopt;
        }
        try {
            return reading(*line);
        } catch (const trace::InputError& error) {
            terminal_.say(error.what());
        }
    }
}

/// Enter at the first preset states all of them as prescribed.
std::optional<Settings> GuidedRun::ask_settings_of(const Preset& preset, const std::string& when, bool first)
{
    const auto by_enter =
        first ? "Enter: all as prescribed, " + session::in_one_line(preset) + "; else " : std::string();
    auto read = ask_until("Settings " + when + ", preset '" + preset.name + "' [" + by_enter +
                              "type such as: +35/-40 1.5/1.5/2]:",
                          [&](const std::string& line) {
                              stated_ = first && line.empty();
                              return stated_ ? session::as_prescribed(preset) : settings_typed(line, "settings");
                          });
    return stated_ ? read : corrected(read);
}

/// What was typed stands there once more, until it is right.
std::optional<Settings> GuidedRun::corrected(std::optional<Settings> typed)
{
    for (bool right = false; typed && !right;) {
        typed = ask_until("  taken as " + in_one_line(*typed) + " [Enter: right; else type it again]:",
                          [&](const std::string& line) {
                              right = line.empty();
                              return right ? *typed : settings_typed(line, "settings");
                          });
    }
    return typed;
}

Displayed GuidedRun::ask_displayed(const Preset& preset)
{
    const Displayed nothing{preset.name, {}, {}, Shows::not_read};
    const auto read = ask_until(
        "What did the unit display in the long holds, preset '" + preset.name + "' [such as +40/-40; Enter: not read]:",
        [&](const std::string& line) {
            if (line.empty()) {
                return nothing;
            }
            const auto pair = pressures_typed(line, "displayed");
            return Displayed{preset.name, pair.insufflation_cmH2O, pair.exsufflation_cmH2O, Shows::live};
        });
    return read.value_or(nothing);
}

} // namespace zeroline::console
