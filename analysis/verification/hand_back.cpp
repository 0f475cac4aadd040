#include "analysis/verification/hand_back.hpp"

#include <functional>

namespace zeroline::verification {

namespace {

/// Compares what was left with what was found and with what is prescribed, key by key.
class SettingsComparison {
public:
    SettingsComparison(const Settings& left, const Settings* found, const Preset* prescribed)
        : left_(left), found_(found), prescribed_(prescribed)
    {
    }

    std::vector<std::string> otherwise()
    {
        compare("insufflation pressure", &Settings::insufflation_pressure,
                [](const Preset& p) { return std::optional(p.insufflation.pressure_cmH2O); });
        compare("insufflation duration", &Settings::insufflation_duration,
                [](const Preset& p) { return std::optional(p.insufflation.duration_s); });
        compare("exsufflation pressure", &Settings::exsufflation_pressure,
                [](const Preset& p) { return std::optional(p.exsufflation.pressure_cmH2O); });
        compare("exsufflation duration", &Settings::exsufflation_duration,
                [](const Preset& p) { return std::optional(p.exsufflation.duration_s); });
        compare("pause duration", &Settings::pause_duration,
                [](const Preset& p) { return std::optional(p.pause.duration_s); });
        compare("pause pressure", &Settings::pause_pressure,
                [](const Preset& p) { return std::optional(p.pause.pressure_cmH2O); });
        compare("flow", &Settings::flow, [](const Preset& p) { return p.flow; });
        compare("trigger", &Settings::trigger_on, [](const Preset& p) { return p.trigger_on; });
        compare("oscillation", &Settings::oscillation_on,
                [](const Preset& p) { return std::optional(p.oscillation.has_value()); });
        compare("alarms", &Settings::alarms_on, [](const Preset&) { return std::optional(true); });
        return std::move(otherwise_);
    }

private:
    template <class T, class Prescribed>
    void compare(const char* name, std::optional<T> Settings::*key, Prescribed prescribed)
    {
        const auto& left = left_.*key;
        const auto& found = found_ != nullptr ? found_->*key : left_.*key;
        const bool as_prescribed = prescribed_ != nullptr && left == prescribed(*prescribed_);
        // A key that was found and not left written down was not read back.
        if (left != found && !as_prescribed) {
            otherwise_.emplace_back(name);
        }
    }

    const Settings& left_;
    const Settings* found_;
    const Preset* prescribed_;
    std::vector<std::string> otherwise_;
};

std::string joined(const std::vector<std::string>& words)
{
    std::string out;
    for (const auto& word : words) {
        out += (out.empty() ? "" : ", ") + word;
    }
    return out;
}

void compare_presets(const Evidence& evidence, std::vector<Reason>& reasons)
{
    const auto& run = *evidence.run;
    for (const auto& [name, left] : *run.settings_left) {
        const auto it = run.settings_found->find(name);
        const auto* found = it == run.settings_found->end() ? nullptr : &it->second;
        const auto otherwise = SettingsComparison(left, found, evidence.order->preset(name)).otherwise();
        if (!otherwise.empty()) {
            reasons.push_back({"left-otherwise", "Preset " + name + " was left neither as found nor as prescribed: " +
                                                     joined(otherwise) + "."});
        }
    }
    for (const auto& [name, found] : *run.settings_found) {
        if (run.settings_left->count(name) == 0) {
            reasons.push_back(
                {"left-otherwise", "Preset " + name + " was found set, and nobody wrote down how it was left."});
        }
    }
}

} // namespace

std::vector<Reason> hand_back_reasons(const Evidence& evidence)
{
    std::vector<Reason> reasons;
    if (evidence.run == nullptr) {
        return reasons;
    }
    if (evidence.run->restored && !*evidence.run->restored) {
        reasons.push_back({"not-restored", "The unit was not confirmed as given back as it must be."});
    }
    if (evidence.run->settings_found && evidence.run->settings_left) {
        compare_presets(evidence, reasons);
    }
    return reasons;
}

} // namespace zeroline::verification
