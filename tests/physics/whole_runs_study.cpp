// Whole assessments of simulated units (docs/physics.md):
//
//   whole_runs_study lung [RUNS]       somebody on the hose, all confirmed: found, passed, blamed, critical, asked
//   whole_runs_study healthy [RUNS]    healthy units: false alarms
//   whole_runs_study scale [RUNS]      0.4 to 1.42 times what is set, with displays that agree; RUNS a scale
//
// A further number is the first seed. Every run that is not as wanted is printed.

#include "tests/physics/whole_runs.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace {

using namespace zeroline::physics_study;

struct Tally {
    int runs = 0, found = 0, passed = 0, blamed = 0, critical = 0, asked = 0;

    void count(const Outcome& outcome)
    {
        ++runs;
        found += outcome.found();
        passed += outcome.passed();
        blamed += outcome.blamed();
        critical += outcome.result.critical;
        asked += outcome.raised("soft-hose-end");
    }

    void print() const
    {
        std::printf("\n| runs | found | PASS | blamed on the unit | critical | asked |\n"
                    "| --- | --- | --- | --- | --- | --- |\n| %d | %d | %d | %d | %d | %d |\n",
                    runs, found, passed, blamed, critical, asked);
    }
};

void try_lungs(int runs, unsigned first)
{
    Tally tally;
    for (unsigned i = 0; i < static_cast<unsigned>(runs); ++i) {
        const Outcome outcome = run_with_lung(first + i);
        tally.count(outcome);
        if (!outcome.found() || outcome.passed() || outcome.blamed())
            std::printf("%s\n", outcome.words().c_str());
    }
    tally.print();
}

bool alarms(const Outcome& outcome)
{
    for (const auto& finding : outcome.result.findings)
        if (finding.severity != zeroline::verification::Severity::note)
            return true;
    return !outcome.passed() || outcome.result.critical;
}

void try_healthy(int runs, unsigned first)
{
    Tally tally;
    int alarmed = 0;
    for (unsigned i = 0; i < static_cast<unsigned>(runs); ++i) {
        const Outcome outcome = run_healthy(first + i);
        tally.count(outcome);
        if (!alarms(outcome))
            continue;
        ++alarmed;
        std::printf("%s\n", outcome.words().c_str());
    }
    tally.print();
    std::printf("\nfalse alarms (no pass, or a caution): %d of %d\n", alarmed, runs);
}

void try_scales(int runs, unsigned first)
{
    std::printf(
        "| scale | pass | fail | incomplete | critical | unit-mismatch |\n| --- | --- | --- | --- | --- | --- |\n");
    for (int percent = 40; percent <= 142; percent += 6) {
        int passed = 0, blamed = 0, critical = 0, mismatch = 0;
        for (unsigned i = 0; i < static_cast<unsigned>(runs); ++i) {
            const Outcome outcome = run_scaled(percent / 100.0, first + i);
            passed += outcome.passed();
            blamed += outcome.blamed();
            critical += outcome.result.critical;
            mismatch += outcome.raised("unit-mismatch");
        }
        std::printf("| %.2f | %d | %d | %d | %d | %d |\n", percent / 100.0, passed, blamed, runs - passed - blamed,
                    critical, mismatch);
    }
}

} // namespace

int main(int count, char** words)
{
    const std::string what = count > 1 ? words[1] : "";
    const int runs = count > 2 ? std::atoi(words[2]) : 0;
    const auto first = static_cast<unsigned>(count > 3 ? std::atoi(words[3]) : 1);
    if (what == "lung")
        try_lungs(runs > 0 ? runs : 40, first);
    else if (what == "healthy")
        try_healthy(runs > 0 ? runs : 200, first);
    else if (what == "scale")
        try_scales(runs > 0 ? runs : 3, first);
    else
        return std::fprintf(stderr, "whole_runs_study lung|healthy|scale [RUNS [FIRST_SEED]]\n"), 2;
}
