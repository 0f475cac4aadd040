#include "tests/analysis/signal/accuracy_study.hpp"

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <thread>
#include <vector>

// Prints the accuracy table of docs/accuracy.md: accuracy_table [sets of parameters] [draws a set] [part of a row's
// name] [other seeds: a number]. Ends with 1 where a row of the main region breaks what it must keep; what else is not
// kept, and every trace in which something is grossly wrong, is said on standard error. Rows are drawn on all
// processors; each has its own seed, so that how many there are changes nothing.

namespace {

using namespace zeroline::signal::analytic;

constexpr std::uint64_t kSeed = 20240607;

struct Job {
    Row row;
    Comparison all;
    std::string gross;
};

void draw(Job& job, int sets, int draws, std::uint64_t seed)
{
    job.all = compare(job.row, sets, draws, seed, [&job](const Draw& one) {
        if (const std::string wrong = gross_errors(one.alone); !wrong.empty()) {
            job.gross += job.row.name + ", set " + std::to_string(one.set) + ", draw " + std::to_string(one.draw) +
                         ": " + wrong + "\n";
        }
    });
}

void draw_all(std::vector<Job>& jobs, int sets, int draws, std::uint64_t seed)
{
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t k = next++; k < jobs.size(); k = next++) {
            draw(jobs[k], sets, draws, seed);
        }
    };
    std::vector<std::jthread> others;
    for (unsigned k = 1; k < std::thread::hardware_concurrency(); ++k) {
        others.emplace_back(work);
    }
    work();
}

// Whether the row is kept.
bool print(const Job& job)
{
    const Comparison& all = job.all;
    const Verdict verdict = judged(job.row, all, 0.0);
    std::printf(
        "| %s | %ld | %.3f (%.3f) | %.3f (%.3f) | %.3f (%.3f) | %.2f | %.3f (%.3f) | %.1f, %.1f | %.2f | %s |\n",
        job.row.name.c_str(), all.draws, all.plateau.rms(), all.plain_plateau.rms(), all.residual.rms(),
        all.plain_residual.rms(), all.duration.rms() * 1e3, all.plain_duration.rms() * 1e3, all.duration.largest * 1e3,
        all.mid_duration.rms() * 1e3, all.plain_mid_duration.rms() * 1e3, all.transition_share.rms() * 100.0,
        all.transition_share.largest * 100.0, all.entry_share.largest, verdict.broken.empty() ? "yes" : "no");
    for (const std::string& what : verdict.broken) {
        std::fprintf(stderr, "%s: %s\n", job.row.name.c_str(), what.c_str());
    }
    std::fputs(job.gross.c_str(), stderr);
    return verdict.broken.empty();
}

} // namespace

int main(int argc, char** argv)
{
    const int sets = argc > 1 ? std::atoi(argv[1]) : 200;
    const int draws = argc > 2 ? std::atoi(argv[2]) : 10;
    const std::string filter = argc > 3 ? argv[3] : "";
    const std::uint64_t seed = kSeed + (argc > 4 ? std::strtoull(argv[4], nullptr, 10) : 0);
    std::vector<Job> jobs;
    for (Row& row : accuracy_rows()) {
        if (row.name.find(filter) != std::string::npos) {
            jobs.push_back({std::move(row), {}, {}});
        }
    }
    draw_all(jobs, sets, draws, seed);
    std::printf(
        "| edges | draws | plateau, cmH2O | residual, cmH2O | duration, ms | largest | mid-level duration, ms | "
        "10-90 %% time, rms and largest, %% | return to zero | kept |\n|---|---|---|---|---|---|---|---|---|---|\n");
    int broken = 0;
    for (const Job& job : jobs) {
        broken += static_cast<int>(!print(job) && job.row.main);
    }
    return broken > 0 ? 1 : 0;
}
