#include "analysis/verification/budgets.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::verification {
namespace {

trace::Instrument transducer()
{
    trace::Instrument instrument;
    instrument.range = {-100, 100, 0.1, trace::PressureUnit::cmH2O};
    instrument.clock_ppm = 100;
    instrument.calibration.expanded_uncertainty = 0.25;
    instrument.calibration.coverage_factor = 2.0;
    instrument.calibration.low = -80;
    instrument.calibration.high = 80;
    return instrument;
}

signal::Phase phase_of_40()
{
    signal::Phase phase;
    phase.kind = signal::PhaseKind::insufflation;
    phase.plateau = signal::Level{40.0, 0.06, 4.0, 0.0, 0.75, 1.35, 150};
    signal::Transition entering, leaving;
    entering.onset = {1.0, 0.3e-3, 0.0, 20.0};
    leaving.onset = {2.5, 0.4e-3, 0.0, 20.0};
    entering.samples_10_90 = leaving.samples_10_90 = 20;
    phase.entering = entering;
    phase.leaving = leaving;
    return phase;
}

BudgetBasis basis_of(const trace::Instrument& instrument, std::optional<double> drift)
{
    BudgetBasis basis;
    basis.instrument = &instrument;
    basis.zero.drift = drift;
    basis.sampling.rate_hz = 250;
    basis.trace_s = 60;
    return basis;
}

double entry(const Cycle::Quantity& quantity, const std::string& name)
{
    for (const auto& line : quantity.budget)
        if (line.name == name)
            return line.share();
    return std::nan("");
}

// By hand: 0.125, 0.2 / sqrt 3, 0.1 / sqrt 12 of the reading and again of the zero, 0.06 (4 degrees of freedom), and a
// further entry of 0.05 / sqrt 3.
TEST(LevelBudget, comes_to_a_round_figure)
{
    auto instrument = transducer();
    instrument.uncertainty.push_back({"temperature", 0.05, trace::Spread::rectangular});
    const auto level = plateau_quantity(phase_of_40(), basis_of(instrument, -0.2));
    EXPECT_NEAR(level.expanded.standard_uncertainty, std::sqrt(0.034225 + 0.01 / 12.0), 1e-12);
    EXPECT_NEAR(level.expanded.effective_dof, 379.35, 0.01);
    EXPECT_EQ(level.value, 40.0);
}

// JCGM 100:2008, 4.3.7: a value that lies somewhere within +-a has the standard uncertainty a / sqrt(3); here
// a = 0.02 cmH2O/degC x 9 degC.
TEST(LevelBudget, holds_what_the_room_does_where_the_papers_say_what_a_degree_does)
{
    auto instrument = transducer();
    instrument.calibration.temperature_C = 23.0;
    auto basis = basis_of(instrument, -0.2);
    basis.room_temperature_C = 14.0;
    const auto without = plateau_quantity(phase_of_40(), basis);
    EXPECT_TRUE(std::isnan(entry(without, "room temperature"))) << "no coefficient is stated";
    instrument.calibration.temperature_coefficient = 0.02;
    const auto with = plateau_quantity(phase_of_40(), basis);
    EXPECT_NEAR(entry(with, "room temperature"), 0.18 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(with.expanded.standard_uncertainty,
                std::hypot(without.expanded.standard_uncertainty, 0.18 / std::sqrt(3.0)), 1e-12);
    basis.room_temperature_C.reset();
    EXPECT_TRUE(std::isnan(entry(plateau_quantity(phase_of_40(), basis), "room temperature"))) << "nobody noted it";
    instrument.range.unit = trace::PressureUnit::hPa; // the coefficient is in the range's unit
    basis.room_temperature_C = 32.0;
    EXPECT_NEAR(entry(plateau_quantity(phase_of_40(), basis), "room temperature"), 0.18 * 1.0197162 / std::sqrt(3.0),
                1e-7);
}

TEST(LevelBudget, takes_the_house_limit_where_zero_was_not_read_again)
{
    const auto instrument = transducer();
    const auto level = plateau_quantity(phase_of_40(), basis_of(instrument, std::nullopt));
    EXPECT_NEAR(entry(level, "zero drift"), 0.5 / std::sqrt(3.0), 1e-12);
}

TEST(LevelBudget, takes_what_the_pauses_wandered_where_both_zeros_agree_up_to_what_is_called_a_drift)
{
    const auto instrument = transducer();
    auto basis = basis_of(instrument, 0.01);
    basis.zero_wander_cmH2O = 0.3;
    EXPECT_NEAR(entry(plateau_quantity(phase_of_40(), basis), "zero drift"), 0.3 / std::sqrt(3.0), 1e-12);
    basis.zero_wander_cmH2O = 3.0; // a valve, not the sensor
    EXPECT_NEAR(entry(plateau_quantity(phase_of_40(), basis), "zero drift"), 0.5 / std::sqrt(3.0), 1e-12);
}

TEST(LevelBudget, knows_from_a_certificates_factor_on_how_little_its_uncertainty_stands)
{
    auto instrument = transducer();
    instrument.calibration.coverage_factor = 2.87; // JCGM 100:2008, table G.2, 95.45 %: 4 degrees of freedom
    const auto level = plateau_quantity(phase_of_40(), basis_of(instrument, 0.0));
    EXPECT_NEAR(level.budget.front().dof, 4.0, 0.05);
    instrument.calibration.coverage_factor = 2.0;
    EXPECT_TRUE(std::isinf(plateau_quantity(phase_of_40(), basis_of(instrument, 0.0)).budget.front().dof));
}

TEST(Response, adds_to_durations_edges_and_amplitudes_what_a_first_order_lag_may_do_to_them)
{
    auto instrument = transducer();
    auto phase = phase_of_40();
    phase.entering->time_10_90_s = 0.125;
    const auto without = duration_quantity(phase, false, basis_of(instrument, 0.0));
    EXPECT_TRUE(std::isnan(entry(*without, "response")));
    instrument.response_ms = 100.0; // 45.5 ms of lag
    const auto basis = basis_of(instrument, 0.0);
    EXPECT_NEAR(entry(*duration_quantity(phase, false, basis), "response"), 0.045512 / std::sqrt(6.0), 1e-6);
    // 125^2 - 100^2 = 75^2: by hand.
    EXPECT_NEAR(entry(*transition_quantity(phase, basis), "response"), 0.05 / std::sqrt(3.0), 1e-9);
    phase.oscillation = signal::Oscillation{};
    phase.oscillation->frequency_hz = 1.0 / (2.0 * 3.14159265358979 * 0.0455119613); // where a lag takes 3 dB
    phase.oscillation->amplitude_cmH2O = 4.0;
    EXPECT_NEAR(entry(*oscillation_amplitude_quantity(phase, basis), "response"),
                4.0 * (std::sqrt(2.0) - 1.0) / std::sqrt(3.0), 1e-6);
}

TEST(Response, that_is_not_stated_leaves_peak_and_overshoot_without_an_uncertainty)
{
    auto instrument = transducer();
    auto phase = phase_of_40();
    phase.peak_cmH2O = 43.0;
    EXPECT_FALSE(peak_quantity(phase, 1.0, basis_of(instrument, 0.0)));
    instrument.response_ms = 20.0;
    EXPECT_NEAR(entry(*peak_quantity(phase, 1.0, basis_of(instrument, 0.0)), "response"), 1.0 / std::sqrt(3.0), 1e-12);
}

TEST(LevelBudget, is_in_cmH2O_whatever_the_sensor_reads_in)
{
    auto instrument = transducer();
    instrument.range.unit = trace::PressureUnit::kPa;
    EXPECT_NEAR(entry(plateau_quantity(phase_of_40(), basis_of(instrument, 0.0)), "calibration"), 0.125 / 0.0980665,
                1e-9);
}

TEST(LevelBudget, without_an_instrument_is_the_signals_and_the_zeros_own_part)
{
    BudgetBasis basis;
    basis.zero.drift = 0.0;
    EXPECT_NEAR(plateau_quantity(phase_of_40(), basis).expanded.standard_uncertainty, 0.06, 1e-12);
}

// By hand: 0.3 and 0.4 ms at the ends, 100 ppm of 1.5 s as a half-width.
TEST(DurationBudget, adds_both_ends_and_the_clock)
{
    const auto instrument = transducer();
    const auto duration = duration_quantity(phase_of_40(), false, basis_of(instrument, 0.0)).value();
    EXPECT_NEAR(duration.value, 1.5, 1e-12);
    EXPECT_NEAR(duration.expanded.standard_uncertainty, std::hypot(0.5e-3, 0.15e-3 / std::sqrt(3.0)), 1e-12);
}

TEST(DurationBudget, takes_sampling_for_a_rectangle_where_a_transition_holds_too_few_samples)
{
    const auto instrument = transducer();
    auto phase = phase_of_40();
    phase.entering->samples_10_90 = 1;
    phase.entering->onset = {1.0, 0.0, 4e-3 / std::sqrt(12.0), std::numeric_limits<double>::infinity()};
    const auto duration = duration_quantity(phase, false, basis_of(instrument, 0.0)).value();
    EXPECT_NEAR(entry(duration, "sampling, begin"), 4e-3 / std::sqrt(12.0), 1e-12);
    EXPECT_LT(duration.expanded.coverage_factor, 1.9);
}

// Arrivals 5 ms rms off their line in batches of 16 ms: over 60 s the line's slope is known to 5e-3 sqrt(12 / 3750)
// / 60.
TEST(DurationBudget, counts_late_arrivals_by_what_they_do_to_the_fitted_rate)
{
    const auto instrument = transducer();
    auto basis = basis_of(instrument, 0.0);
    basis.sampling.residual_s = 5e-3;
    basis.sampling.batch_period_s = 16e-3;
    const auto duration = duration_quantity(phase_of_40(), false, basis).value();
    EXPECT_NEAR(entry(duration, "sample clock"), 5e-3 * std::sqrt(12.0 / 3750.0) * 1.5 / 60.0, 1e-12);
}

TEST(DurationBudget, is_none_for_a_cut_phase)
{
    auto phase = phase_of_40();
    phase.leaving.reset();
    EXPECT_FALSE(duration_quantity(phase, false, {}));
}

signal::Phase pause_returning_at(double time_s)
{
    auto pause = phase_of_40();
    pause.kind = signal::PhaseKind::pause;
    pause.plateau->value_cmH2O = 0.4;
    pause.return_to_band = signal::Instant{time_s, 0.2e-3, 0.0, 20.0};
    pause.return_slope_cmH2O_per_s = -50.0;
    pause.returned = true;
    return pause;
}

TEST(ResidualBudget, is_measured_from_the_prescribed_pause_level)
{
    EXPECT_NEAR(residual_quantity(pause_returning_at(1.2), 5.0, {}).value().value, -4.6, 1e-12);
}

TEST(ReturnBudget, turns_the_levels_uncertainty_into_time_by_the_slope)
{
    const auto instrument = transducer();
    const auto back = return_quantity(pause_returning_at(1.2), basis_of(instrument, 0.0)).value();
    EXPECT_NEAR(back.value, 0.2, 1e-12);
    EXPECT_NEAR(entry(back, "level over slope"), std::hypot(0.125, 0.1 / std::sqrt(12.0), 0.1 / std::sqrt(12.0)) / 50.0,
                1e-12);
}

TEST(ReturnBudget, spans_to_the_next_entry_that_might_be_the_one)
{
    auto pause = pause_returning_at(1.2);
    pause.next_entry_s = 1.3;
    EXPECT_NEAR(entry(return_quantity(pause, {}).value(), "next entry"), 0.1 / std::sqrt(3.0), 1e-12);
}

TEST(ReturnBudget, is_none_for_a_pause_that_never_returned)
{
    auto pause = pause_returning_at(1.2);
    pause.return_to_band.reset();
    EXPECT_FALSE(return_quantity(pause, {}));
}

// By hand: the fit's 0.003 Hz beside 10 Hz x 100 ppm / sqrt 3; the fit's 0.02 cmH2O beside 0.125 at either end
// of 160 cmH2O.
TEST(OscillationBudget, adds_what_the_fit_leaves_to_the_clock_and_to_the_instrument)
{
    auto phase = phase_of_40();
    phase.oscillation = signal::Oscillation{10.0, 4.0, 3e-3, 0.02};
    const auto instrument = transducer();
    const auto basis = basis_of(instrument, 0.0);
    const auto frequency = oscillation_frequency_quantity(phase, basis).value();
    EXPECT_NEAR(frequency.expanded.standard_uncertainty, std::hypot(3e-3, 1e-3 / std::sqrt(3.0)), 1e-12);
    const auto amplitude = oscillation_amplitude_quantity(phase, basis).value();
    EXPECT_NEAR(amplitude.expanded.standard_uncertainty, std::hypot(0.02, 0.125 * std::sqrt(2.0) * 4.0 / 160.0), 1e-12);
}

TEST(OscillationBudget, is_none_for_one_that_was_not_found)
{
    auto phase = phase_of_40();
    EXPECT_FALSE(oscillation_frequency_quantity(phase, {}));
    phase.oscillation = signal::Oscillation{};
    EXPECT_FALSE(oscillation_frequency_quantity(phase, {}));
    EXPECT_FALSE(oscillation_amplitude_quantity(phase, {}));
}

TEST(LevelBudget, takes_the_noise_of_the_open_port_and_not_the_ripple_of_the_unit)
{
    const auto instrument = transducer();
    auto basis = basis_of(instrument, 0.0);
    basis.zero.noise = 0.1;
    basis.zero.noise_inflation = 4.0;
    EXPECT_NEAR(entry(plateau_quantity(phase_of_40(), basis), "noise"), 0.1 * std::sqrt(4.0 / 150.0), 1e-12);
    EXPECT_NEAR(entry(plateau_quantity(phase_of_40(), basis, 0.3), "noise"), 0.3 * std::sqrt(4.0 / 150.0), 1e-12)
        << "noisier from sample to sample than the open port";
    auto phase = phase_of_40();
    phase.oscillation = signal::Oscillation{10.0, 4.0, 3e-3, 0.02};
    EXPECT_NEAR(entry(plateau_quantity(phase, basis), "noise"), 0.06, 1e-12) << "what the fit leaves";
}

std::vector<Cycle::Quantity> cycles_of(const std::vector<double>& values, const BudgetBasis& basis)
{
    std::vector<Cycle::Quantity> cycles;
    for (const double value : values) {
        auto phase = phase_of_40();
        phase.plateau->value_cmH2O = value;
        cycles.push_back(plateau_quantity(phase, basis));
    }
    return cycles;
}

metrology::Expanded mean_of(const std::vector<Cycle::Quantity>& cycles)
{
    std::vector<const Cycle::Quantity*> pointers;
    for (const auto& cycle : cycles)
        pointers.push_back(&cycle);
    return mean_uncertainty(pointers);
}

// Four cycles, deviation 0.2: standard error 0.1 beside the shared 0.125 and twice 0.1 / sqrt 12 (reading and zero);
// the noise is not counted twice.
TEST(MeanBudget, counts_shared_errors_once_and_the_cycles_by_their_standard_error)
{
    const auto instrument = transducer();
    const double a = 0.2 * std::sqrt(3.0) / 2.0;
    const auto mean = mean_of(cycles_of({40 - a, 40 + a, 40 - a, 40 + a}, basis_of(instrument, 0.0)));
    EXPECT_NEAR(mean.standard_uncertainty, std::sqrt(0.125 * 0.125 + 0.02 / 12.0 + 0.01), 1e-9);
    EXPECT_GT(mean.coverage_factor, 2.0);
}

TEST(MeanBudget, of_one_cycle_is_that_cycles_own)
{
    const auto instrument = transducer();
    const auto cycles = cycles_of({40.0}, basis_of(instrument, 0.1));
    EXPECT_NEAR(mean_of(cycles).expanded_uncertainty, cycles.front().expanded.expanded_uncertainty, 1e-12);
}

TEST(DisplayBudget, is_that_of_a_rectangle_where_the_step_dominates)
{
    metrology::Expanded mean;
    mean.standard_uncertainty = 0.1;
    const auto shown = metrology::combine(displayed_budget(mean, 5.0));
    EXPECT_NEAR(shown.standard_uncertainty, std::hypot(0.1, 5.0 / std::sqrt(12.0)), 1e-12);
    EXPECT_LT(shown.coverage_factor, 1.75);
}

TEST(InstrumentLevel, is_the_expanded_uncertainty_without_the_signals_part)
{
    const auto instrument = transducer();
    // The two rectangles are small: k is 2 to four digits.
    EXPECT_NEAR(instrument_level_u(basis_of(instrument, 0.0)),
                2.0 * std::hypot(0.125, 0.1 / std::sqrt(12.0), 0.1 / std::sqrt(12.0)), 1e-4);
}

} // namespace
} // namespace zeroline::verification
