#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace zeroline::verification {

namespace {

/// " (preset day)", or nothing where the order has one preset only; a ladder's with what was set.
std::string of_preset(const FindingBasis& basis, const Group& group)
{
    std::string words = basis.order.presets.size() > 1 ? " (preset " + group.preset + ")" : "";
    return group.ladder ? words + " at " + in_words(group.set.insufflation.pressure_cmH2O) + "/" +
                              in_words(group.set.exsufflation.pressure_cmH2O) + " cmH2O"
                        : words;
}

} // namespace

Finding finding(const std::string& code, Severity severity, const Wording& words)
{
    Finding made;
    made.code = code;
    made.severity = severity;
    made.text = "Looks like " + words.what + " because " + words.why + ". Try " + words.attempt + ".";
    return made;
}

CycleIndices::CycleIndices(const std::vector<const Cycle*>& cycles)
{
    for (const auto* cycle : cycles)
        indices.push_back(cycle->index);
}

CycleIndices::CycleIndices(const std::vector<Value>& values)
{
    for (const auto& value : values)
        indices.push_back(value.cycle->index);
}

void name_cycles(Finding& finding, const CycleIndices& cycles)
{
    finding.cycles.insert(finding.cycles.end(), cycles.indices.begin(), cycles.indices.end());
    std::sort(finding.cycles.begin(), finding.cycles.end());
    finding.cycles.erase(std::unique(finding.cycles.begin(), finding.cycles.end()), finding.cycles.end());
}

Finding finding(const FindingBasis& basis, const Group& group, const std::string& code, Severity severity,
                Wording words, std::map<std::string, double> figures, const CycleIndices& cycles)
{
    words.what += of_preset(basis, group);
    auto made = finding(code, severity, words);
    made.preset = group.preset;
    made.figures = std::move(figures);
    name_cycles(made, cycles);
    return made;
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

} // namespace zeroline::verification
