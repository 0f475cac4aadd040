#pragma once

#include "acquisition/trace/instrument.hpp"

#include <cstddef>

namespace zeroline::serial {

/// Time that `characters` take on the wire, with start, parity and stop bits. Seconds.
[[nodiscard]] double wire_time_s(const trace::PortSettings& port, std::size_t characters);

/// Silence that parts Modbus RTU frames: 3.5 characters of 11 bits, 1.75 ms above 19200 baud (serial-line guide V1.02,
/// 2.5.1.1). Seconds.
[[nodiscard]] double modbus_silence_s(int baud);

/// Readings a second that the line allows at the most, if the instrument answered at once. Lines are taken to be as
/// short as they can be for the fields the instrument file names.
[[nodiscard]] double highest_rate_hz(const trace::Instrument& instrument);

/// Seconds from request to request of a polled instrument; 0 where its file gives no rate.
[[nodiscard]] double polling_period_s(const trace::Instrument& instrument);

} // namespace zeroline::serial
