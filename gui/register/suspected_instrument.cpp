#include "gui/register/suspected_instrument.hpp"

#include <cmath>
#include <cstdio>
#include <map>
#include <utility>

namespace zeroline::unit_register {

namespace {

constexpr double kSmallest_cmH2O = 5.0; // below it a ratio says more of the zero than of the slope
constexpr std::size_t kUnits = 3;
constexpr double kAgree = 1.0 / 3.0;

/// Ratios of one unit in its last record with an instrument.
struct OfUnit {
    std::string record;
    double sum = 0.0, uncertainty_sum = 0.0;
    double count = 0.0;
};

using Instrument = std::pair<std::string, std::string>;

std::string text_of(const Rows& value) { return value.is_null() ? std::string() : value.get<std::string>(); }

std::map<Instrument, std::map<std::string, OfUnit>> last_ratios(const Rows& pressures)
{
    std::map<Instrument, std::map<std::string, OfUnit>> all;
    for (const auto& row : pressures) {
        const auto target = row["target"].get<double>();
        if (std::abs(target) < kSmallest_cmH2O) {
            continue;
        }
        auto& unit = all[{text_of(row["instrument_name"]), text_of(row["instrument_serial"])}][row["asset"]];
        if (const auto record = text_of(row["record_number"]); unit.record != record) {
            unit = {record, 0.0, 0.0, 0.0};
        }
        unit.sum += row["mean"].get<double>() / target;
        unit.uncertainty_sum += row["mean_uncertainty"].get<double>() / std::abs(target);
        unit.count += 1.0;
    }
    return all;
}

SuspectedInstrument mean_of(const Instrument& instrument, const std::map<std::string, OfUnit>& units)
{
    SuspectedInstrument one{instrument.first, instrument.second, units.size(), 0.0, 0.0};
    for (const auto& [asset, unit] : units) {
        one.ratio += unit.sum / unit.count / static_cast<double>(units.size());
        one.uncertainty += unit.uncertainty_sum / unit.count / static_cast<double>(units.size());
    }
    return one;
}

double deviation(const std::map<std::string, OfUnit>& units, double mean)
{
    double squares = 0.0;
    for (const auto& [asset, unit] : units) {
        squares += (unit.sum / unit.count - mean) * (unit.sum / unit.count - mean);
    }
    return std::sqrt(squares / static_cast<double>(units.size() - 1));
}

} // namespace

std::vector<SuspectedInstrument> suspected_instruments(const Rows& pressures)
{
    std::vector<SuspectedInstrument> suspected;
    for (const auto& [instrument, units] : last_ratios(pressures)) {
        if (units.size() < kUnits) {
            continue;
        }
        const auto one = mean_of(instrument, units);
        const auto off = std::abs(one.ratio - 1.0);
        if (off > one.uncertainty && deviation(units, one.ratio) < kAgree * off) {
            suspected.push_back(one);
        }
    }
    return suspected;
}

std::string suspicion(const SuspectedInstrument& one)
{
    constexpr double kPercent = 100.0;
    char figures[80];
    (void)std::snprintf(figures, sizeof figures, "%+.1f %% (U %.1f %%)", kPercent * (one.ratio - 1.0),
                        kPercent * one.uncertainty);
    return one.name + (one.serial.empty() ? "" : " " + one.serial) + ": " + std::to_string(one.units) +
           " different units are off together, all by about " + figures +
           ": rather the instrument than the units. Compare it with another one before it is used again.";
}

} // namespace zeroline::unit_register
