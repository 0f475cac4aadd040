#include "tests/analysis/signal/accuracy_study.hpp"

#include <cstdio>
#include <cstdlib>
#include <string>

// Prints the accuracy table of docs/accuracy.md: accuracy_table [draws] [filter]

namespace {

using namespace zeroline::signal::analytic;

constexpr Shape kShapes[] = {Shape::exponential,   Shape::ramp,      Shape::second_order,
                             Shape::raised_cosine, Shape::two_poles, Shape::gaussian};
bool round_durations = false;

constexpr double kRates[] = {100.0, 250.0, 1000.0};

std::string number(double value)
{
    char text[32];
    std::snprintf(text, sizeof text, "%g", value);
    return text;
}

Case with(const std::string& name, CycleForm form, double rate)
{
    Case one;
    if (!round_durations) { // no whole numbers of samples: what sampling does to both ends does not cancel
        form.insufflation_s += 0.00437;
        form.exsufflation_s -= 0.00291;
        form.pause_s += form.pause_s > 0.0 ? 0.00173 : 0.0;
    }
    one.form = form;
    one.twin = form;
    one.rate_hz = rate;
    one.name = name + ", " + number(rate) + " Hz";
    return one;
}

CycleForm twin_of(const CycleForm& base) { return with("", base, 100.0).twin; }

std::vector<Case> demanded()
{
    std::vector<Case> cases;
    for (const double rate : kRates) {
        for (const Shape shape : kShapes) {
            for (const double edge_s : {0.08, 0.15}) {
                for (const double pressure : {40.0, 70.0}) {
                    CycleForm form;
                    form.form = {shape, edge_s, 0.7};
                    form.insufflation_cmH2O = pressure;
                    form.exsufflation_cmH2O = -pressure;
                    cases.push_back(with(std::string("D ") + name_of(shape) + " " + number(edge_s * 1e3) + " ms +-" +
                                             number(pressure),
                                         form, rate));
                }
            }
        }
    }
    return cases;
}

std::vector<Case> elsewhere()
{
    std::vector<Case> cases;
    for (const double rate : kRates) {
        for (const Shape shape : kShapes) {
            for (const double edge_s : {0.02, 0.05, 0.3, 0.8}) {
                for (const double pressure : {5.0, 15.0, 40.0}) {
                    CycleForm form;
                    form.form = {shape, edge_s, 0.7};
                    form.insufflation_cmH2O = pressure;
                    form.exsufflation_cmH2O = -pressure;
                    form.insufflation_s = form.exsufflation_s = edge_s > 0.5 ? 2.5 : 1.5;
                    form.pause_s = edge_s > 0.5 ? 2.5 : 1.0;
                    cases.push_back(with(std::string("E ") + name_of(shape) + " " + number(edge_s * 1e3) + " ms +-" +
                                             number(pressure),
                                         form, rate));
                }
            }
        }
    }
    return cases;
}

void add_troubles(std::vector<Case>& cases, double rate, Shape shape, double edge_s, double pressure)
{
    CycleForm base;
    base.form = {shape, edge_s, 0.7};
    base.insufflation_cmH2O = pressure;
    base.exsufflation_cmH2O = -pressure;
    const std::string name = std::string(name_of(shape)) + " " + number(edge_s * 1e3) + " ms +-" + number(pressure);
    CycleForm form = base;
    if (shape == Shape::second_order) {
        form.form.damping = 0.4037;
        cases.push_back(with("T ringing 25 %, " + name, form, rate));
        cases.back().twin = twin_of(base);
        form = base;
    }
    form.rest_cmH2O = 3.0;
    cases.push_back(with("T residual 3, " + name, form, rate));
    form = base;
    cases.push_back(with("T 12 spikes, " + name, form, rate));
    cases.back().trouble.spikes = 12;
    form.pause_s = 0.0;
    cases.push_back(with("T no pause, " + name, form, rate));
    form = base;
    form.insufflation_s = form.exsufflation_s = form.pause_s = 0.5;
    cases.push_back(with("T phases of 0.5 s, " + name, form, rate));
    for (const double hz : {1.0, 2.3, 5.0, 11.0, 20.0}) {
        form = base;
        form.oscillation_hz = hz;
        form.oscillation_cmH2O = std::min(10.0, 0.25 * pressure);
        cases.push_back(with("T oscillation " + number(hz) + " Hz, " + name, form, rate));
        cases.back().twin = twin_of(base);
    }
}

std::vector<Case> troubled()
{
    std::vector<Case> cases;
    for (const double rate : kRates) {
        for (const Shape shape : kShapes) {
            for (const double edge_s : {0.03, 0.1, 0.3}) {
                for (const double pressure : {10.0, 40.0}) {
                    add_troubles(cases, rate, shape, edge_s, pressure);
                }
            }
        }
    }
    return cases;
}

const char* judged(double ours, double plain, double more) { return ours <= 1.5 * plain + more ? " " : "*"; }

void print(const Case& one, int draws)
{
    const Comparison all = compare(one, draws, 20240607);
    const double limit = one.rate_hz < 200.0 ? 1.1e-3 : (one.rate_hz < 500.0 ? 0.4e-3 : 0.25e-3);
    const auto over = [&](const Errors& errors) { return errors.rms() > limit || errors.largest > 4.0 * limit; };
    if (one.name[0] == 'D' && (over(all.insufflation) || over(all.exsufflation) || over(all.pause))) {
        std::printf("#");
    }
    std::printf("%-62s n%3ld", one.name.c_str(), all.wrong_phases);
    std::printf(" | P %.3f/%.3f%s", all.plateau.rms(), all.plain_plateau.rms(),
                judged(all.plateau.rms(), all.plain_plateau.rms(), 0.01));
    std::printf(" R %.3f/%.3f%s", all.residual.rms(), all.plain_residual.rms(),
                judged(all.residual.rms(), all.plain_residual.rms(), 0.01));
    const auto duration = [](const char* name, const Errors& ours, const Errors& plain) {
        std::printf(" %s %.3f(%.2f)/%.3f%s", name, ours.rms() * 1e3, ours.largest * 1e3, plain.rms() * 1e3,
                    judged(ours.rms(), plain.rms(), 1e-4));
    };
    duration("I", all.insufflation, all.plain_insufflation);
    duration("E", all.exsufflation, all.plain_exsufflation);
    duration("Z", all.pause, all.plain_pause);
    duration("M", all.mid_duration, all.plain_mid_duration);
    std::printf(" | T %.1f(%.1f)/%.1f%%", 100 * all.transition_share.rms(), 100 * all.transition_share.largest,
                100 * all.plain_transition_share.rms());
    std::printf(" B %.1f(%.1f)", all.entry.rms() * 1e3, all.entry.largest * 1e3);
    std::printf(" onset bias %.2f\n", all.worst_onset.mean() * 1e3);
}

} // namespace

int main(int argc, char** argv)
{
    const int draws = argc > 1 ? std::atoi(argv[1]) : 2000;
    const std::string filter = argc > 2 ? argv[2] : "";
    round_durations = argc > 3;
    for (const auto& cases : {demanded(), elsewhere(), troubled()}) {
        for (const Case& one : cases) {
            if (one.name.find(filter) != std::string::npos) {
                print(one, draws);
            }
        }
    }
    return 0;
}
