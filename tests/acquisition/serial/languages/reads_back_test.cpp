// Whatever an instrument may say, the trace that is written of it can be read again: over decoder, writer and reader.

#include "acquisition/serial/languages/checksums.hpp"
#include "acquisition/serial/languages/decoder.hpp"
#include "acquisition/serial/languages/modbus_rtu.hpp"
#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/trace_csv.hpp"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <bit>
#include <cmath>
#include <limits>

namespace zeroline::serial {
namespace {

using trace::Instrument;
using trace::Language;
using trace::NoteKind;

Instrument instrument_of(Language::Kind kind)
{
    Instrument instrument;
    instrument.port.baud = 115200;
    instrument.nominal_hz = 100.0;
    instrument.range = {-100.0, 100.0, 0.01, trace::PressureUnit::cmH2O};
    auto& language = instrument.language;
    language.kind = kind;
    language.separator = ",";
    language.count_field = kind == Language::Kind::numeric_lines ? std::optional(2) : std::nullopt;
    language.time_field = kind == Language::Kind::numeric_lines ? std::optional(3) : std::nullopt;
    language.query = "READ?";
    language.line_end = "\n";
    language.address = 1;
    language.function = 3;
    language.register_type = Language::Register::float32;
    return instrument;
}

/// As capture writes it.
std::string written(const Instrument& instrument, const std::vector<Reading>& readings)
{
    const auto& language = instrument.language;
    const trace::TraceCsvWriter writer(
        {true, language.unit, language.count_field.has_value(), language.time_field.has_value(), true});
    auto text = writer.header();
    for (const auto& reading : readings) {
        writer.append_row(text, reading.arrival_s, reading.value, reading.count, reading.instrument_time_s,
                          reading.has_note ? trace::word_of(reading.note) : std::string_view());
    }
    return text;
}

void expect_reads_back(const Instrument& instrument, const std::vector<Reading>& readings)
{
    const auto text = written(instrument, readings);
    try {
        const auto raw = trace::parse_trace_csv(text);
        EXPECT_EQ(raw.moment_s.size(), readings.size());
        const auto derived = trace::derive(raw, &instrument);
        for (std::size_t i = 0; i < derived.size(); ++i) {
            EXPECT_TRUE(std::isfinite(derived.pressure_cmH2O[i]) && std::isfinite(derived.time_s[i]));
        }
    } catch (const std::exception& refusal) {
        ADD_FAILURE() << refusal.what() << "\nwhere capture had written\n" << text;
    }
}

std::vector<Reading> read_from_lines(const Instrument& instrument, const std::vector<std::string>& lines)
{
    const auto decoder = decoder_for(instrument);
    std::vector<Reading> readings;
    decoder->feed("\n", 0.0, readings);
    double now_s = 0.0;
    for (const auto& line : lines) {
        decoder->feed(line + "\n", now_s += 0.01, readings);
    }
    return readings;
}

std::vector<Reading> read_from_answers(const Instrument& instrument, const std::vector<std::string>& answers)
{
    const auto decoder = decoder_for(instrument);
    std::vector<Reading> readings;
    double now_s = 0.0;
    for (const auto& answer : answers) {
        now_s = std::max(now_s + 0.01, decoder->next_s());
        const auto question = decoder->to_send(now_s);
        decoder->feed(question.starts_with("*IDN") ? "invented\n" : answer, now_s + 0.005, readings);
    }
    return readings;
}

std::string modbus_answer(std::uint32_t bits)
{
    std::string frame("\x01\x03\x04", 3);
    for (unsigned shift = 32; shift > 0; shift -= 8) {
        frame += static_cast<char>((bits >> (shift - 8)) & 0xFFU);
    }
    const unsigned crc = crc16_modbus(frame);
    frame += static_cast<char>(crc & 0xFFU);
    frame += static_cast<char>(crc >> 8U);
    return frame;
}

TEST(ReadsBack, sentinels_of_instruments_are_overrange)
{
    const auto lines = instrument_of(Language::Kind::numeric_lines);
    const auto from_lines = read_from_lines(lines, {"1.5,1,0.1", "9999999999,2,0.2", "-3.4e38,3,0.3", "1.6,4,0.4"});
    ASSERT_EQ(from_lines.size(), 4u);
    for (const std::size_t i : {1u, 2u}) {
        EXPECT_TRUE(from_lines[i].has_note && from_lines[i].note == NoteKind::overrange) << i;
        EXPECT_TRUE(std::isnan(from_lines[i].value)) << i;
    }
    expect_reads_back(lines, from_lines);

    const auto registers = instrument_of(Language::Kind::modbus_rtu);
    const auto largest = std::bit_cast<std::uint32_t>(std::numeric_limits<float>::max());
    const auto from_registers = read_from_answers(registers, {modbus_answer(largest)});
    ASSERT_EQ(from_registers.size(), 1u);
    EXPECT_TRUE(from_registers[0].has_note && from_registers[0].note == NoteKind::overrange);
    expect_reads_back(registers, from_registers);

    const auto asked = instrument_of(Language::Kind::scpi_query);
    const auto from_answers = read_from_answers(asked, {"", "9999999999\n"});
    ASSERT_EQ(from_answers.size(), 1u);
    EXPECT_TRUE(from_answers[0].has_note && from_answers[0].note == NoteKind::overrange);
    expect_reads_back(asked, from_answers);
}

TEST(ReadsBack, a_count_or_a_time_that_no_trace_holds_costs_no_pressure)
{
    const auto lines = instrument_of(Language::Kind::numeric_lines);
    const auto readings = read_from_lines(lines, {"1.5,1,0.1", "1.6,9007199254740993,0.2", "1.7,3,1e14", "1.8,4,0.4"});
    ASSERT_EQ(readings.size(), 4u);
    EXPECT_EQ(readings[1].value, 1.6);
    EXPECT_EQ(readings[1].count, -1);
    EXPECT_EQ(readings[2].value, 1.7);
    EXPECT_TRUE(std::isnan(readings[2].instrument_time_s));
    expect_reads_back(lines, readings);
}

/// Numbers as a broken or an odd instrument may write them.
std::string any_number()
{
    static const std::vector<std::string> odd{"9999999999",
                                              "-9999999999",
                                              "1e9",
                                              "1.0000000001e9",
                                              "3.4028235e38",
                                              "1e14",
                                              "-1e14",
                                              "1e300",
                                              "9.9E37",
                                              "9.91E37",
                                              "nan",
                                              "-inf",
                                              "4.9e-324",
                                              "9007199254740992",
                                              "9007199254740993",
                                              "9223372036854775807",
                                              "18446744073709551615",
                                              "-0",
                                              "+ 1.5",
                                              ""};
    switch (*rc::gen::inRange(0, 4)) {
    case 0:
        return *rc::gen::elementOf(odd);
    case 1:
        return std::to_string(*rc::gen::arbitrary<std::int64_t>());
    case 2:
        return std::to_string(*rc::gen::inRange(-50000, 50000) / 100.0);
    default:
        return std::to_string(*rc::gen::inRange(0, 1000)) + "e" + std::to_string(*rc::gen::inRange(-330, 330));
    }
}

RC_GTEST_PROP(ReadsBack, whatever_is_written_of_lines_is_read, ())
{
    const auto instrument = instrument_of(Language::Kind::numeric_lines);
    std::vector<std::string> lines;
    for (int i = *rc::gen::inRange(0, 30); i > 0; --i) {
        lines.push_back(any_number() + "," + any_number() + "," + any_number());
    }
    expect_reads_back(instrument, read_from_lines(instrument, lines));
}

RC_GTEST_PROP(ReadsBack, whatever_is_written_of_answers_is_read, ())
{
    const auto instrument = instrument_of(Language::Kind::scpi_query);
    std::vector<std::string> answers;
    for (int i = *rc::gen::inRange(0, 30); i > 0; --i) {
        answers.push_back(any_number() + "\n");
    }
    expect_reads_back(instrument, read_from_answers(instrument, answers));
}

RC_GTEST_PROP(ReadsBack, whatever_is_written_of_registers_is_read, ())
{
    auto instrument = instrument_of(Language::Kind::modbus_rtu);
    instrument.language.scale = *rc::gen::elementOf(std::vector<double>{1.0, -1e6, 0.001});
    std::vector<std::string> answers;
    for (int i = *rc::gen::inRange(0, 30); i > 0; --i) {
        answers.push_back(modbus_answer(*rc::gen::arbitrary<std::uint32_t>()));
    }
    expect_reads_back(instrument, read_from_answers(instrument, answers));
}

} // namespace
} // namespace zeroline::serial
