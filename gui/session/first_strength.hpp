#pragma once

#include "analysis/verification/run_log.hpp"
#include "gui/register/delivery.hpp"
#include "gui/session/run_steps.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

/// The first value of strength that a record of this unit knows: the one that it was compared with, else its own.
/// Throws trace::InputError: no record, one of another unit, or none with strength in it.
[[nodiscard]] verification::FirstStrength first_strength_in(const std::filesystem::path& record,
                                                            const std::string& asset);

/// The same from the oldest record that the bench's register has of the unit, tested with the orifice of a step and of
/// the same origin; none where no step asks for one, or where the register cannot be used now.
[[nodiscard]] std::optional<verification::FirstStrength> known_first_strength(const std::vector<RunStep>& steps,
                                                                              const std::string& asset,
                                                                              verification::Origin origin,
                                                                              const unit_register::Bench& bench);

} // namespace zeroline::session
