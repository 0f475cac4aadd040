#include "tests/analysis/signal/accuracy_study.hpp"

#include <cstdio>
#include <cstdlib>
#include <string>

// Prints the accuracy table of docs/accuracy.md: accuracy_table [sets of parameters] [draws a set] [part of a row's
// name]. Ends with 1 where a row of the main region breaks what it must keep; what
// else is not kept is said on standard error, and in the gaps of docs/method.md.

int main(int argc, char** argv)
{
    using namespace zeroline::signal::analytic;
    const int sets = argc > 1 ? std::atoi(argv[1]) : 200;
    const int draws = argc > 2 ? std::atoi(argv[2]) : 10;
    const std::string filter = argc > 3 ? argv[3] : "";
    std::printf(
        "| edges | draws | plateau, cmH2O | residual, cmH2O | duration, ms | largest | mid-level duration, ms | "
        "10-90 %% time, rms and largest, %% | return to zero | kept |\n|---|---|---|---|---|---|---|---|---|---|\n");
    int broken = 0;
    for (const Row& row : accuracy_rows()) {
        if (row.name.find(filter) == std::string::npos) {
            continue;
        }
        const Comparison all = compare(row, sets, draws, 20240607);
        const Verdict verdict = judged(row, all, 0.0);
        std::printf(
            "| %s | %ld | %.3f (%.3f) | %.3f (%.3f) | %.3f (%.3f) | %.2f | %.3f (%.3f) | %.1f, %.1f | %.2f | %s |\n",
            row.name.c_str(), all.draws, all.plateau.rms(), all.plain_plateau.rms(), all.residual.rms(),
            all.plain_residual.rms(), all.duration.rms() * 1e3, all.plain_duration.rms() * 1e3,
            all.duration.largest * 1e3, all.mid_duration.rms() * 1e3, all.plain_mid_duration.rms() * 1e3,
            all.transition_share.rms() * 100.0, all.transition_share.largest * 100.0, all.entry_share.largest,
            verdict.broken.empty() ? "yes" : "no");
        std::fflush(stdout);
        for (const std::string& what : verdict.broken) {
            std::fprintf(stderr, "%s: %s\n", row.name.c_str(), what.c_str());
        }
        broken += static_cast<int>(row.main && !verdict.broken.empty());
    }
    return broken > 0 ? 1 : 0;
}
