#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::unit_register {

// A record is registered whatever breaks off: before it is sealed, a note of its folder is put beside the register;
// once it is registered, the note goes. What the register could not take, or a program that was killed left behind, is
// delivered by the next that saves or starts.

/// The register of a bench: register.db beside its key. Throws trace::InputError.
[[nodiscard]] std::filesystem::path register_file(const std::optional<std::filesystem::path>& bench_file);

/// Notes that a record will be sealed as `folder`. Never throws: that it could not be noted stops no save.
void expect_record(const std::optional<std::filesystem::path>& bench_file, const std::filesystem::path& folder);

/// Registers every record that was noted and is sealed, and the one just saved, noted or not. Returns a line for each
/// that the register did not take, which stays noted, and throws nothing: no save is undone by it. Does not open the
/// register where nothing is to be delivered.
[[nodiscard]] std::vector<std::string> deliver(const std::optional<std::filesystem::path>& bench_file,
                                               const std::filesystem::path& saved = {});

/// Runs that nobody has sealed yet: each FOLDER.part that was noted, or lies with a trace in one of `places`; each
/// once, by their paths.
[[nodiscard]] std::vector<std::filesystem::path> unsigned_runs(const std::filesystem::path& register_file,
                                                               const std::vector<std::filesystem::path>& places);

} // namespace zeroline::unit_register
