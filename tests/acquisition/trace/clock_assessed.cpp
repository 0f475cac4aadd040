// The same trace assessed with this program's sample times, with arrival times as they are, and with the true times:
// prints the second table of docs/accuracy.md, section "Sample clock". Ends with status 1 where this clock makes
// durations more than 0.1 ms worse than the true times do.
//
//   clock_assessed [runs]

#include "acquisition/trace/calibration.hpp"
#include "analysis/verification/assessment.hpp"
#include "tests/acquisition/trace/simulated_arrivals.hpp"
#include "tests/analysis/signal/analytic.hpp"

#include <nlohmann/json.hpp>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>

namespace {

using zeroline::signal::PhaseKind;
using zeroline::signal::analytic::CleanPressure;
using zeroline::signal::analytic::Truth;
using zeroline::trace::RawTrace;
using zeroline::trace::Trace;
using zeroline::trace::testing::Arrivals;
using zeroline::trace::testing::Line;
using zeroline::verification::Assessment;
using zeroline::verification::WorkOrder;

constexpr double kNoise_cmH2O = 0.1;
constexpr double kEdge_s = 0.1;

/// Sums of squares and the largest.
struct Errors {
    double squares = 0.0, worst = 0.0;
    int n = 0;

    void add(double error)
    {
        squares += error * error;
        worst = std::fmax(worst, std::fabs(error));
        ++n;
    }
    [[nodiscard]] double rms() const { return n > 0 ? std::sqrt(squares / n) : std::nan(""); }
};

struct Row {
    Errors duration_s, rise_s, plateau_cmH2O;
    int phases = 0, found = 0;
};

WorkOrder prescribed()
{
    return zeroline::verification::parse_work_order(nlohmann::json::parse(R"({
        "schema": "zeroline/work-order/1", "work_order": "W", "occasion": "periodic",
        "unit": {"asset": "A", "serial": "S", "model": "invented"},
        "prescription": {"reference": "R", "presets": [{"name": "day", "insufflation": {"pressure": 40, "duration": 1.5},
            "exsufflation": {"pressure": -40, "duration": 1.5}, "pause": {"duration": 2}}]},
        "tolerances": {"basis": "invented", "approved_by": "nobody"}, "decision_rule": "simple", "cycles": 5})"));
}

CleanPressure played()
{
    zeroline::signal::analytic::CycleForm form;
    form.pause_s = 2.0;
    form.form.edge_s = kEdge_s;
    form.cycles = 11;
    return cycling(form);
}

RawTrace seen(const CleanPressure& pressure, const Arrivals& arrivals, std::uint64_t seed)
{
    std::mt19937_64 random(seed + 1000);
    std::normal_distribution<double> noise(0.0, kNoise_cmH2O);
    RawTrace raw;
    raw.moment_s = arrivals.arrival_s;
    raw.count = arrivals.index;
    raw.from_arrivals = true;
    for (const double time_s : arrivals.true_s) {
        raw.pressure.push_back(std::round(100.0 * (pressure.at(time_s) + noise(random))) / 100.0);
    }
    return raw;
}

/// The same readings with times that are taken for granted. Readings that arrived at once are set a nanosecond apart,
/// since times must increase.
Trace taken_at(RawTrace raw, const std::vector<double>& time_s)
{
    raw.from_arrivals = false;
    raw.count.clear();
    raw.moment_s.clear();
    double last_s = -std::numeric_limits<double>::infinity();
    for (const double t : time_s) {
        last_s = std::fmax(t, last_s + 1e-9);
        raw.moment_s.push_back(last_s);
    }
    return derive(std::move(raw), nullptr);
}

/// Compares one phase of a cycle with the segment that it is nearest to.
void compare(const std::optional<zeroline::signal::Phase>& phase, const CleanPressure& pressure,
             const std::vector<Truth>& truth, Row& row)
{
    if (!phase || phase->cut() || !phase->duration_s()) {
        return;
    }
    for (std::size_t i = 1; i + 1 < truth.size(); ++i) {
        if (pressure.segments()[i].kind != phase->kind || std::fabs(truth[i].onset_s - phase->start_s()) > 0.5) {
            continue;
        }
        ++row.found;
        row.duration_s.add(*phase->duration_s() - (truth[i + 1].onset_s - truth[i].onset_s));
        if (phase->plateau) {
            row.plateau_cmH2O.add(phase->plateau->value_cmH2O - truth[i].level_cmH2O);
        }
        if (phase->kind == PhaseKind::insufflation && phase->entering && phase->entering->time_10_90_s) {
            row.rise_s.add(*phase->entering->time_10_90_s - truth[i].time_10_90_s);
        }
    }
}

void add(const Trace& trace, const WorkOrder& order, const CleanPressure& pressure, const std::vector<Truth>& truth,
         Row& row)
{
    zeroline::verification::Evidence evidence;
    evidence.order = &order;
    evidence.trace = &trace;
    const Assessment assessment = assess(evidence);
    row.phases += 3 * 11;
    for (const auto& cycle : assessment.cycles) {
        compare(cycle.insufflation, pressure, truth, row);
        compare(cycle.exsufflation, pressure, truth, row);
        compare(cycle.pause, pressure, truth, row);
    }
}

void print(const char* trouble, const char* times, const Row& row)
{
    std::printf("| %s | %s | %.2f | %.2f | %.1f | %.3f | %d of %d |\n", trouble, times, 1e3 * row.duration_s.rms(),
                1e3 * row.duration_s.worst, 1e3 * row.rise_s.rms(), row.plateau_cmH2O.rms(), row.found, row.phases);
}

bool holds(const char* name, Line::Trouble trouble, int runs)
{
    const WorkOrder order = prescribed();
    const CleanPressure pressure = played();
    const auto truth = truth_of(pressure);
    zeroline::trace::Instrument instrument;
    instrument.nominal_hz = 250.0;
    instrument.clock_ppm = 100.0;
    Line line;
    line.trouble = trouble;
    std::array<Row, 3> rows;
    for (int run = 0; run < runs; ++run) {
        const auto seed = static_cast<std::uint64_t>(run) + 1;
        const Arrivals arrivals = arrivals_over(pressure.end_s(), line, seed);
        const RawTrace raw = seen(pressure, arrivals, seed);
        add(taken_at(raw, arrivals.arrival_s), order, pressure, truth, rows[0]);
        add(derive(raw, &instrument), order, pressure, truth, rows[1]);
        add(taken_at(raw, arrivals.true_s), order, pressure, truth, rows[2]);
    }
    print(name, "arrival times as they are", rows[0]);
    print(name, "this clock", rows[1]);
    print(name, "the true times", rows[2]);
    return rows[1].found == rows[2].found && rows[1].duration_s.rms() < rows[2].duration_s.rms() + 1e-4 &&
           rows[0].duration_s.rms() > 3.0 * rows[1].duration_s.rms();
}

} // namespace

int main(int argc, char** argv)
{
    const int runs = argc > 1 ? std::atoi(argv[1]) : 20;
    std::printf("| trouble | sample times | duration rms, ms | worst | rise time rms, ms | plateau rms, cmH2O | phases "
                "measured |\n"
                "|---|---|---|---|---|---|---|\n");
    bool all = holds("none", Line::Trouble::none, runs);
    all = holds("transfers +-2 ms", Line::Trouble::transfer_jitter, runs) && all;
    all = holds("stamps +-2 ms", Line::Trouble::stamp_jitter, runs) && all;
    all = holds("one-sided, mean 1 ms", Line::Trouble::one_sided_delay, runs) && all;
    return all ? 0 : 1;
}
