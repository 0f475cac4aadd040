#pragma once

#include <filesystem>

namespace zeroline::console {

/// Refuses a place for a new file where something stands already; nothing is overwritten. Throws trace::InputError.
void refuse_taken(const std::filesystem::path& file);

/// Refuses a place inside a record folder: a record holds what was sealed, and nothing else. Throws trace::InputError.
void refuse_inside_record(const std::filesystem::path& file);

} // namespace zeroline::console
