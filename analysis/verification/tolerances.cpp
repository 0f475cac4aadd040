#include "analysis/verification/measured_trace.hpp"
#include "analysis/verification/work_order.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace zeroline::verification {

namespace {

Tolerance house_tolerance(std::optional<double> absolute, std::optional<double> relative,
                          std::optional<double> at_most = std::nullopt)
{
    Tolerance tolerance;
    tolerance.absolute = absolute;
    tolerance.relative = relative;
    tolerance.at_most = at_most;
    tolerance.house = true;
    return tolerance;
}

/// The first that is there of a phase's own tolerance and the general one.
const std::optional<Tolerance>& first(const std::optional<Tolerance>& own, const std::optional<Tolerance>& general)
{
    return own ? own : general;
}

const std::optional<Tolerance>& entry(const std::string& name, const Tolerances& tolerances)
{
    static const std::optional<Tolerance> kNone;
    if (name == measurand::insufflation_pressure) {
        return first(tolerances.insufflation_pressure, tolerances.pressure);
    }
    if (name == measurand::exsufflation_pressure) {
        return first(tolerances.exsufflation_pressure, tolerances.pressure);
    }
    if (name == measurand::insufflation_duration) {
        return first(tolerances.insufflation_duration, tolerances.duration);
    }
    if (name == measurand::exsufflation_duration) {
        return first(tolerances.exsufflation_duration, tolerances.duration);
    }
    if (name == measurand::pause_duration) {
        return first(tolerances.pause_duration, tolerances.duration);
    }
    if (name == measurand::pause_residual) {
        return tolerances.residual;
    }
    if (name == measurand::return_to_zero) {
        return tolerances.zero;
    }
    if (name == measurand::displayed_insufflation || name == measurand::displayed_exsufflation) {
        return tolerances.display;
    }
    if (name == measurand::oscillation_frequency) {
        return tolerances.oscillation_frequency;
    }
    return name == measurand::oscillation_amplitude ? tolerances.oscillation_amplitude : kNone;
}

std::string with_approval(const std::string& basis, const std::string& approved_by)
{
    return basis + (approved_by.empty() ? ", not approved" : ", approved by " + approved_by);
}

/// A hose that is closed at its end raises the amplitude (docs/method.md): a figure is only comparable where its basis
/// says that it was meant there.
bool names_closed_end(std::string basis)
{
    std::transform(basis.begin(), basis.end(), basis.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    const auto has = [&](const char* word) { return basis.find(word) != std::string::npos; };
    return has("closed") || has("blocked") || has("shut");
}

} // namespace

HouseProfile HouseProfile::standard()
{
    HouseProfile house;
    house.tolerances.basis = house.basis;
    house.tolerances.pressure = house_tolerance(2.0, 0.10, 5.0);
    house.tolerances.duration = house_tolerance(0.1, 0.10);
    house.tolerances.residual = house_tolerance(2.0, std::nullopt);
    house.tolerances.zero = house_tolerance(2.0, std::nullopt);
    house.tolerances.display = house_tolerance(3.0, std::nullopt);
    house.tolerances.oscillation_frequency = house_tolerance(std::nullopt, 0.10);
    return house;
}

std::string HouseProfile::label() const { return with_approval(basis, approved_by); }

metrology::Limits Tolerance::limits(double nominal) const
{
    metrology::Limits limits;
    if (lower || upper) {
        limits.lower = lower ? std::optional<double>(nominal - *lower) : std::nullopt;
        limits.upper = upper ? std::optional<double>(nominal + *upper) : std::nullopt;
        return limits;
    }
    if (!absolute && !relative) {
        return limits;
    }
    const double fixed = absolute.value_or(0.0);
    const double scaled = relative.value_or(0.0) * std::abs(nominal);
    double width = combine == Combine::sum ? fixed + scaled : std::max(fixed, scaled);
    if (at_most) {
        width = std::min(width, *at_most);
    }
    return {nominal - width, nominal + width};
}

Tolerance tolerance_of(const std::string& measurand, const WorkOrder& order, const HouseProfile& house)
{
    if (const auto& own = entry(measurand, order.tolerances)) {
        return *own;
    }
    auto fallback = entry(measurand, house.tolerances).value_or(Tolerance{});
    fallback.house = true;
    fallback.basis = with_approval(fallback.basis.empty() ? house.basis : fallback.basis, house.approved_by);
    return fallback;
}

std::optional<double> nominal_of(const std::string& name, const Preset& nominal)
{
    if (name == measurand::insufflation_pressure) {
        return nominal.insufflation.pressure_cmH2O;
    }
    if (name == measurand::exsufflation_pressure) {
        return nominal.exsufflation.pressure_cmH2O;
    }
    if (name == measurand::insufflation_duration) {
        return nominal.insufflation.duration_s;
    }
    if (name == measurand::exsufflation_duration) {
        return nominal.exsufflation.duration_s;
    }
    if (name == measurand::pause_duration) {
        return nominal.pause.duration_s;
    }
    if (name == measurand::pause_residual) {
        return 0.0;
    }
    if (nominal.oscillation && name == measurand::oscillation_frequency) {
        return nominal.oscillation->frequency_hz;
    }
    if (nominal.oscillation && name == measurand::oscillation_amplitude) {
        return nominal.oscillation->amplitude_cmH2O;
    }
    return std::nullopt;
}

metrology::Limits limits_of(const std::string& name, const Preset& nominal, const WorkOrder& order,
                            const HouseProfile& house)
{
    const auto tolerance = tolerance_of(name, order, house);
    if (name == measurand::return_to_zero) {
        return {std::nullopt, tolerance.within_s};
    }
    const auto about = nominal_of(name, nominal);
    if (!about || (name == measurand::oscillation_amplitude && !names_closed_end(tolerance.basis))) {
        return {};
    }
    auto limits = tolerance.limits(*about);
    if (name == measurand::pause_duration && *about == 0.0) {
        limits.lower.reset();
    }
    return limits;
}

} // namespace zeroline::verification
