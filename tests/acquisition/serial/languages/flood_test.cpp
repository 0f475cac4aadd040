// 100 MB of random bytes and of damaged streams through each decoder: no crash, no growing memory, every byte
// accounted.

#include "acquisition/serial/languages/modbus_rtu.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"
#include "acquisition/serial/languages/scpi_query.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <fstream>
#include <random>

namespace zeroline::serial::test {
namespace {

constexpr std::size_t kFlood = 100'000'000;
constexpr std::size_t kPiece = 4096;

double resident_MB()
{
    std::ifstream statm("/proc/self/statm");
    std::size_t total = 0;
    std::size_t resident = 0;
    statm >> total >> resident;
    return static_cast<double>(resident) * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1e6;
}

// Bytes at random, or a valid frame over and over in which one byte of fifty is changed.
std::string piece_of(std::mt19937& random, const std::string& frame)
{
    std::string bytes;
    while (bytes.size() < kPiece) {
        bytes += frame.empty() ? std::string(1, static_cast<char>(random())) : frame;
    }
    for (std::size_t at = random() % 50; !frame.empty() && at < bytes.size(); at += 1 + random() % 100) {
        bytes[at] = static_cast<char>(random());
    }
    return bytes;
}

void flood(Decoder& decoder, const std::string& frame)
{
    std::mt19937 random(3);
    std::vector<Reading> readings;
    double now_s = 0.0;
    std::uint64_t fed = 0;
    double after_a_tenth_MB = 0.0;
    while (fed < kFlood) {
        const std::string bytes = piece_of(random, frame);
        now_s += 0.3;
        static_cast<void>(decoder.to_send(now_s));
        readings.clear();
        decoder.feed(bytes, now_s, readings);
        fed += bytes.size();
        for (const Reading& reading : readings) {
            ASSERT_NE(reading.has_note, std::isfinite(reading.value));
        }
        if (after_a_tenth_MB == 0.0 && fed > kFlood / 10) {
            after_a_tenth_MB = resident_MB();
        }
    }
    EXPECT_LE(decoder.discarded_bytes(), fed);
    EXPECT_GT(decoder.discarded_bytes(), fed / 100);
    EXPECT_LT(resident_MB() - after_a_tenth_MB, 2.0);
}

trace::Instrument polled(trace::Language::Kind kind)
{
    trace::Instrument instrument;
    instrument.language.kind = kind;
    instrument.language.query = "READ?";
    instrument.language.timeout_s = 0.1;
    return instrument;
}

TEST(Flood, of_random_bytes_and_damaged_lines_leaves_the_line_decoder_sound)
{
    trace::Language language;
    language.checksum = trace::Language::Checksum::xor8;
    NumericLines random(language);
    flood(random, "");
    NumericLines damaged(language);
    flood(damaged, "12.5*18\r\n");
}

TEST(Flood, of_random_bytes_and_damaged_answers_leaves_the_query_decoder_sound)
{
    ScpiQuery random(polled(trace::Language::Kind::scpi_query));
    flood(random, "");
    ScpiQuery damaged(polled(trace::Language::Kind::scpi_query));
    flood(damaged, "+1.25E+01\n");
}

TEST(Flood, of_random_bytes_and_damaged_frames_leaves_the_register_decoder_sound)
{
    ModbusRtu random(polled(trace::Language::Kind::modbus_rtu));
    flood(random, "");
    ModbusRtu damaged(polled(trace::Language::Kind::modbus_rtu));
    flood(damaged, std::string("\x01\x03\x02\x00\x0A\x38\x43", 7));
}

} // namespace
} // namespace zeroline::serial::test
