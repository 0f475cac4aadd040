#pragma once

#include "gui/records/manifest.hpp"

#include <string>

namespace zeroline::console {

/// "signed by operator 3 (operator), 2026-11-25T09:15:00+01:00: performed the verification"
[[nodiscard]] inline std::string signature_text(const records::Signature& signature)
{
    return "signed by " + signature.signer + (signature.role.empty() ? "" : " (" + signature.role + ")") + ", " +
           signature.time + ": " + signature.meaning;
}

} // namespace zeroline::console
