// Prints which findings each fault of the virtual bench raises: `confusion [SEEDS] [CODE...]`. The table of
// docs/diagnosis.md is what it prints with 10 seeds.

#include "tests/analysis/verification/played_run.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <set>

namespace zeroline::verification {
namespace {

std::string share(int count, int of) { return std::to_string(count) + "/" + std::to_string(of); }

struct Row {
    int named = 0;
    int runs = 0;
    std::map<std::string, int> raised; ///< cautions and criticals, and notes in brackets
    std::map<std::string, int> verdicts;

    void add(const ListedFault& fault, const Assessment& result)
    {
        ++runs;
        named += is_named(fault, result.findings) ? 1 : 0;
        std::set<std::string> codes;
        for (const auto& finding : result.findings)
            codes.insert(finding.severity == Severity::note ? "(" + finding.code + ")" : finding.code);
        for (const auto& code : codes)
            ++raised[code];
        ++verdicts[verdict_of(result)];
    }

    void print(const std::string& code, const std::string& size) const
    {
        std::string words, outcome;
        std::vector<std::pair<std::string, int>> sorted(raised.begin(), raised.end());
        std::stable_sort(sorted.begin(), sorted.end(),
                         [](const auto& a, const auto& b) { return a.second > b.second; });
        for (const auto& [name, count] : sorted)
            words += (words.empty() ? "" : ", ") + name + (count < runs ? " " + share(count, runs) : "");
        for (const auto& [name, count] : verdicts)
            outcome += (outcome.empty() ? "" : "; ") + name + (count < runs ? " " + share(count, runs) : "");
        std::printf("| %s | %s | %s | %s | %s |\n", code.c_str(), size.c_str(), share(named, runs).c_str(),
                    words.c_str(), outcome.c_str());
        std::fflush(stdout);
    }
};

void print_fault(const ListedFault& fault, int seeds)
{
    const auto& known = virtual_bench::known_faults();
    const auto at = std::find_if(known.begin(), known.end(), [&](const auto& k) { return k.code == fault.code; });
    if (at == known.end())
        return;
    std::set<double> done;
    for (const double size : {at->small, at->middle, at->large}) {
        if (!done.insert(size).second)
            continue;
        Row row;
        for (int seed = 1; seed <= seeds; ++seed) {
            const auto run = played(settings_with(fault.code, size, static_cast<std::uint64_t>(seed)));
            row.add(fault, assess(run.evidence()));
        }
        char text[40];
        std::snprintf(text, sizeof text, "%g %s", size, at->unit.c_str());
        row.print(fault.code, text);
    }
}

void print_healthy(int seeds)
{
    Row row;
    for (int seed = 1; seed <= seeds; ++seed) {
        auto settings = house_settings();
        settings.seed = static_cast<std::uint64_t>(seed);
        row.add({"healthy", {"none"}, {}}, assess(played(settings).evidence()));
    }
    row.print("healthy", "");
}

std::string words_of(const virtual_bench::BenchSettings& settings)
{
    const auto& preset = settings.order.presets.front();
    char text[160];
    std::snprintf(text, sizeof text, "%+g/%+g cmH2O, %g/%g/%g s, %s, %g Hz", preset.insufflation.pressure_cmH2O,
                  preset.exsufflation.pressure_cmH2O, preset.insufflation.duration_s, preset.exsufflation.duration_s,
                  preset.pause.duration_s, preset.flow == Flow::reduced ? "reduced" : "full",
                  settings.instrument.nominal_hz);
    return text;
}

void print_varied(int seeds, bool oscillation)
{
    Row row;
    for (int seed = 1; seed <= seeds; ++seed) {
        const auto settings = varied_settings(static_cast<std::uint64_t>(seed), oscillation);
        const auto result = assess(played(settings).evidence());
        row.add({"healthy", {"none"}, {}}, result);
        if (std::getenv("ZEROLINE_EVERY_CAUTION") != nullptr)
            for (const auto& finding : result.findings)
                if (finding.severity != Severity::note)
                    std::fprintf(stderr, "seed %d (%s): %s: %s\n", seed, words_of(settings).c_str(),
                                 finding.code.c_str(), finding.text.c_str());
    }
    row.print(oscillation ? "healthy, varied, oscillation prescribed" : "healthy, varied", "");
}

} // namespace
} // namespace zeroline::verification

int main(int count, char** words)
{
    using namespace zeroline::verification;
    const int seeds = count > 1 ? std::atoi(words[1]) : 10;
    const std::set<std::string> only(words + std::min(count, 2), words + count);
    std::puts("| fault | size | named | findings (notes in brackets) | verdict |\n| --- | --- | --- | --- | --- |");
    if (only.empty() || only.count("healthy"))
        print_healthy(10 * seeds);
    if (only.empty() || only.count("varied"))
        print_varied(30 * seeds, false);
    if (only.empty() || only.count("varied-oscillation"))
        print_varied(10 * seeds, true);
    for (const auto& fault : listed_faults())
        if (only.empty() || only.count(fault.code))
            print_fault(fault, seeds);
}
