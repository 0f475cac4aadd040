#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace zeroline::trace {

/// Units of pressure a trace or an instrument may use. Water and mercury columns are the conventional ones
/// (1000 kg/m3 and 13 595.1 kg/m3 at 9.806 65 m/s2).
enum class PressureUnit { cmH2O, mmH2O, Pa, hPa, kPa, mbar, mmHg, inH2O, psi, bar };

/// Every unit, in the order in which they are listed to a person.
[[nodiscard]] std::span<const PressureUnit> all_pressure_units() noexcept;

/// The unit written so ("cmH2O", "hPa", ...; case matters), or nothing.
[[nodiscard]] std::optional<PressureUnit> pressure_unit_named(std::string_view name) noexcept;

[[nodiscard]] std::string_view name_of(PressureUnit unit) noexcept;

/// Exact factors of NIST SP 811, appendix B.8: pascal per unit.
[[nodiscard]] double pascal_per(PressureUnit unit) noexcept;

[[nodiscard]] double to_cmH2O(double value, PressureUnit unit) noexcept;
[[nodiscard]] double from_cmH2O(double value_cmH2O, PressureUnit unit) noexcept;

} // namespace zeroline::trace
