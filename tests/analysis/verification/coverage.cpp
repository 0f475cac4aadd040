// Prints how often the stated intervals cover the truth: `coverage [TRACES] [RATE_HZ, 0: mixed] [SHAPE of the edges]`.
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
    study.rate_hz = count > 2 ? std::atof(words[2]) : study.rate_hz;
    study.shape = count > 3 ? words[3] : "";
    std::puts("| quantity | oscillation | traces | covered | rms error | median U | median U / (2 x rms error) |\n"
              "| --- | --- | --- | --- | --- | --- | --- |");
    print(study);
    study.oscillation = true;
    print(study);
}
