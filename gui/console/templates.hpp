#pragma once

#include <string_view>

namespace zeroline::console {

enum class Template { order, instrument, bench };

/// A file to start from, with remarks; it reads as it stands.
[[nodiscard]] std::string_view template_text(Template which);

} // namespace zeroline::console
