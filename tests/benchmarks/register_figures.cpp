// How long the register's lists take: median and 99th percentile of many calls, a line each, in milliseconds; the time
// that went by, and the processor time of this program, which says more on a busy machine.
// usage: register_figures FILE [VERIFICATIONS]
// Makes the register where FILE is not there: each unit has 20 verifications a year apart, each with four figures.

#include "gui/register/schema.hpp"
#include "gui/register/unit_drift.hpp"
#include "gui/register/unit_register.hpp"
#include "gui/register/unit_standing.hpp"
#include "tests/gui/register/made_up_entry.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <random>

namespace {

namespace reg = zeroline::unit_register;

constexpr int kOfAUnit = 20;
constexpr int kCalls = 300;

reg::Entry entry_of(int i)
{
    const int unit = i / kOfAUnit, visit = i % kOfAUnit;
    char day[16];
    (void)std::snprintf(day, sizeof day, "%04d-%02d-%02d", 2007 + visit, 1 + unit % 12, 1 + unit % 28);
    auto entry =
        reg::made_up("n" + std::to_string(i), "RC-" + std::to_string(10000 + unit), std::string(day) + "T09:00:00Z");
    (void)std::snprintf(day, sizeof day, "%04d-%02d-%02d", 2008 + visit, 1 + unit % 12, 1 + unit % 28);
    entry.verification["next_due"] = day;
    const auto figure = entry.figures[0];
    entry.figures.clear();
    for (const auto* measurand :
         {"insufflation-pressure", "exsufflation-pressure", "insufflation-duration", "exsufflation-duration"}) {
        entry.figures.push_back(figure);
        entry.figures.back().update({{"place", entry.figures.size() - 1}, {"measurand", measurand}});
        entry.figures.back()["mean"] = 40.0 + 0.01 * (i % 37) + 0.02 * visit;
    }
    return entry;
}

void put(const reg::Database& database, const reg::Entry& entry, int i)
{
    if (i % kOfAUnit == 0) {
        database.insert("unit", entry.unit);
    }
    if (i == 0) {
        database.insert("instrument", entry.instrument);
    }
    database.insert("verification", entry.verification);
    for (const auto& figure : entry.figures) {
        database.insert("figure", figure);
    }
    database.insert("event", {{"number", i + 1},
                              {"time", entry.verification.at("signed")},
                              {"kind", "record"},
                              {"record_number", entry.record_number()},
                              {"body", reg::body_of(entry)},
                              {"before_sha256", ""},
                              {"sha256", std::to_string(i)},
                              {"public_key", ""},
                              {"signature", ""}});
}

void make(const std::string& file, int verifications)
{
    const auto database = reg::Database::open(file);
    reg::migrate(database, reg::moment_now());
    database.in_one_step([&] {
        for (int i = 0; i < verifications; ++i) {
            put(database, entry_of(i), i);
        }
        reg::keep_every_standing(database);
    });
}

double cpu_ms()
{
    constexpr double kMilli = 1e3, kNanoInMilli = 1e-6;
    timespec now{};
    (void)clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return kMilli * static_cast<double>(now.tv_sec) + kNanoInMilli * static_cast<double>(now.tv_nsec);
}

/// Sorts them.
void print_middle_and_end(const char* what, std::vector<double>& times_ms)
{
    std::sort(times_ms.begin(), times_ms.end());
    std::printf("  %s median %7.2f  99 %% %7.2f", what, times_ms[times_ms.size() / 2],
                times_ms[times_ms.size() * 99 / 100]);
}

void measure(const char* what, int calls, const std::function<std::size_t()>& call)
{
    std::vector<double> wall_ms, used_ms;
    std::size_t rows = 0;
    for (int i = 0; i < calls; ++i) {
        const auto began = std::chrono::steady_clock::now();
        const double before_ms = cpu_ms();
        rows += call();
        used_ms.push_back(cpu_ms() - before_ms);
        wall_ms.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count());
    }
    std::printf("%-42s", what);
    print_middle_and_end("wall", wall_ms);
    print_middle_and_end("cpu", used_ms);
    std::printf("  rows %zu\n", rows / static_cast<std::size_t>(calls));
}

} // namespace

int main(int argc, char** argv)
{
    if (argc < 2) {
        return 2;
    }
    const std::string file = argv[1];
    const int verifications = argc > 2 ? std::atoi(argv[2]) : 100'000;
    if (!std::filesystem::exists(file)) {
        make(file, verifications);
    }
    std::mt19937 random(15);
    const auto any_unit = [&] {
        return "RC-" + std::to_string(10000 + static_cast<int>(random() % static_cast<unsigned>(
                                                                              std::max(1, verifications / kOfAUnit))));
    };
    measure("open", 20, [&] { return reg::UnitRegister::open(file).places().size(); });
    const auto units = reg::UnitRegister::open(file);
    measure("due list, the next 30 days, whole", 60, [&] { return units.due("2027-06-01", "2027-07-01").size(); });
    measure("due list, a page of 100", 60, [&] { return units.due("2027-06-01", "2027-07-01", {"", 0, 100}).size(); });
    measure("units, a page of 100", kCalls, [&] { return units.units({"", 0, 100}).size(); });
    measure("search for a record or an order, none", kCalls, [&] {
        return units.units({"zz" + std::to_string(random() % 1000), 0, 100}).size();
    });
    measure("search, a page of 100", kCalls, [&] {
        return units.units({std::to_string(random() % 1000), 0, 100}).size();
    });
    measure("one unit: verifications, figures, drift", kCalls, [&] {
        const auto asset = any_unit();
        return units.history(asset).size() + reg::drift_of(units.figures_of(asset)).quantities.size();
    });
    return 0;
}
