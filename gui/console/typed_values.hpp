#pragma once

#include "analysis/verification/run_log.hpp"

#include <string>
#include <string_view>

namespace zeroline::console {

/// A number as typed, point or comma. Throws trace::InputError: `what` in front, `expected` behind.
[[nodiscard]] double number_typed(std::string_view text, const std::string& what, double low, double high);
[[nodiscard]] int whole_number_typed(std::string_view text, const std::string& what, int low, int high);

/// "+40/-40", also "40/-40" and "40/40": insufflation and exsufflation pressure; the second is taken as negative.
/// Throws trace::InputError.
struct PressurePair {
    double insufflation_cmH2O = 0.0;
    double exsufflation_cmH2O = 0.0;
};
[[nodiscard]] PressurePair pressures_typed(std::string_view text, const std::string& what);

/// "day=+40/-40". Throws trace::InputError, also for a preset the order does not have.
[[nodiscard]] verification::Displayed displayed_typed(const std::string& text, const verification::WorkOrder& order);

/// "+35/-40" or "+35/-40 1.5/1.5/2": settings read from a unit's screen. Throws trace::InputError.
[[nodiscard]] verification::Settings settings_typed(std::string_view text, const std::string& what);

/// "22.5C 1008hPa 41% 20min": air, and how long the instrument has been on; any of the four, parted by blanks. Throws
/// trace::InputError.
[[nodiscard]] verification::Environment environment_typed(std::string_view text);

/// "intake filter=ok", "hose=not-ok: a crack at the cuff", "battery=not-applicable". Throws trace::InputError.
[[nodiscard]] verification::ChecklistItem checklist_typed(std::string_view text, const std::string& what);

} // namespace zeroline::console
