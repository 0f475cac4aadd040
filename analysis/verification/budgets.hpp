#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <optional>
#include <vector>

namespace zeroline::verification {

/// What every budget of a record shares: the instrument, the zero, the clock (docs/method.md, uncertainty).
struct BudgetBasis {
    const trace::Instrument* instrument = nullptr; ///< null: only the signal's own part
    ZeroReadings zero;
    double zero_drift_limit_cmH2O = 0.5; ///< taken where there is no reading after
    double zero_wander_cmH2O = 0.0;      ///< how far the levels of pauses that should be alike lie apart
    std::optional<double> room_temperature_C;
    trace::Sampling sampling;
    double trace_s = 0.0; ///< length of the trace the sample clock was fitted over; 0: not known
};

/// Names of the entries that differ from cycle to cycle; all others are the same error in every cycle of a record.
[[nodiscard]] bool differs_by_cycle(const metrology::Contribution& entry);

/// Budgets of one cycle's quantities; values are filled in too. A pause's residual is minus `pause_level_cmH2O`.
/// `plateau_noise_cmH2O`: from sample to sample within the window (signal::sample_noise), 0 where it is not known.
[[nodiscard]] Cycle::Quantity plateau_quantity(const signal::Phase& phase, const BudgetBasis& basis,
                                               double plateau_noise_cmH2O = 0.0);
[[nodiscard]] std::optional<Cycle::Quantity> duration_quantity(const signal::Phase& phase, bool mid_level,
                                                               const BudgetBasis& basis);
/// Rise, swing or release: the transition that enters the phase, 10 % to 90 %.
[[nodiscard]] std::optional<Cycle::Quantity> transition_quantity(const signal::Phase& phase, const BudgetBasis& basis);
[[nodiscard]] std::optional<Cycle::Quantity> residual_quantity(const signal::Phase& pause, double pause_level_cmH2O,
                                                               const BudgetBasis& basis,
                                                               double plateau_noise_cmH2O = 0.0);
[[nodiscard]] std::optional<Cycle::Quantity> return_quantity(const signal::Phase& pause, const BudgetBasis& basis);
[[nodiscard]] std::optional<Cycle::Quantity> oscillation_frequency_quantity(const signal::Phase& phase,
                                                                            const BudgetBasis& basis);
[[nodiscard]] std::optional<Cycle::Quantity> oscillation_amplitude_quantity(const signal::Phase& phase,
                                                                            const BudgetBasis& basis);

/// Peak and overshoot with what sensor and sensing line may have hidden of them (response.hpp); none where the
/// instrument file does not state their response: they are then "at least".
[[nodiscard]] std::optional<Cycle::Quantity> peak_quantity(const signal::Phase& phase, double hidden_cmH2O,
                                                           const BudgetBasis& basis);
[[nodiscard]] std::optional<Cycle::Quantity> overshoot_quantity(const signal::Phase& phase, double hidden_cmH2O,
                                                                const BudgetBasis& basis);

/// Expanded uncertainty of a level from the instrument alone, cmH2O: what MeasureOptions::level_u_cmH2O is given.
[[nodiscard]] double instrument_level_u(const BudgetBasis& basis);

/// A mean over cycles: the shared contributions once, the standard error of the cycles beside them (type A).
[[nodiscard]] metrology::Expanded mean_uncertainty(const std::vector<const Cycle::Quantity*>& cycles);

/// Budget of a displayed value: the display's step / sqrt(12) beside the mean plateau's.
[[nodiscard]] std::vector<metrology::Contribution> displayed_budget(const metrology::Expanded& mean_plateau,
                                                                    double display_step_cmH2O);

} // namespace zeroline::verification
