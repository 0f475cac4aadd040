#pragma once

#include "gui/register/unit_register.hpp"

#include <filesystem>
#include <string>

namespace zeroline::unit_register {

// A chain of events shows what was taken out of its middle, not what was taken off its end. So a bench keeps, beside
// its own register_file(), the last event that it saw of its register.

/// Keeps the last event. Never throws: no save fails by it.
void remember_last_event(const std::filesystem::path& register_file, const UnitRegister& units);

/// A line where the event that was kept is not in the register any more; empty: it is, or none was kept.
[[nodiscard]] std::string lost_events(const std::filesystem::path& register_file, const UnitRegister& units);

/// A line where this computer's clock stands before the moment of the last event, by more than a few minutes, by which
/// the clocks of several benches may differ; empty: it does not.
[[nodiscard]] std::string clock_that_ran_back(const UnitRegister& units, const std::string& now);

} // namespace zeroline::unit_register
