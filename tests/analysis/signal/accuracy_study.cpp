#include "tests/analysis/signal/accuracy_study.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal::analytic {

void Errors::add(double error)
{
    sum += error;
    sum_of_squares += error * error;
    largest = std::max(largest, std::abs(error));
    ++count;
}

double Errors::rms() const { return count > 0 ? std::sqrt(sum_of_squares / static_cast<double>(count)) : 0.0; }

double Errors::mean() const { return count > 0 ? sum / static_cast<double>(count) : 0.0; }

namespace {

Errors& duration_errors(Comparison& all, PhaseKind kind, bool plain)
{
    switch (kind) {
    case PhaseKind::insufflation:
        return plain ? all.plain_insufflation : all.insufflation;
    case PhaseKind::exsufflation:
        return plain ? all.plain_exsufflation : all.exsufflation;
    case PhaseKind::pause:
        break;
    }
    return plain ? all.plain_pause : all.pause;
}

Errors& level_errors(Comparison& all, PhaseKind kind, bool plain)
{
    if (kind == PhaseKind::pause) {
        return plain ? all.plain_residual : all.residual;
    }
    return plain ? all.plain_plateau : all.plateau;
}

bool same_phases(const std::vector<Phase>& phases, const CleanPressure& pressure)
{
    const auto& segments = pressure.segments();
    if (phases.size() != segments.size()) {
        return false;
    }
    for (std::size_t k = 0; k < phases.size(); ++k) {
        const bool ends = k == 0 || k + 1 == phases.size();
        if (phases[k].kind != segments[k].kind || phases[k].cut() != ends) {
            return false;
        }
    }
    return true;
}

void add_ours(Comparison& all, const std::vector<Phase>& phases, const CleanPressure& pressure,
              const std::vector<Truth>& truth)
{
    for (std::size_t k = 1; k + 1 < phases.size(); ++k) {
        const Phase& phase = phases[k];
        if (phase.plateau) {
            level_errors(all, phase.kind, false).add(phase.plateau->value_cmH2O - truth[k].level_cmH2O);
        }
        duration_errors(all, phase.kind, false).add(*phase.duration_s() - (truth[k + 1].onset_s - truth[k].onset_s));
        all.mid_duration.add(*phase.mid_level_duration_s() - (truth[k + 1].mid_s - truth[k].mid_s));
        all.worst_onset.add(phase.entering->onset.time_s - truth[k].onset_s);
        if (phase.entering->time_10_90_s) {
            all.transition_share.add(*phase.entering->time_10_90_s / truth[k].time_10_90_s - 1.0);
        }
        if (phase.kind == PhaseKind::pause && phase.return_to_band) {
            const double entry = true_band_entry(pressure, truth[k].onset_s, truth[k + 1].onset_s, 0.0, 2.0);
            all.entry.add(phase.return_to_band->time_s - entry);
        }
    }
}

void add_plain(Comparison& all, const std::vector<Truth>& plain, const CleanPressure& twin,
               const std::vector<Truth>& truth)
{
    for (std::size_t k = 1; k + 1 < truth.size(); ++k) {
        const PhaseKind kind = twin.segments()[k].kind;
        level_errors(all, kind, true).add(plain[k].level_cmH2O - truth[k].level_cmH2O);
        duration_errors(all, kind, true)
            .add(plain[k + 1].onset_s - plain[k].onset_s - (truth[k + 1].onset_s - truth[k].onset_s));
        all.plain_mid_duration.add(plain[k + 1].mid_s - plain[k].mid_s - (truth[k + 1].mid_s - truth[k].mid_s));
        all.plain_onset.add(plain[k].onset_s - truth[k].onset_s);
        all.plain_transition_share.add(plain[k].time_10_90_s / truth[k].time_10_90_s - 1.0);
    }
}

} // namespace

Comparison compare(const Case& one, int draws, std::uint64_t seed)
{
    Comparison all;
    std::mt19937_64 random(seed);
    const CleanPressure pressure = cycling(one.form);
    const CleanPressure twin = cycling(one.twin);
    const std::vector<Truth> truth = truth_of(pressure);
    const std::vector<Truth> twin_truth = truth_of(twin);
    Trouble untroubled = one.trouble;
    untroubled.spikes = 0;
    for (int draw = 0; draw < draws; ++draw) {
        const Trace trace = sampled(pressure, one.rate_hz, one.trouble, random);
        const std::vector<Phase> phases = measure(trace.samples(), {});
        ++all.draws;
        if (same_phases(phases, pressure)) {
            add_ours(all, phases, pressure, truth);
        } else {
            ++all.wrong_phases;
        }
        const Trace plain = sampled(twin, one.rate_hz, untroubled, random);
        add_plain(all, plain_definition(plain.samples(), twin, twin_truth), twin, twin_truth);
    }
    return all;
}

} // namespace zeroline::signal::analytic
