#include "gui/console/published_checks.hpp"

#include "analysis/signal/phases.hpp"

#include <cmath>
#include <functional>

namespace zeroline::console {

namespace {

using signal::Phase;

constexpr double kRate_hz = 1000.0;

/// A pressure that goes from level to level; `edge` is the course of a step from 0 to 1.
struct Drawn {
    std::vector<double> time_s, pressure_cmH2O;

    void hold(double to, double seconds, const std::function<double(double)>& edge)
    {
        const double from = level;
        const auto count = static_cast<int>(std::lround(seconds * kRate_hz));
        for (int i = 0; i < count; ++i) {
            time_s.push_back(static_cast<double>(time_s.size()) / kRate_hz);
            pressure_cmH2O.push_back(from + (to - from) * edge(i / kRate_hz));
        }
        level = to;
    }
    double level = 0.0;
};

std::vector<Phase> phases_of(const Drawn& drawn)
{
    signal::MeasureOptions options;
    options.noise_cmH2O = 0.01;
    options.zero_band_cmH2O = 1.0;
    return signal::measure({drawn.time_s, drawn.pressure_cmH2O}, options);
}

double or_nan(const std::optional<double>& value) { return value.value_or(std::nan("")); }

double transition_s(const Phase& phase) { return phase.entering ? or_nan(phase.entering->time_10_90_s) : std::nan(""); }

/// Rest, +40 for 2 s, -40 for 3 s, a pause of 2 s that is seen whole, +40, rest.
std::vector<Phase> cycle_with(const std::function<double(double)>& edge)
{
    Drawn drawn;
    drawn.hold(0.0, 2.0, edge);
    drawn.hold(40.0, 2.0, edge);
    drawn.hold(-40.0, 3.0, edge);
    drawn.hold(0.0, 2.0, edge);
    drawn.hold(40.0, 2.0, edge);
    drawn.hold(0.0, 2.0, edge);
    return phases_of(drawn);
}

std::vector<PublishedCheck> nothing_found()
{
    return {texts_agree("phases of a cycle", "closed form",
                        "rest, insufflation, exsufflation, pause, insufflation, rest", "something else")};
}

std::vector<PublishedCheck> first_order()
{
    constexpr double tau_s = 0.08;
    const auto phases = cycle_with([](double t_s) { return 1.0 - std::exp(-t_s / tau_s); });
    if (phases.size() != 6) {
        return nothing_found();
    }
    const std::string source = "closed form of a first-order step, tau = 0.08 s";
    const double rise_s = tau_s * std::log(9.0);
    return {numbers_agree("plateau, cmH2O", source, 40.0, phases[1].plateau->value_cmH2O, 0.01),
            numbers_agree("negative plateau, cmH2O", source, -40.0, phases[2].plateau->value_cmH2O, 0.01),
            numbers_agree("rise from 10 to 90 %, tau ln 9, s", source, rise_s, transition_s(phases[1]), 0.002),
            numbers_agree("swing from 10 to 90 %, tau ln 9, s", source, rise_s, transition_s(phases[2]), 0.002),
            numbers_agree("insufflation between 50 % points, s", source, 2.0, or_nan(phases[1].mid_level_duration_s()),
                          0.001),
            numbers_agree("exsufflation between 50 % points, s", source, 3.0, or_nan(phases[2].mid_level_duration_s()),
                          0.001),
            numbers_agree("return from -40 to within 1 cmH2O, tau ln 40 after the step, s", source,
                          7.0 + tau_s * std::log(40.0),
                          phases[3].return_to_band ? phases[3].return_to_band->time_s : std::nan(""), 0.002)};
}

std::vector<PublishedCheck> second_order()
{
    // Damping 0.5: overshoot exp(-pi zeta / sqrt(1 - zeta^2)); natural frequency 40 rad/s.
    constexpr double zeta = 0.5, omega = 40.0;
    const double root = std::sqrt(1.0 - zeta * zeta);
    const auto phases = cycle_with([&](double t_s) {
        const double angle = omega * root * t_s;
        return 1.0 - std::exp(-zeta * omega * t_s) * (std::cos(angle) + zeta / root * std::sin(angle));
    });
    if (phases.size() != 6) {
        return nothing_found();
    }
    const std::string source = "closed form of a second-order step, damping 0.5";
    return {numbers_agree("overshoot, % of the step", source, 16.30335348, or_nan(phases[1].overshoot_percent), 0.2),
            numbers_agree("rise from 10 to 90 %, s", source, 1.63757295 / omega, transition_s(phases[1]), 0.001)};
}

std::vector<PublishedCheck> trapezoid()
{
    constexpr double ramp_s = 0.2;
    const auto phases = cycle_with([](double t_s) { return std::min(1.0, t_s / ramp_s); });
    if (phases.size() != 6) {
        return nothing_found();
    }
    const std::string source = "closed form of a trapezoid, ramps of 0.2 s";
    return {numbers_agree("rise from 10 to 90 %, 0.8 of the ramp, s", source, 0.16, transition_s(phases[1]), 0.001),
            numbers_agree("insufflation from onset to onset by the 10/30 line, s", source, 2.0,
                          or_nan(phases[1].duration_s()), 0.001),
            numbers_agree("exsufflation from onset to onset by the 10/30 line, s", source, 3.0,
                          or_nan(phases[2].duration_s()), 0.001)};
}

} // namespace

std::vector<PublishedCheck> waveform_checks()
{
    std::vector<PublishedCheck> all;
    for (auto& checks : {first_order(), second_order(), trapezoid()}) {
        all.insert(all.end(), checks.begin(), checks.end());
    }
    return all;
}

} // namespace zeroline::console
