#include "acquisition/serial/languages/checksums.hpp"

#include <boost/crc.hpp>

namespace zeroline::serial {

std::uint8_t xor8(std::string_view bytes) noexcept
{
    std::uint8_t sum = 0;
    for (const char c : bytes) {
        sum = static_cast<std::uint8_t>(sum ^ static_cast<std::uint8_t>(c));
    }
    return sum;
}

std::uint16_t crc16_modbus(std::string_view bytes)
{
    boost::crc_optimal<16, 0x8005, 0xFFFF, 0, true, true> crc;
    crc.process_bytes(bytes.data(), bytes.size());
    return static_cast<std::uint16_t>(crc.checksum());
}

std::uint8_t sum8(std::string_view bytes) noexcept
{
    std::uint8_t sum = 0;
    for (const char c : bytes) {
        sum = static_cast<std::uint8_t>(sum + static_cast<std::uint8_t>(c));
    }
    return sum;
}

std::uint16_t crc16_ccitt(std::string_view bytes)
{
    boost::crc_ccitt_type crc;
    crc.process_bytes(bytes.data(), bytes.size());
    return static_cast<std::uint16_t>(crc.checksum());
}

} // namespace zeroline::serial
