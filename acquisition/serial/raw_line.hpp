#pragma once

#include "acquisition/trace/instrument.hpp"

#include <functional>
#include <string>
#include <string_view>

namespace zeroline::serial {

/// Opens `port` with the settings of `instrument` and hands over what comes, as it comes; asks, where its language is a
/// polled one. `take` is told at least twenty times a second, with no bytes where none came; false ends it. Blocks.
/// Returns false where the port went away. Throws trace::InputError where the port cannot be opened.
bool listen_raw(const std::string& port, const trace::Instrument& instrument,
                const std::function<bool(std::string_view)>& take);

/// Bytes as a person can read them: printable ASCII as it is, everything else as \xHH.
[[nodiscard]] std::string with_escapes(std::string_view bytes);

} // namespace zeroline::serial
