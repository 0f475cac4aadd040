#pragma once

#include "analysis/verification/instrument_check.hpp"

#include <filesystem>

namespace zeroline::records {

/// Where the checks of an instrument are kept: "my-instrument.json" -> "my-instrument.checks.json", beside it.
[[nodiscard]] std::filesystem::path checks_file(const std::filesystem::path& instrument_file);

/// The checks that stand beside an instrument file; none where there is no such file. Throws trace::InputError.
[[nodiscard]] verification::InstrumentChecks load_instrument_checks(const std::filesystem::path& instrument_file);

/// Puts a check behind the others. The file is written whole, or stays as it was. Throws trace::InputError.
void append_instrument_check(const std::filesystem::path& instrument_file, verification::InstrumentChecks all,
                             verification::InstrumentCheck check);

} // namespace zeroline::records
