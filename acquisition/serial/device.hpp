#pragma once

#include "acquisition/trace/instrument.hpp"

#include <cstdint>
#include <string>

namespace zeroline::serial {

/// What Asio has no words for: opening a device for one program alone, control lines, the driver's own counts.

/// An open descriptor, non-blocking, raw, locked against other programs that ask. Throws trace::InputError.
[[nodiscard]] int open_alone(const std::string& path);

/// Sets a rate that termios has no constant for (e.g. 250000). False where the driver refuses.
[[nodiscard]] bool set_any_baud(int descriptor, int baud);

/// Damaged bytes arrive as NUL, not silently left out; dtr and rts as the settings say; short USB latency where the
/// driver offers it; input received before is dropped.
void prepare(int descriptor, const trace::PortSettings& settings);

/// Parity, framing and overrun errors the driver has counted; 0 where it does not count.
[[nodiscard]] std::uint64_t damaged_characters(int descriptor);

/// Bytes handed to the driver that are not on the wire yet.
[[nodiscard]] int unsent_bytes(int descriptor);
void drop_unsent(int descriptor);

} // namespace zeroline::serial
