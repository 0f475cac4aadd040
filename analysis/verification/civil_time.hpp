#pragma once

#include <cstdint>
#include <string>

namespace zeroline::verification {

/// Whether `text` is an instant as RFC 3339 writes it, with its offset: "2026-11-25T09:12:04+01:00" (seconds may have
/// a fraction, a leap second is allowed, "Z" is an offset).
[[nodiscard]] bool is_instant(const std::string& text);

/// The calendar day of an instant, in its own offset: "2026-11-25". Call it with what is_instant() accepts.
[[nodiscard]] std::string day_of(const std::string& instant);

/// An instant as seconds since 1970-01-01T00:00:00Z, its fraction left out: what can be compared whatever the offsets.
/// Call it with what is_instant() accepts.
[[nodiscard]] std::int64_t epoch_s_of(const std::string& instant);

} // namespace zeroline::verification
