#include "acquisition/serial/languages/checksums.hpp"

#include <gtest/gtest.h>

#include <string>

namespace zeroline::serial::test {
namespace {

using namespace std::string_literals;

// The check value catalogued for CRC-16/MODBUS.
TEST(Checksums, crc_of_the_nine_digits_is_the_catalogued_one) { EXPECT_EQ(crc16_modbus("123456789"), 0x4B37); }

// Frames of a public Modbus listing used for interoperability; the first is the serial-line guide's (from memory).
TEST(Checksums, crc_fits_the_published_frames)
{
    struct Frame {
        std::string bytes;
        int crc;
    };
    for (const auto& [bytes, crc] : {
             Frame{"\x02\x07"s, 0x1241},
             Frame{"\x11\x03\x00\x6B\x00\x03"s, 0x8776},
             Frame{"\x11\x03\x06\xAE\x41\x56\x52\x43\x40"s, 0xAD49},
             Frame{"\x11\x04\x00\x08\x00\x01"s, 0x98B2},
             Frame{"\x11\x04\x02\x00\x0A"s, 0xF4F8},
             Frame{"\x11\x01\x00\x13\x00\x25"s, 0x840E},
             Frame{"\x11\x02\x00\xC4\x00\x16"s, 0xA9BA},
             Frame{"\x11\x02\x03\xAC\xDB\x35"s, 0x1820},
             Frame{"\x01\x03\x00\x00\x00\x0A"s, 0xCDC5},
             Frame{"\x01\x03\x00\x00\x00\x02"s, 0x0BC4},
             // Exceptions and floats: the forms of the application protocol, sums computed independently.
             Frame{"\x01\x83\x02"s, 0xF1C0},
             Frame{"\x11\x83\x02"s, 0x34C1},
             Frame{"\x01\x84\x04"s, 0xC342},
             Frame{"\x01\x03\x04\x42\x20\x00\x00"s, 0x81EF},
             Frame{"\x01\x03\x04\x00\x00\x42\x20"s, 0x4BCB},
         }) {
        EXPECT_EQ(crc16_modbus(bytes), crc);
        const std::string on_the_wire =
            bytes + static_cast<char>(crc & 0xFF) + static_cast<char>(static_cast<unsigned>(crc) >> 8U);
        EXPECT_EQ(crc16_modbus(on_the_wire), 0) << "a frame with its own CRC sums to nothing";
    }
}

// Catalogued for CRC-16/CCITT with start 0xFFFF; Python's binascii.crc_hqx("123456789", 0xFFFF) gives the same.
TEST(Checksums, other_crc_of_the_nine_digits_is_the_catalogued_one)
{
    EXPECT_EQ(crc16_ccitt("123456789"), 0x29B1);
    EXPECT_EQ(crc16_ccitt(""), 0xFFFF);
}

TEST(Checksums, sum_wraps_round_at_256)
{
    EXPECT_EQ(sum8("123456789"), 477 - 256);
    EXPECT_EQ(sum8("\xFF\x02"), 1);
}

// The sentence that explains the NMEA 0183 checksum in many public descriptions (from memory).
TEST(Checksums, xor_fits_a_published_sentence)
{
    EXPECT_EQ(xor8("GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,"), 0x47);
    EXPECT_EQ(xor8(""), 0);
    EXPECT_EQ(xor8("AA"), 0);
}

} // namespace
} // namespace zeroline::serial::test
