#pragma once

#include <filesystem>
#include <vector>

namespace zeroline::console {

/// The program's own file and every shared library that is loaded with it, as paths on disk, sorted; the program first.
[[nodiscard]] std::vector<std::filesystem::path> loaded_files();

} // namespace zeroline::console
