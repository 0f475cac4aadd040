#include "acquisition/trace/units.hpp"

#include <algorithm>
#include <array>

namespace zeroline::trace {

namespace {

struct UnitEntry {
    PressureUnit unit;
    std::string_view name;
    double pascal;
};

// Conventional columns: density times standard gravity times height. The pound-force per square inch is the exact
// quotient of the international pound and inch.
constexpr double kStandardGravity = 9.80665;
constexpr double kPascalPerPsi = 0.45359237 * kStandardGravity / (0.0254 * 0.0254);

constexpr std::array<UnitEntry, 10> kUnits{{{PressureUnit::cmH2O, "cmH2O", 98.0665},
                                            {PressureUnit::mmH2O, "mmH2O", 9.80665},
                                            {PressureUnit::Pa, "Pa", 1.0},
                                            {PressureUnit::hPa, "hPa", 100.0},
                                            {PressureUnit::kPa, "kPa", 1000.0},
                                            {PressureUnit::mbar, "mbar", 100.0},
                                            {PressureUnit::mmHg, "mmHg", 133.322387415},
                                            {PressureUnit::inH2O, "inH2O", 249.08891},
                                            {PressureUnit::psi, "psi", kPascalPerPsi},
                                            {PressureUnit::bar, "bar", 100000.0}}};

constexpr auto kUnitList = [] {
    std::array<PressureUnit, kUnits.size()> list{};
    for (std::size_t i = 0; i < list.size(); ++i) {
        list[i] = kUnits[i].unit;
    }
    return list;
}();

// kUnits stands in the order of the enumeration.
const UnitEntry& entry(PressureUnit unit) noexcept { return kUnits[static_cast<std::size_t>(unit)]; }

} // namespace

std::span<const PressureUnit> all_pressure_units() noexcept { return kUnitList; }

std::optional<PressureUnit> pressure_unit_named(std::string_view name) noexcept
{
    const auto it = std::find_if(kUnits.begin(), kUnits.end(), [&](const UnitEntry& e) { return e.name == name; });
    return it == kUnits.end() ? std::nullopt : std::optional(it->unit);
}

std::string_view name_of(PressureUnit unit) noexcept { return entry(unit).name; }

double pascal_per(PressureUnit unit) noexcept { return entry(unit).pascal; }

double to_cmH2O(double value, PressureUnit unit) noexcept
{
    return unit == PressureUnit::cmH2O ? value : value * pascal_per(unit) / pascal_per(PressureUnit::cmH2O);
}

double from_cmH2O(double value_cmH2O, PressureUnit unit) noexcept
{
    return unit == PressureUnit::cmH2O ? value_cmH2O : value_cmH2O * pascal_per(PressureUnit::cmH2O) / pascal_per(unit);
}

} // namespace zeroline::trace
