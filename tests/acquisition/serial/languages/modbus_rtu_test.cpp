#include "acquisition/serial/languages/modbus_rtu.hpp"

#include "acquisition/serial/languages/line_timing.hpp"
#include "tests/acquisition/serial/languages/framing.hpp"

#include <gmock/gmock.h>

#include <initializer_list>
#include <random>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;
using trace::Language;
using trace::NoteKind;
using Register = trace::Language::Register;

std::string bytes(std::initializer_list<int> values)
{
    std::string text;
    for (const int value : values) {
        text += static_cast<char>(value);
    }
    return text;
}

trace::Instrument instrument_with(int address, int function, int first, Register type, bool low_word_first = false)
{
    trace::Instrument instrument;
    instrument.port.baud = 19200;
    instrument.language.kind = Language::Kind::modbus_rtu;
    instrument.language.address = address;
    instrument.language.function = function;
    instrument.language.first_register = first;
    instrument.language.register_type = type;
    instrument.language.low_word_first = low_word_first;
    instrument.language.timeout_s = 0.5;
    instrument.language.retries = 1;
    return instrument;
}

// A decoder whose first request is on its way.
MakeDecoder asked(const trace::Instrument& instrument)
{
    return [instrument] {
        auto decoder = std::make_unique<ModbusRtu>(instrument);
        EXPECT_EQ(decoder->to_send(0.0).size(), 8u);
        return decoder;
    };
}

double value_in(const trace::Instrument& instrument, const std::string& answer)
{
    const Outcome outcome = decoded_in_every_way(asked(instrument), answer);
    EXPECT_EQ(outcome.discarded, 0u);
    return outcome.readings.size() == 1 ? outcome.readings[0].value : std::nan("");
}

// Frames of a public Modbus listing used for interoperability.
TEST(ModbusRtu, writes_the_published_requests)
{
    EXPECT_EQ(modbus_request(0x11, 3, 0x6B, 3), bytes({0x11,          // unit address
                                                       0x03,          // read holding registers
                                                       0x00, 0x6B,    // first register
                                                       0x00, 0x03,    // how many
                                                       0x76, 0x87})); // CRC, low byte first
    EXPECT_EQ(modbus_request(0x11, 4, 8, 1), bytes({0x11, 0x04, 0x00, 0x08, 0x00, 0x01, 0xB2, 0x98}));
    EXPECT_EQ(modbus_request(1, 3, 0, 10), bytes({0x01, 0x03, 0x00, 0x00, 0x00, 0x0A, 0xC5, 0xCD}));
    EXPECT_EQ(modbus_request(1, 3, 0, 2), bytes({0x01, 0x03, 0x00, 0x00, 0x00, 0x02, 0xC4, 0x0B}));
}

TEST(ModbusRtu, asks_for_as_many_registers_as_its_type_takes)
{
    EXPECT_EQ(ModbusRtu(instrument_with(0x11, 4, 8, Register::uint16)).to_send(0.0), modbus_request(0x11, 4, 8, 1));
    EXPECT_EQ(ModbusRtu(instrument_with(1, 3, 0, Register::float32)).to_send(0.0), modbus_request(1, 3, 0, 2));
}

// The same public listing: ten in an input register.
TEST(ModbusRtu, reads_the_published_answer)
{
    EXPECT_EQ(value_in(instrument_with(0x11, 4, 8, Register::uint16),
                       bytes({0x11,          // unit address
                              0x04,          // read input registers
                              0x02,          // bytes that follow
                              0x00, 0x0A,    // the register
                              0xF8, 0xF4})), // CRC
              10.0);
}

// IEEE 754 binary32 of 40: 42 20 00 00; CRCs computed independently.
TEST(ModbusRtu, reads_a_float_in_either_word_order)
{
    EXPECT_EQ(value_in(instrument_with(1, 3, 0, Register::float32),
                       bytes({0x01, 0x03, 0x04, 0x42, 0x20, 0x00, 0x00, 0xEF, 0x81})),
              40.0);
    EXPECT_EQ(value_in(instrument_with(1, 3, 0, Register::float32, true),
                       bytes({0x01, 0x03, 0x04, 0x00, 0x00, 0x42, 0x20, 0xCB, 0x4B})),
              40.0);
}

std::string answer_with(const std::string& data)
{
    std::string frame = bytes({0x01, 0x03, static_cast<int>(data.size())}) + data;
    // The CRC, bit by bit as the serial-line guide describes it.
    unsigned crc = 0xFFFF;
    for (const char c : frame) {
        crc ^= static_cast<unsigned char>(c);
        for (int bit = 0; bit < 8; ++bit) {
            crc = (crc & 1U) != 0 ? (crc >> 1U) ^ 0xA001U : crc >> 1U;
        }
    }
    frame += static_cast<char>(crc & 0xFFU);
    frame += static_cast<char>(crc >> 8U);
    return frame;
}

TEST(ModbusRtu, reads_every_type_with_its_sign)
{
    const auto read = [](Register type, const std::string& data, bool low_first = false) {
        return value_in(instrument_with(1, 3, 0, type, low_first), answer_with(data));
    };
    EXPECT_EQ(read(Register::int16, bytes({0xFF, 0xFE})), -2.0);
    EXPECT_EQ(read(Register::uint16, bytes({0xFF, 0xFE})), 65534.0);
    EXPECT_EQ(read(Register::int32, bytes({0xFF, 0xFF, 0xFF, 0xFE})), -2.0);
    EXPECT_EQ(read(Register::int32, bytes({0x00, 0x01, 0x00, 0x02})), 65538.0);
    EXPECT_EQ(read(Register::int32, bytes({0x00, 0x02, 0x00, 0x01}), true), 65538.0);
    EXPECT_EQ(read(Register::float32, bytes({0xC2, 0x20, 0x00, 0x00})), -40.0);
    EXPECT_EQ(read(Register::float32, bytes({0x42, 0x1F, 0x7A, 0xE1})), 39.869998931884766);
    EXPECT_EQ(read(Register::float32, bytes({0x42, 0x72, 0x00, 0x00})), 60.5);
}

TEST(ModbusRtu, applies_scale_and_offset)
{
    trace::Instrument instrument = instrument_with(1, 3, 0, Register::int16);
    instrument.language.scale = 0.01;
    instrument.language.offset = -5.0;
    EXPECT_DOUBLE_EQ(value_in(instrument, answer_with(bytes({0x10, 0x68}))), 42.0 - 5.0);
}

TEST(ModbusRtu, makes_of_a_float_that_is_no_number_a_reading_without_value)
{
    for (const auto& [data, note] :
         std::vector<std::pair<std::string, NoteKind>>{{bytes({0x7F, 0xC0, 0x00, 0x00}), NoteKind::not_a_number},
                                                       {bytes({0x7F, 0x80, 0x00, 0x00}), NoteKind::overrange},
                                                       {bytes({0xFF, 0x80, 0x00, 0x00}), NoteKind::overrange}}) {
        const Outcome outcome =
            decoded_in_every_way(asked(instrument_with(1, 3, 0, Register::float32)), answer_with(data));
        ASSERT_EQ(outcome.readings.size(), 1u);
        EXPECT_TRUE(outcome.readings[0].has_note);
        EXPECT_EQ(outcome.readings[0].note, note);
        EXPECT_TRUE(std::isnan(outcome.readings[0].value));
    }
}

// Exception frames with independently computed CRCs; the words are the application protocol's (from memory).
TEST(ModbusRtu, puts_an_exception_in_words)
{
    const auto trouble = [](const trace::Instrument& instrument, const std::string& answer) {
        ModbusRtu decoder(instrument);
        std::vector<Reading> none;
        EXPECT_NE(decoder.to_send(0.0), "");
        decoder.feed(answer, 0.1, none);
        EXPECT_TRUE(none.empty());
        EXPECT_EQ(decoder.discarded_bytes(), 5u);
        return decoder.trouble();
    };
    EXPECT_EQ(trouble(instrument_with(1, 3, 0, Register::float32), bytes({0x01, 0x83, 0x02, 0xC0, 0xF1})),
              "the instrument answers with exception 2, illegal data address");
    EXPECT_EQ(trouble(instrument_with(0x11, 3, 0, Register::int16), bytes({0x11, 0x83, 0x02, 0xC1, 0x34})),
              "the instrument answers with exception 2, illegal data address");
    EXPECT_EQ(trouble(instrument_with(1, 4, 0, Register::int16), bytes({0x01, 0x84, 0x04, 0x42, 0xC3})),
              "the instrument answers with exception 4, server device failure");
}

TEST(ModbusRtu, finds_the_answer_behind_noise_an_echo_and_other_units)
{
    const std::string answer = answer_with(bytes({0x00, 0x07}));
    const std::string request = modbus_request(1, 3, 0, 1);
    const std::string other = bytes({0x11, 0x04, 0x02, 0x00, 0x0A, 0xF8, 0xF4});
    for (const std::string& before : {bytes({0xFF}), bytes({0x01}), bytes({0x01, 0x03}), bytes({0x01, 0x03, 0x02}),
                                      bytes({0x01, 0x01, 0x03}), request, other, request + other}) {
        const Outcome outcome = decoded_in_every_way(asked(instrument_with(1, 3, 0, Register::int16)), before + answer);
        ASSERT_EQ(outcome.readings.size(), 1u);
        EXPECT_EQ(outcome.readings[0].value, 7.0);
        EXPECT_EQ(outcome.discarded, before.size());
    }
}

TEST(ModbusRtu, takes_no_answer_with_a_single_bit_wrong)
{
    const std::string answer = answer_with(bytes({0x12, 0x34}));
    for (std::size_t bit = 0; bit < answer.size() * 8; ++bit) {
        std::string damaged = answer;
        damaged[bit / 8] = static_cast<char>(damaged[bit / 8] ^ (1 << (bit % 8)));
        EXPECT_TRUE(decoded(asked(instrument_with(1, 3, 0, Register::int16)), {damaged}).readings.empty()) << bit;
    }
}

TEST(ModbusRtu, repeats_a_request_counts_it_and_says_who_does_not_answer)
{
    ModbusRtu decoder(instrument_with(9, 3, 0, Register::int16));
    EXPECT_NE(decoder.to_send(1.0), "");
    EXPECT_EQ(decoder.to_send(1.2), "");
    EXPECT_NE(decoder.to_send(1.6), "");
    EXPECT_EQ(decoder.unanswered(), 1u);
    EXPECT_EQ(decoder.trouble(), "no answer from address 9");
}

TEST(ModbusRtu, stamps_a_reading_half_way_between_request_and_answer)
{
    ModbusRtu decoder(instrument_with(1, 3, 0, Register::int16));
    std::vector<Reading> readings;
    EXPECT_NE(decoder.to_send(2.0), "");
    decoder.feed(answer_with(bytes({0, 1})), 2.02, readings);
    EXPECT_DOUBLE_EQ(readings.at(0).arrival_s, 2.01);
}

// Serial-line guide V1.02, 2.5.1.1: characters of 11 bits, fixed above 19200 baud (from memory, the fixed value read).
TEST(ModbusRtu, keeps_the_published_silence_between_frames)
{
    EXPECT_NEAR(modbus_silence_s(1200), 32.083333e-3, 1e-9);
    EXPECT_NEAR(modbus_silence_s(2400), 16.041667e-3, 1e-9);
    EXPECT_NEAR(modbus_silence_s(4800), 8.020833e-3, 1e-9);
    EXPECT_NEAR(modbus_silence_s(9600), 4.010417e-3, 1e-9);
    EXPECT_NEAR(modbus_silence_s(19200), 2.005208e-3, 1e-9);
    EXPECT_EQ(modbus_silence_s(38400), 1.75e-3);
    EXPECT_EQ(modbus_silence_s(115200), 1.75e-3);

    ModbusRtu decoder(instrument_with(1, 3, 0, Register::int16));
    std::vector<Reading> readings;
    EXPECT_NE(decoder.to_send(1.0), "");
    decoder.feed(answer_with(bytes({0, 1})), 1.01, readings);
    EXPECT_EQ(decoder.to_send(1.011), "");
    EXPECT_NEAR(decoder.next_s(), 1.01 + 2.005208e-3, 1e-9);
    EXPECT_NE(decoder.to_send(1.0121), "");
}

TEST(ModbusRtu, accounts_for_every_byte_of_noise_and_answers_and_finds_back_at_the_next_answer)
{
    std::mt19937 random(11);
    ModbusRtu decoder(instrument_with(1, 3, 0, Register::int16));
    std::vector<Reading> readings;
    std::uint64_t sent = 0;
    double now = 0.0;
    for (int round = 0; round < 300; ++round) {
        now += 1.0;
        EXPECT_NE(decoder.to_send(now), "");
        std::string noise;
        for (unsigned i = 0, n = static_cast<unsigned>(random()) % 40; i < n; ++i) {
            noise += static_cast<char>(random() % 4); // full of addresses and functions
        }
        const std::string heard = noise + answer_with(bytes({0, 5}));
        decoder.feed(heard, now + 0.1, readings);
        sent += heard.size();
    }
    EXPECT_EQ(readings.size(), 300u);
    EXPECT_EQ(decoder.discarded_bytes() + 7 * readings.size(), sent);
}

TEST(LineTiming, counts_start_parity_and_stop_bits)
{
    trace::PortSettings port;
    port.baud = 9600;
    EXPECT_DOUBLE_EQ(wire_time_s(port, 96), 0.1);
    port.parity = trace::Parity::even;
    port.stop_bits = 2;
    EXPECT_DOUBLE_EQ(wire_time_s(port, 100), 0.125);
}

TEST(LineTiming, tells_how_many_readings_a_line_can_carry)
{
    trace::Instrument lines;
    lines.port.baud = 9600;
    EXPECT_DOUBLE_EQ(highest_rate_hz(lines), 9600.0 / 10.0 / 5.0); // "-1.5" and a line end
    const trace::Instrument modbus = instrument_with(1, 3, 0, Register::int16);
    EXPECT_NEAR(highest_rate_hz(modbus), 1.0 / (15.0 * 10.0 / 19200.0 + 2.0 * 2.005208e-3), 1e-3);
}

} // namespace
} // namespace zeroline::serial::test
