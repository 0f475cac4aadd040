#pragma once

#include <string>
#include <string_view>

namespace zeroline::console {

/// Writes a file whole, with its folder. Throws trace::InputError where something stands there already: nothing is
/// overwritten.
void write_new_file(const std::string& path, std::string_view text);

} // namespace zeroline::console
