#include "analysis/verification/budgets.hpp"

#include "acquisition/trace/units.hpp"
#include "analysis/signal/statistics.hpp"
#include "analysis/verification/response.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

namespace zeroline::verification {

namespace {

using metrology::Contribution;
using metrology::Distribution;
using Budget = std::vector<Contribution>;

constexpr double kInfinite = std::numeric_limits<double>::infinity();

// How well a fitted oscillation's uncertainty is known itself: to a quarter (JCGM 100, G.4.2).
constexpr double kDofOfAFit = 8.0;

Distribution distribution_of(trace::Spread spread)
{
    switch (spread) {
    case trace::Spread::normal:
        return Distribution::normal;
    case trace::Spread::rectangular:
        return Distribution::rectangular;
    case trace::Spread::triangular:
        return Distribution::triangular;
    case trace::Spread::arcsine:
        return Distribution::arcsine;
    }
    return Distribution::normal;
}

/// Only where the instrument file says how far a reading may move for each degree: a half-width.
void add_room_temperature(Budget& budget, const BudgetBasis& basis)
{
    const auto& calibration = basis.instrument->calibration;
    if (!calibration.temperature_coefficient || !calibration.temperature_C || !basis.room_temperature_C)
        return;
    const double half_width =
        *calibration.temperature_coefficient * std::abs(*basis.room_temperature_C - *calibration.temperature_C);
    budget.push_back(
        {"room temperature", trace::to_cmH2O(half_width, basis.instrument->range.unit), Distribution::rectangular});
}

/// What every level of a record shares, but for its zero.
Budget instrument_entries(const BudgetBasis& basis)
{
    Budget budget;
    if (!basis.instrument)
        return budget;
    const auto& range = basis.instrument->range;
    const auto& calibration = basis.instrument->calibration;
    const auto in_cmH2O = [&](double value) { return trace::to_cmH2O(value, range.unit); };
    // A certificate with k above 2 says by it on how many degrees of freedom its U stands (EA-4/02, annex E).
    budget.push_back({"calibration", in_cmH2O(calibration.expanded_uncertainty / calibration.coverage_factor),
                      Distribution::normal, metrology::dof_of_factor(calibration.coverage_factor)});
    budget.push_back({"resolution", in_cmH2O(0.5 * range.resolution), Distribution::rectangular});
    for (const auto& entry : basis.instrument->uncertainty)
        budget.push_back({entry.name, in_cmH2O(entry.value), distribution_of(entry.distribution)});
    add_room_temperature(budget, basis);
    return budget;
}

Contribution drift_of_zero(const BudgetBasis& basis)
{
    // Two readings alike do not say that nothing moved between them; the pauses do, up to what would be called a drift.
    const double wander = std::min(basis.zero_wander_cmH2O, basis.zero_drift_limit_cmH2O);
    const double half_width =
        basis.zero.drift ? std::max(std::abs(*basis.zero.drift), wander) : basis.zero_drift_limit_cmH2O;
    return {"zero drift", half_width, Distribution::rectangular};
}

Budget shared_level_entries(const BudgetBasis& basis)
{
    auto budget = instrument_entries(basis);
    budget.push_back(drift_of_zero(basis));
    budget.push_back({"zero reading", basis.zero.before_u});
    // The zero was read in the same steps: where the noise is small, its mean is no finer than they are.
    if (basis.instrument)
        budget.push_back({"zero resolution",
                          trace::to_cmH2O(0.5 * basis.instrument->range.resolution, basis.instrument->range.unit),
                          Distribution::rectangular});
    return budget;
}

bool seen(const signal::Phase& phase) { return phase.oscillation && phase.oscillation->amplitude_cmH2O > 0.0; }

/// The sensor's noise and its autocorrelation are known from the open port, where nothing else moves: what moves a
/// plateau beyond that is the unit's own ripple and droop, and a part of what is measured. Where a plateau is noisier
/// from sample to sample than the open port, that counts. Without an open port all that moves counts.
/// Under an oscillation the level is a fit's: what that leaves counts.
Contribution level_noise(const signal::Phase& phase, const BudgetBasis& basis, double plateau_noise_cmH2O)
{
    const auto& level = *phase.plateau;
    if (!basis.zero.noise || level.samples == 0 || seen(phase))
        return {"noise", level.noise_u_cmH2O, Distribution::student, level.noise_dof};
    const double deviation = std::max(*basis.zero.noise, plateau_noise_cmH2O);
    const double count = static_cast<double>(level.samples) / basis.zero.noise_inflation;
    return {"noise", deviation / std::sqrt(std::max(1.0, count))};
}

Budget level_budget(const signal::Phase& phase, const BudgetBasis& basis, double plateau_noise_cmH2O)
{
    auto budget = shared_level_entries(basis);
    budget.push_back(level_noise(phase, basis, plateau_noise_cmH2O));
    budget.push_back({"window position", phase.plateau->position_u_cmH2O});
    return budget;
}

Cycle::Quantity quantity(double value, Budget budget)
{
    const auto expanded = metrology::combine(budget);
    return {value, std::move(budget), expanded};
}

/// Noise over slope, and how far the edge may bend between and beside the samples: the half-width of a rectangle.
void add_instant(Budget& budget, const signal::Instant& instant, const std::string& which)
{
    budget.push_back({"noise, " + which, instant.noise_u_s});
    budget.push_back({"sampling, " + which, std::sqrt(3.0) * instant.sampling_u_s, Distribution::rectangular});
}

/// Uncertainty of the rate of a fitted sample clock, relative: that of the line's slope. The residuals of a fit to
/// arrivals say how late bytes came, not how wrong the fitted times are, and are alike within a batch.
double clock_slope_u(const BudgetBasis& basis)
{
    const auto& sampling = basis.sampling;
    if (!sampling.residual_s || sampling.rate_hz <= 0.0 || basis.trace_s <= 0.0)
        return 0.0;
    const double independent_hz = sampling.batch_period_s ? 1.0 / *sampling.batch_period_s : sampling.rate_hz;
    const double count = std::max(2.0, basis.trace_s * std::min(independent_hz, sampling.rate_hz));
    return *sampling.residual_s * std::sqrt(12.0 / count) / basis.trace_s;
}

/// `value`: a time, or a frequency; both are off by what the clock's rate is off.
void add_clock(Budget& budget, double value, const BudgetBasis& basis)
{
    budget.push_back({"sample clock", clock_slope_u(basis), Distribution::normal, kInfinite, value, "s/s"});
    if (basis.instrument)
        budget.push_back(
            {"clock rate", 1e-6 * basis.instrument->clock_ppm, Distribution::rectangular, kInfinite, value, "s/s"});
}

/// First-order time constant of sensor and line; 0 where it is not stated.
double stated_lag_s(const BudgetBasis& basis)
{
    return basis.instrument && basis.instrument->response_ms ? lag_s(*basis.instrument->response_ms) : 0.0;
}

/// Behind a lag an edge is late by anything from nothing (a step, by the 10/30 line) to the lag itself (a long ramp),
/// each end of a phase by its own share.
void add_response_to_duration(Budget& budget, const BudgetBasis& basis)
{
    if (const double lag = stated_lag_s(basis); lag > 0.0)
        budget.push_back({"response", lag, Distribution::triangular});
}

/// A lag adds to the time of an edge as squares do: what it may have added is not taken off.
void add_response_to_transition(Budget& budget, double time_10_90_s, const BudgetBasis& basis)
{
    if (!basis.instrument || !basis.instrument->response_ms || *basis.instrument->response_ms <= 0.0)
        return;
    const double own_s = 1e-3 * *basis.instrument->response_ms;
    const double without_s = std::sqrt(std::max(0.0, time_10_90_s * time_10_90_s - own_s * own_s));
    budget.push_back({"response", time_10_90_s - without_s, Distribution::rectangular});
}

Budget own_entries(const Budget& budget)
{
    Budget own;
    std::copy_if(budget.begin(), budget.end(), std::back_inserter(own), differs_by_cycle);
    return own;
}

/// The entries all cycles share, each at its mean size (a rate error grows with the duration).
Budget shared_entries(const std::vector<const Cycle::Quantity*>& cycles)
{
    Budget shared;
    for (const auto& entry : cycles.front()->budget)
        if (!differs_by_cycle(entry))
            shared.push_back(entry);
    for (auto& entry : shared) {
        double sum = 0.0;
        for (const auto* cycle : cycles)
            for (const auto& other : cycle->budget)
                sum += other.name == entry.name ? other.value * other.sensitivity : 0.0;
        entry.value = std::abs(sum) / static_cast<double>(cycles.size());
        entry.sensitivity = 1.0;
        entry.unit.clear();
    }
    return shared;
}

} // namespace

bool differs_by_cycle(const Contribution& entry)
{
    static const std::array<std::string_view, 9> own{"noise",      "window position", "noise, begin",
                                                     "noise, end", "sampling, begin", "sampling, end",
                                                     "edge",       "oscillation fit", "next entry"};
    return std::find(own.begin(), own.end(), entry.name) != own.end();
}

Cycle::Quantity plateau_quantity(const signal::Phase& phase, const BudgetBasis& basis, double plateau_noise_cmH2O)
{
    return quantity(phase.plateau->value_cmH2O, level_budget(phase, basis, plateau_noise_cmH2O));
}

std::optional<Cycle::Quantity> duration_quantity(const signal::Phase& phase, bool mid_level, const BudgetBasis& basis)
{
    const auto duration = mid_level ? phase.mid_level_duration_s() : phase.duration_s();
    if (!duration || !phase.entering || !phase.leaving)
        return std::nullopt;
    const auto instant = [&](const signal::Transition& edge) { return mid_level ? edge.mid : edge.onset; };
    Budget budget;
    add_instant(budget, instant(*phase.entering), "begin");
    add_instant(budget, instant(*phase.leaving), "end");
    add_response_to_duration(budget, basis);
    add_clock(budget, *duration, basis);
    return quantity(*duration, std::move(budget));
}

std::optional<Cycle::Quantity> transition_quantity(const signal::Phase& phase, const BudgetBasis& basis)
{
    if (!phase.entering || !phase.entering->time_10_90_s)
        return std::nullopt;
    const double value = *phase.entering->time_10_90_s;
    Budget budget{{"edge", phase.entering->time_10_90_u_s}};
    add_response_to_transition(budget, value, basis);
    add_clock(budget, value, basis);
    return quantity(value, std::move(budget));
}

std::optional<Cycle::Quantity> residual_quantity(const signal::Phase& pause, double pause_level_cmH2O,
                                                 const BudgetBasis& basis, double plateau_noise_cmH2O)
{
    if (!pause.plateau)
        return std::nullopt;
    return quantity(pause.plateau->value_cmH2O - pause_level_cmH2O, level_budget(pause, basis, plateau_noise_cmH2O));
}

std::optional<Cycle::Quantity> return_quantity(const signal::Phase& pause, const BudgetBasis& basis)
{
    if (!pause.return_to_band || !pause.entering)
        return std::nullopt;
    const auto& entry = *pause.return_to_band;
    const double value = entry.time_s - pause.entering->onset.time_s;
    Budget budget;
    add_instant(budget, pause.entering->onset, "begin");
    add_instant(budget, entry, "end");
    if (pause.return_slope_cmH2O_per_s != 0.0) {
        const double level_u = metrology::combine(shared_level_entries(basis)).standard_uncertainty;
        budget.push_back({"level over slope", level_u, Distribution::normal, kInfinite,
                          1.0 / pause.return_slope_cmH2O_per_s, "cmH2O"});
    }
    if (pause.next_entry_s > entry.time_s)
        budget.push_back({"next entry", pause.next_entry_s - entry.time_s, Distribution::rectangular});
    add_clock(budget, value, basis);
    return quantity(value, std::move(budget));
}

std::optional<Cycle::Quantity> oscillation_frequency_quantity(const signal::Phase& phase, const BudgetBasis& basis)
{
    if (!seen(phase))
        return std::nullopt;
    const auto& found = *phase.oscillation;
    Budget budget{{"oscillation fit", found.frequency_u_hz, Distribution::student, kDofOfAFit}};
    add_clock(budget, found.frequency_hz, basis);
    return quantity(found.frequency_hz, std::move(budget));
}

// An amplitude is a difference: what shifts all readings alike is not in it, only what turns the calibration line, by
// the certificate's uncertainty at either end of the calibrated range.
std::optional<Cycle::Quantity> oscillation_amplitude_quantity(const signal::Phase& phase, const BudgetBasis& basis)
{
    if (!seen(phase))
        return std::nullopt;
    const double amplitude = phase.oscillation->amplitude_cmH2O;
    Budget budget{{"oscillation fit", phase.oscillation->amplitude_u_cmH2O, Distribution::student, kDofOfAFit}};
    if (basis.instrument) {
        const auto& calibration = basis.instrument->calibration;
        const double u = trace::to_cmH2O(calibration.expanded_uncertainty / calibration.coverage_factor,
                                         basis.instrument->range.unit);
        const auto& range = basis.instrument->range;
        const double span =
            trace::to_cmH2O(calibration.high.value_or(range.high) - calibration.low.value_or(range.low), range.unit);
        budget.push_back({"calibration, span", u, Distribution::normal, kInfinite,
                          span > 0.0 ? std::numbers::sqrt2 * amplitude / span : 1.0});
        const double turns = 2.0 * std::numbers::pi * phase.oscillation->frequency_hz * stated_lag_s(basis);
        if (turns > 0.0)
            budget.push_back({"response", amplitude * (std::hypot(1.0, turns) - 1.0), Distribution::rectangular});
    }
    return quantity(amplitude, std::move(budget));
}

std::optional<Cycle::Quantity> peak_quantity(const signal::Phase& phase, double hidden_cmH2O, const BudgetBasis& basis)
{
    if (!phase.peak_cmH2O || !basis.instrument || !basis.instrument->response_ms)
        return std::nullopt;
    auto budget = shared_level_entries(basis);
    budget.push_back({"noise", basis.zero.noise.value_or(0.0)}); // of one reading
    budget.push_back({"response", hidden_cmH2O, Distribution::rectangular});
    return quantity(*phase.peak_cmH2O, std::move(budget));
}

// A difference of two levels over a third: what shifts all readings alike is not in it.
std::optional<Cycle::Quantity> overshoot_quantity(const signal::Phase& phase, double hidden_cmH2O,
                                                  const BudgetBasis& basis)
{
    if (!phase.overshoot_percent || !phase.entering || !basis.instrument || !basis.instrument->response_ms)
        return std::nullopt;
    const double step = std::abs(phase.entering->to_cmH2O - phase.entering->from_cmH2O);
    if (step <= 0.0)
        return std::nullopt;
    const double percent = 100.0 / step;
    return quantity(*phase.overshoot_percent,
                    {{"noise", basis.zero.noise.value_or(0.0), Distribution::normal, kInfinite, percent, "cmH2O"},
                     {"response", hidden_cmH2O, Distribution::rectangular, kInfinite, percent, "cmH2O"}});
}

double instrument_level_u(const BudgetBasis& basis)
{
    return metrology::combine(shared_level_entries(basis)).expanded_uncertainty;
}

metrology::Expanded mean_uncertainty(const std::vector<const Cycle::Quantity*>& cycles)
{
    if (cycles.empty())
        return {};
    auto budget = shared_entries(cycles);
    std::vector<double> values;
    for (const auto* cycle : cycles)
        values.push_back(cycle->value);
    if (const auto deviation = signal::standard_deviation(values)) {
        const double count = static_cast<double>(values.size());
        budget.push_back({"cycles", *deviation / std::sqrt(count), Distribution::student, count - 1.0});
    } else {
        const auto own = own_entries(cycles.front()->budget);
        budget.insert(budget.end(), own.begin(), own.end());
    }
    return metrology::combine(budget);
}

std::vector<Contribution> displayed_budget(const metrology::Expanded& mean_plateau, double display_step_cmH2O)
{
    return {{"mean plateau", mean_plateau.standard_uncertainty, Distribution::student, mean_plateau.effective_dof},
            {"display step", 0.5 * display_step_cmH2O, Distribution::rectangular}};
}

} // namespace zeroline::verification
