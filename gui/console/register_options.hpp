#pragma once

#include "gui/console/command.hpp"
#include "gui/register/unit_register.hpp"

#include <string>
#include <vector>

namespace zeroline::console {

/// What stands behind `zeroline register`.
struct RegisterOptions {
    std::string asked, search, since, within = "30d", file, serial, model, by;
    std::vector<std::string> folders;
    bool json = false, csv = false, fhir = false;
};

// Commands that write; each event is signed with the bench's key.

[[nodiscard]] ExitStatus import_all(const unit_register::UnitRegister& units, const RegisterOptions& options,
                                    const Request& request);
[[nodiscard]] ExitStatus add_unit(const unit_register::UnitRegister& units, const RegisterOptions& options,
                                  const Request& request);
[[nodiscard]] ExitStatus add_units(const unit_register::UnitRegister& units, const RegisterOptions& options,
                                   const Request& request);
[[nodiscard]] ExitStatus approve_files(const unit_register::UnitRegister& units, const RegisterOptions& options,
                                       const Request& request);

} // namespace zeroline::console
