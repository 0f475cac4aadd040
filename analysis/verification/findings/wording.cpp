#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace zeroline::verification {

Finding finding(const std::string& code, Severity severity, const Wording& words)
{
    Finding made;
    made.code = code;
    made.severity = severity;
    made.text = "Looks like " + words.what + " because " + words.why + ". Try " + words.attempt + ".";
    return made;
}

void name_cycles(Finding& finding, const std::vector<int>& indices)
{
    finding.cycles.insert(finding.cycles.end(), indices.begin(), indices.end());
    std::sort(finding.cycles.begin(), finding.cycles.end());
    finding.cycles.erase(std::unique(finding.cycles.begin(), finding.cycles.end()), finding.cycles.end());
}

void name_cycles(Finding& finding, const std::vector<const Cycle*>& cycles)
{
    std::vector<int> indices;
    for (const auto* cycle : cycles)
        indices.push_back(cycle->index);
    name_cycles(finding, indices);
}

void name_cycles(Finding& finding, const std::vector<Value>& values)
{
    std::vector<const Cycle*> cycles;
    for (const auto& value : values)
        cycles.push_back(value.cycle);
    name_cycles(finding, cycles);
}

std::string in_words(double value, int decimals)
{
    if (!std::isfinite(value))
        return "unknown";
    std::array<char, 400> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, decimals).ptr;
    std::string number(text.data(), end);
    if (number.find('.') != std::string::npos) {
        number.erase(number.find_last_not_of('0') + 1);
        if (number.back() == '.')
            number.pop_back();
    }
    return number == "-0" ? "0" : number;
}

std::string counted(std::size_t count, const std::string& noun)
{
    return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

std::string of_preset(const Look& look, const Group& group)
{
    std::string words = look.order.presets.size() > 1 ? " (preset " + group.preset + ")" : "";
    return group.ladder ? words + " at " + in_words(group.set.insufflation.pressure_cmH2O) + "/" +
                              in_words(group.set.exsufflation.pressure_cmH2O) + " cmH2O"
                        : words;
}

} // namespace zeroline::verification
