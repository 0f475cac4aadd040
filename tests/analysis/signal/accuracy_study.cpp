#include "tests/analysis/signal/accuracy_study.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace zeroline::signal::analytic {

void Errors::add(double error)
{
    sum += error;
    sum_of_squares += error * error;
    largest = std::max(largest, std::abs(error));
    ++count;
}

double Errors::rms() const { return count > 0 ? std::sqrt(sum_of_squares / static_cast<double>(count)) : 0.0; }

void Errors::add(const Errors& others)
{
    sum += others.sum;
    sum_of_squares += others.sum_of_squares;
    largest = std::max(largest, others.largest);
    count += others.count;
}

double Errors::mean() const { return count > 0 ? sum / static_cast<double>(count) : 0.0; }

namespace {

constexpr double kBand_cmH2O = 2.0;
constexpr double kNoise_cmH2O = 0.1;

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

// The entry into the band and what it may be off by; none where a ring's peak comes within 0.5 cmH2O of the band's
// edge.
struct Entry {
    double time_s = 0.0;
    double allowance_s = 0.0;
    bool counts = false;
};

Entry true_entry(const CleanPressure& pressure, double level, double from_s, double to_s, double rate_hz)
{
    Entry entry;
    entry.time_s = true_band_entry(pressure, from_s, to_s, 0.0, kBand_cmH2O);
    constexpr double kStep_s = 1e-3;
    const double slope =
        (pressure.base_at(entry.time_s + kStep_s / 10) - pressure.base_at(entry.time_s - kStep_s / 10)) / (kStep_s / 5);
    entry.allowance_s = std::max(2.0 / rate_hz, 3.0 * kNoise_cmH2O / std::abs(slope));
    entry.counts = std::abs(level) < kBand_cmH2O - 0.5 && slope != 0.0;
    for (double time = from_s + kStep_s; time + kStep_s < to_s; time += kStep_s) {
        const double before = std::abs(pressure.base_at(time - kStep_s));
        const double here = std::abs(pressure.base_at(time));
        const bool peak = here > before && here >= std::abs(pressure.base_at(time + kStep_s));
        entry.counts = entry.counts && !(peak && std::abs(here - kBand_cmH2O) < 0.5);
    }
    return entry;
}

void add_ours(Comparison& all, const std::vector<Phase>& phases, const std::vector<Truth>& truth,
              const std::vector<Entry>& entries)
{
    for (std::size_t k = 1; k + 1 < phases.size(); ++k) {
        const Phase& phase = phases[k];
        const bool pause = phase.kind == PhaseKind::pause;
        if (phase.plateau) {
            (pause ? all.residual : all.plateau).add(phase.plateau->value_cmH2O - truth[k].level_cmH2O);
        }
        all.duration.add(*phase.duration_s() - (truth[k + 1].onset_s - truth[k].onset_s));
        all.mid_duration.add(*phase.mid_level_duration_s() - (truth[k + 1].mid_s - truth[k].mid_s));
        if (phase.entering->time_10_90_s) {
            all.transition_share.add(*phase.entering->time_10_90_s / truth[k].time_10_90_s - 1.0);
        }
        if (pause && entries[k].counts) {
            const double found_s = phase.return_to_band ? phase.return_to_band->time_s : phase.first_time_s + 1e3;
            all.entry_share.add((found_s - entries[k].time_s) / entries[k].allowance_s);
        }
    }
}

void add_plain(Comparison& all, const std::vector<Truth>& plain, const CleanPressure& twin,
               const std::vector<Truth>& truth)
{
    for (std::size_t k = 1; k + 1 < truth.size(); ++k) {
        const bool pause = twin.segments()[k].kind == PhaseKind::pause;
        (pause ? all.plain_residual : all.plain_plateau).add(plain[k].level_cmH2O - truth[k].level_cmH2O);
        all.plain_duration.add(plain[k + 1].onset_s - plain[k].onset_s - (truth[k + 1].onset_s - truth[k].onset_s));
        all.plain_mid_duration.add(plain[k + 1].mid_s - plain[k].mid_s - (truth[k + 1].mid_s - truth[k].mid_s));
    }
}

void add_up(Comparison& all, const Comparison& one)
{
    all.plateau.add(one.plateau);
    all.residual.add(one.residual);
    all.duration.add(one.duration);
    all.mid_duration.add(one.mid_duration);
    all.transition_share.add(one.transition_share);
    all.plain_plateau.add(one.plain_plateau);
    all.plain_residual.add(one.plain_residual);
    all.plain_duration.add(one.plain_duration);
    all.plain_mid_duration.add(one.plain_mid_duration);
    all.entry_share.add(one.entry_share);
    all.draws += one.draws;
    all.wrong_phases += one.wrong_phases;
}

void compare_set(Comparison& all, const Row& row, int set, int draws, std::mt19937_64& random, const Watch& watch)
{
    const Case one = row.draw(random);
    const CleanPressure pressure = cycling(one.form);
    const CleanPressure twin = cycling(one.twin);
    const std::vector<Truth> truth = truth_of(pressure);
    const std::vector<Truth> twin_truth = truth_of(twin);
    std::vector<Entry> entries(truth.size());
    for (std::size_t k = 1; k + 1 < truth.size(); ++k) {
        // What still swings when the release begins enters and leaves the band by itself.
        if (pressure.segments()[k].kind == PhaseKind::pause && one.form.oscillation_cmH2O == 0.0) {
            entries[k] =
                true_entry(pressure, truth[k].level_cmH2O, truth[k].onset_s, truth[k + 1].onset_s, row.rate_hz);
        }
    }
    Trouble untroubled = one.trouble;
    untroubled.spikes = 0;
    for (int draw = 0; draw < draws; ++draw) {
        const Trace trace = sampled(pressure, row.rate_hz, one.trouble, random);
        const std::vector<Phase> phases = measure(trace.samples(), {});
        Comparison alone;
        ++alone.draws;
        if (same_phases(phases, pressure)) {
            add_ours(alone, phases, truth, entries);
        } else {
            ++alone.wrong_phases;
        }
        const Trace plain = sampled(twin, row.rate_hz, untroubled, random);
        add_plain(alone, plain_definition(plain.samples(), twin, twin_truth), twin, twin_truth);
        add_up(all, alone);
        if (watch) {
            watch({set, draw, one, pressure, trace, truth, phases, alone});
        }
    }
}

} // namespace

Comparison compare(const Row& row, int sets, int draws, std::uint64_t seed, const Watch& watch)
{
    Comparison all;
    std::mt19937_64 random(seed);
    for (int set = 0; set < sets; ++set) {
        compare_set(all, row, set, draws, random, watch);
    }
    return all;
}

std::string gross_errors(const Comparison& alone)
{
    constexpr double kLevel_cmH2O = 0.3;
    constexpr double kDuration_s = 0.01;
    std::string words;
    const auto say = [&words](const char* what, double value, double limit, double scale, const char* unit) {
        if (value > limit) {
            char text[96];
            std::snprintf(text, sizeof text, "%s%s off by %.3g %s", words.empty() ? "" : ", ", what, scale * value,
                          unit);
            words += text;
        }
    };
    if (alone.wrong_phases > 0) {
        words = "other phases";
    }
    say("plateau", alone.plateau.largest, kLevel_cmH2O, 1.0, "cmH2O");
    say("residual", alone.residual.largest, kLevel_cmH2O, 1.0, "cmH2O");
    say("duration", alone.duration.largest, kDuration_s, 1e3, "ms");
    say("return to zero", alone.entry_share.largest, 1.0, 1.0, "times its allowance");
    return words;
}

namespace {

// A root mean square of n independent normal errors scatters by 1 / sqrt(2 n) of itself.
double granted(const Errors& errors, double spread)
{
    return errors.count > 0 ? 1.0 + spread / std::sqrt(2.0 * static_cast<double>(errors.count)) : 1.0;
}

class Judge {
public:
    explicit Judge(double spread) : spread_(spread) {}

    void within(const char* what, const Errors& errors, double limit)
    {
        check(what, errors.rms(), limit * granted(errors, spread_));
    }
    void check(const char* what, double value, double limit)
    {
        if (!(value <= limit)) {
            char text[160];
            std::snprintf(text, sizeof text, "%s: %.4g, limit %.4g", what, value, limit);
            verdict.broken.emplace_back(text);
        }
    }

    Verdict verdict;

private:
    double spread_;
};

} // namespace

Verdict judged(const Row& row, const Comparison& all, double spread)
{
    constexpr double kOfPublished = 1.2;
    Judge judge(spread);
    const Published& said = row.published;
    // Half a last digit: published figures are rounded.
    const auto pin = [](double published, double digit) { return kOfPublished * (published + digit / 2.0); };
    judge.check("draws with other phases", static_cast<double>(all.wrong_phases), 0.0);
    judge.within("plateau rms, cmH2O", all.plateau, pin(said.plateau_cmH2O, 1e-3));
    judge.within("residual rms, cmH2O", all.residual, pin(said.residual_cmH2O, 1e-3));
    judge.within("duration rms, ms", all.duration, 1e-3 * pin(said.duration_ms, 1e-3));
    judge.within("mid-level duration rms, ms", all.mid_duration, 1e-3 * pin(said.mid_duration_ms, 1e-3));
    judge.within("10-90 % time rms, share", all.transition_share, 1e-2 * pin(said.transition_percent, 0.1));
    if (row.main) {
        // What is fine where the tolerance is 100 ms.
        const double fine_s = row.rate_hz < 200.0 ? 2.5e-3 : (row.rate_hz < 500.0 ? 1.5e-3 : 0.8e-3);
        judge.within("duration rms, s", all.duration, fine_s);
    }
    judge.check("largest error of a return to zero, of what is allowed", all.entry_share.largest, 1.0);
    return judge.verdict;
}

} // namespace zeroline::signal::analytic
