// Prints the Monte Carlo table of docs/accuracy.md, section "Sample clock".
#include "acquisition/trace/sample_clock.hpp"
#include "tests/acquisition/trace/simulated_arrivals.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

namespace {

using zeroline::trace::StatedRate;
using zeroline::trace::testing::Arrivals;
using zeroline::trace::testing::Line;

struct Outcome {
    std::vector<double> rms_ms;
    std::vector<double> rate_ppm;
};

double rms(const std::vector<double>& values)
{
    double squares = 0.0;
    for (const double v : values) {
        squares += v * v;
    }
    return std::sqrt(squares / static_cast<double>(values.size()));
}

double share(std::vector<double> values, double part)
{
    for (auto& v : values) {
        v = std::fabs(v);
    }
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1))];
}

void least_squares(const Arrivals& a, double& interval_s, std::vector<double>& time_s)
{
    double x = 0, y = 0, xx = 0, xy = 0;
    const double n = static_cast<double>(a.index.size());
    for (std::size_t i = 0; i < a.index.size(); ++i) {
        x += static_cast<double>(a.index[i]) / n;
        y += a.arrival_s[i] / n;
    }
    for (std::size_t i = 0; i < a.index.size(); ++i) {
        const double d = static_cast<double>(a.index[i]) - x;
        xx += d * d;
        xy += d * (a.arrival_s[i] - y);
    }
    interval_s = xy / xx;
    for (const auto k : a.index) {
        time_s.push_back(y + interval_s * (static_cast<double>(k) - x));
    }
}

/// The edge of the lower convex hull below the middle of the series.
void lower_envelope(const Arrivals& a, double& interval_s, std::vector<double>& time_s)
{
    std::vector<std::size_t> hull;
    const auto x = [&](std::size_t i) { return static_cast<double>(a.index[i]); };
    const auto slope = [&](std::size_t i, std::size_t j) { return (a.arrival_s[j] - a.arrival_s[i]) / (x(j) - x(i)); };
    for (std::size_t i = 0; i < a.index.size(); ++i) {
        while (hull.size() > 1 && slope(hull[hull.size() - 2], i) <= slope(hull[hull.size() - 2], hull.back())) {
            hull.pop_back();
        }
        hull.push_back(i);
    }
    std::size_t edge = 1;
    while (edge + 1 < hull.size() && hull[edge] < a.index.size() / 2) {
        ++edge;
    }
    interval_s = slope(hull[edge - 1], hull[edge]);
    for (std::size_t i = 0; i < a.index.size(); ++i) {
        time_s.push_back(a.arrival_s[hull[edge]] + interval_s * (x(i) - x(hull[edge])));
    }
}

enum class Way { raw, plain, envelope, ours, ours_stated, live };

void run_one(const Arrivals& a, Way way, double true_interval_s, Outcome& outcome)
{
    double interval_s = true_interval_s;
    std::vector<double> time_s;
    if (way == Way::raw) {
        time_s = a.arrival_s;
    } else if (way == Way::plain) {
        least_squares(a, interval_s, time_s);
    } else if (way == Way::envelope) {
        lower_envelope(a, interval_s, time_s);
    } else if (way == Way::live) {
        zeroline::trace::LiveClock clock(250.0);
        for (std::size_t i = 0; i < a.index.size(); ++i) {
            time_s.push_back(clock.push(a.arrival_s[i], a.index[i]));
        }
    } else {
        const auto stated = way == Way::ours_stated ? std::optional(StatedRate{250.0, 100.0}) : std::nullopt;
        const auto fit = zeroline::trace::fit_clock(a.arrival_s, a.index, stated);
        interval_s = fit->interval_s;
        for (const auto k : a.index) {
            time_s.push_back(fit->time_of(static_cast<double>(k)));
        }
    }
    outcome.rms_ms.push_back(1e3 * zeroline::trace::testing::rms_but_for_a_constant(time_s, a.true_s));
    outcome.rate_ppm.push_back(1e6 * (interval_s / true_interval_s - 1.0));
}

void print_row(const char* trouble, double duration_s, Way way, const char* name, const Outcome& o)
{
    std::printf("| %s | %g | %s | %.3f | %.3f | %.3f |", trouble, duration_s, name, rms(o.rms_ms),
                share(o.rms_ms, 0.95), share(o.rms_ms, 1.0));
    if (way == Way::raw || way == Way::live) {
        std::printf(" - | - |\n");
    } else {
        std::printf(" %.1f | %.1f |\n", rms(o.rate_ppm), share(o.rate_ppm, 1.0));
    }
}

void print_rows(const char* name, Line::Trouble trouble, double ppm, double duration_s, int runs)
{
    Line line;
    line.trouble = trouble;
    line.clock_ppm = ppm;
    const std::pair<Way, const char*> ways[] = {{Way::raw, "arrival times as they are"},
                                                {Way::plain, "plain least squares"},
                                                {Way::envelope, "lower envelope"},
                                                {Way::ours, "this clock, rate not stated"},
                                                {Way::ours_stated, "this clock, 250 Hz +-100 ppm stated"},
                                                {Way::live, "live, causal"}};
    std::vector<Outcome> outcomes(std::size(ways));
    for (int run = 0; run < runs; ++run) {
        const auto a = arrivals_over(duration_s, line, static_cast<std::uint64_t>(run) + 1);
        for (std::size_t w = 0; w < std::size(ways); ++w) {
            run_one(a, ways[w].first, (1.0 + 1e-6 * ppm) / line.nominal_hz, outcomes[w]);
        }
    }
    for (std::size_t w = 0; w < std::size(ways); ++w) {
        print_row(name, duration_s, ways[w].first, ways[w].second, outcomes[w]);
    }
}

} // namespace

int main(int argc, char** argv)
{
    const int runs = argc > 1 ? std::atoi(argv[1]) : 200;
    const double ppm = argc > 2 ? std::atof(argv[2]) : 80.0;
    std::printf("| trouble | seconds | sample times | rms, ms | 95 %% within | worst | rate rms, ppm | worst |\n"
                "|---|---|---|---|---|---|---|---|\n");
    for (const double duration_s : {5.0, 60.0}) {
        print_rows("none", Line::Trouble::none, ppm, duration_s, runs);
        print_rows("transfers +-2 ms", Line::Trouble::transfer_jitter, ppm, duration_s, runs);
        print_rows("stamps +-2 ms", Line::Trouble::stamp_jitter, ppm, duration_s, runs);
        print_rows("one-sided, mean 1 ms", Line::Trouble::one_sided_delay, ppm, duration_s, runs);
    }
}
