#pragma once

#include <chrono>
#include <string>

namespace zeroline::console {

/// A moment as RFC 3339 with the offset of the local time zone: "2026-11-25T09:12:04+01:00".
[[nodiscard]] std::string local_rfc3339(std::chrono::system_clock::time_point moment);

/// Today, in the local time zone: "2026-11-25".
[[nodiscard]] std::string local_day();

} // namespace zeroline::console
