#pragma once

#include "gui/register/database.hpp"

namespace zeroline::unit_register {

/// Verifications as HL7 FHIR R4 (4.0.1): one Bundle of the type collection, with a Device for each unit and instrument,
/// a DiagnosticReport for each verification and an Observation for each figure, quantities in UCUM. The subject is
/// always the Device; no person who is treated appears. `rows` are those of UnitRegister::everything(), `now` is the
/// moment of export (RFC 3339). The same rows give the same resources with the same identifiers again.
[[nodiscard]] Rows fhir_bundle(const Rows& rows, const std::string& now);

} // namespace zeroline::unit_register
