#pragma once

#include <cstdint>
#include <string_view>

namespace zeroline::serial {

/// Exclusive-or of all bytes.
[[nodiscard]] std::uint8_t xor8(std::string_view bytes) noexcept;

/// CRC-16/MODBUS: polynomial 0x8005 reflected, start 0xFFFF, nothing at the end; 0x4B37 for "123456789".
/// On a Modbus line its low byte goes first.
[[nodiscard]] std::uint16_t crc16_modbus(std::string_view bytes);

/// Sum of all bytes, modulo 256.
[[nodiscard]] std::uint8_t sum8(std::string_view bytes) noexcept;

/// CRC-16/CCITT with start 0xFFFF: polynomial 0x1021, nothing reflected; 0x29B1 for "123456789".
[[nodiscard]] std::uint16_t crc16_ccitt(std::string_view bytes);

} // namespace zeroline::serial
