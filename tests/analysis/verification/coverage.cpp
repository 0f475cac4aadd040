// Prints how often the stated intervals cover the truth: `coverage [TRACES] [FIRST_SEED] [RATE_HZ, 0: mixed]
// [SHAPE of the edges]`.
// The table of docs/uncertainty.md is what it prints with 400 traces.

#include "tests/analysis/verification/coverage_study.hpp"

#include <cstdio>
#include <cstdlib>

namespace {

void print(const zeroline::verification::CoverageStudy& study)
{
    for (const auto& [name, row] : zeroline::verification::cover(study)) {
        std::printf("| %s | %s | %d | %.1f %% | %.3g | %.3g | %.2f |\n", name.c_str(), study.oscillation ? "yes" : "no",
                    row.traces, 100.0 * row.share(), row.rms_error(), row.median_uncertainty(), row.size());
    }
    std::fflush(stdout);
}

} // namespace

int main(int count, char** words)
{
    zeroline::verification::CoverageStudy study;
    study.traces = count > 1 ? std::atoi(words[1]) : study.traces;
    study.first_seed = count > 2 ? std::strtoull(words[2], nullptr, 10) : study.first_seed;
    study.rate_hz = count > 3 ? std::atof(words[3]) : study.rate_hz;
    study.shape = count > 4 ? words[4] : "";
    std::puts("| quantity | oscillation | traces | covered | rms error | median U | median U / (2 x rms error) |\n"
              "| --- | --- | --- | --- | --- | --- | --- |");
    print(study);
    study.oscillation = true;
    print(study);
}
