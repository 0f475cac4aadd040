#pragma once

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/work_order.hpp"

#include <string>

namespace zeroline::verification {

/// Bounds within which a value is believed; beyond them it is refused, with the bound.
struct Plausible {
    double pressure_low = 5.0; ///< magnitude of a phase's pressure, cmH2O
    double pressure_high = 70.0;
    double duration_low_s = 0.2;
    double duration_high_s = 10.0;
};

/// What a person may prescribe.
inline constexpr Plausible kPrescribable{};
/// What a unit may be found set to: wider, because what was found must be writable, however odd.
inline constexpr Plausible kFindable{0.0, 150.0, 0.0, 60.0};

/// A positive pressure of the insufflation / the negative one of the exsufflation; a wrong sign is refused with the
/// sentence that says so.
[[nodiscard]] double read_insufflation_pressure(const trace::JsonReader& at, const Plausible& bounds);
[[nodiscard]] double read_exsufflation_pressure(const trace::JsonReader& at, const Plausible& bounds);

[[nodiscard]] Preset read_preset(const trace::JsonReader& at);
[[nodiscard]] Settings read_settings(const trace::JsonReader& at);
[[nodiscard]] Step read_step(const trace::JsonReader& at);

} // namespace zeroline::verification
