#pragma once

#include "gui/register/database.hpp"

#include <string>
#include <vector>

namespace zeroline::unit_register {

/// An instrument by which several different units are off together, all by one ratio: rather it than they.
struct SuspectedInstrument {
    std::string name, serial;
    std::size_t units = 0;
    double ratio = 1.0;       ///< of measured to set pressure, mean over the units
    double uncertainty = 0.0; ///< of such a ratio, expanded, as the records state it
};

/// From pressures (UnitRegister::pressures_since()): the last record of each unit with each instrument counts. An
/// instrument is suspected where at least three units are off by more, on average, than their uncertainty allows, which
/// has the instrument's own calibration in it, and differ among themselves (standard deviation) by less than a third of
/// that. Common practice of comparing instruments, no source; three and a third are ours.
[[nodiscard]] std::vector<SuspectedInstrument> suspected_instruments(const Rows& pressures);

/// For a person, a line.
[[nodiscard]] std::string suspicion(const SuspectedInstrument& one);

} // namespace zeroline::unit_register
