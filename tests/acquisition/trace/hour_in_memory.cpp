// Loads an hour at 1 kHz and says how much memory the process took at its most, beside the size of the file. Fails
// where that is twice the file or more: a reader that keeps the text, or copies its vectors, takes that much.
#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/temporary_folder.hpp"

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <string>
#include <sys/resource.h>

namespace {

constexpr int kRows = 3'600'000;

void write_hour(const std::filesystem::path& path)
{
    std::FILE* file = std::fopen(path.c_str(), "wb");
    std::fputs("time_s,pressure_cmH2O\n", file);
    for (int i = 0; i < kRows; ++i) {
        std::fprintf(file, "%d.%03d,%d.%02d\n", i / 1000, i % 1000, i / 1500 % 2 == 0 ? 40 : -40, i % 97);
    }
    std::fclose(file);
}

double most_memory_MB()
{
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

} // namespace

int main()
{
    const zeroline::TemporaryFolder folder;
    const auto path = folder / "hour.csv";
    write_hour(path);
    const double before_MB = most_memory_MB();
    const double file_MB = static_cast<double>(std::filesystem::file_size(path)) / 1048576.0;
    const auto began = std::chrono::steady_clock::now();
    const auto trace = zeroline::trace::derive(zeroline::trace::load_trace_csv(path), nullptr);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
    const double peak_MB = most_memory_MB();
    std::printf("file %.1f MB, %zu samples, loaded in %.2f s, memory %.1f MB before and %.1f MB at most\n", file_MB,
                trace.size(), took.count(), before_MB, peak_MB);
    return trace.size() == kRows && peak_MB - before_MB < 2.0 * file_MB ? 0 : 1;
}
