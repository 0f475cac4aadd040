#include "acquisition/serial/languages/numeric_lines.hpp"

#include "tests/acquisition/serial/languages/framing.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <random>

namespace zeroline::serial::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using trace::Language;
using trace::NoteKind;

MakeDecoder lines(Language language = {})
{
    return [language] { return std::make_unique<NumericLines>(language); };
}

std::vector<double> values(const Outcome& outcome)
{
    std::vector<double> values;
    for (const Reading& reading : outcome.readings) {
        values.push_back(reading.value);
    }
    return values;
}

// What a stream is worth once the first line, which may be a tail, has gone by.
Outcome after_first_line(const Language& language, const std::string& bytes)
{
    Outcome outcome = decoded_in_every_way(lines(language), "\n" + bytes);
    EXPECT_GE(outcome.discarded, 1u);
    outcome.discarded -= 1;
    return outcome;
}

std::string trouble_after(const Language& language, const std::string& bytes)
{
    NumericLines decoder(language);
    std::vector<Reading> none;
    decoder.feed("\n" + bytes, 0.0, none);
    EXPECT_TRUE(none.empty());
    return decoder.trouble();
}

TEST(NumericLines, reads_a_number_a_line_whatever_ends_it)
{
    for (const std::string end : {"\n", "\r", "\r\n", "\n\r", "\r\n\r\n"}) {
        const Outcome outcome = after_first_line({}, "1.5" + end + "-2" + end + "+3.0E-01" + end);
        EXPECT_THAT(values(outcome), ElementsAre(1.5, -2.0, 0.3));
        EXPECT_EQ(outcome.discarded, 0u);
    }
}

TEST(NumericLines, discards_and_counts_the_first_line_since_it_may_be_the_tail_of_a_number)
{
    const Outcome outcome = decoded_in_every_way(lines(), "2.5\r\n13.0\r\n");
    EXPECT_THAT(values(outcome), ElementsAre(13.0));
    EXPECT_EQ(outcome.discarded, 4u);
}

TEST(NumericLines, keeps_an_unfinished_line_until_its_end_comes)
{
    NumericLines decoder({});
    std::vector<Reading> readings;
    decoder.feed("\n12.", 1.0, readings);
    EXPECT_TRUE(readings.empty());
    decoder.feed("5\n", 1.25, readings);
    ASSERT_EQ(readings.size(), 1u);
    EXPECT_EQ(readings[0].value, 12.5);
    EXPECT_EQ(readings[0].arrival_s, 1.25);
    EXPECT_EQ(decoder.discarded_bytes(), 1u);
}

TEST(NumericLines, takes_pressure_counter_and_time_from_their_fields)
{
    Language language;
    language.field = 2;
    language.count_field = 1;
    language.time_field = 4;
    language.time_scale_s = 0.001;
    const Outcome outcome = after_first_line(language, "17,-40.25,ok,1250\r\n");
    ASSERT_EQ(outcome.readings.size(), 1u);
    EXPECT_EQ(outcome.readings[0].value, -40.25);
    EXPECT_EQ(outcome.readings[0].count, 17);
    EXPECT_DOUBLE_EQ(outcome.readings[0].instrument_time_s, 1.25);
}

TEST(NumericLines, splits_at_blanks_tabs_semicolons_and_longer_separators)
{
    const auto second = [](std::string separator, const std::string& line) {
        Language language;
        language.field = 2;
        language.separator = std::move(separator);
        return values(after_first_line(language, line));
    };
    EXPECT_THAT(second(" ", "  P1   7.5  kPa\n"), ElementsAre(7.5));
    EXPECT_THAT(second(" ", "P1\t7.5\n"), ElementsAre(7.5));
    EXPECT_THAT(second(" ", "P1  -  7.5 kPa\n"), ElementsAre(-7.5));
    EXPECT_THAT(second("\t", "P1\t 7.5 \t\t\n"), ElementsAre(7.5));
    EXPECT_THAT(second(";", "P1;7.5\n"), ElementsAre(7.5));
    EXPECT_THAT(second("::", "P1::7.5::x\n"), ElementsAre(7.5));
    EXPECT_THAT(second(",", ",7.5,\n"), ElementsAre(7.5));
}

TEST(NumericLines, reads_a_decimal_comma)
{
    Language language;
    language.decimal = ',';
    language.separator = ";";
    EXPECT_THAT(values(after_first_line(language, "-12,5;x\n+1,25E+1;x\n")), ElementsAre(-12.5, 12.5));
}

TEST(NumericLines, makes_of_overrange_and_not_a_number_readings_without_value)
{
    Language language;
    language.overrange_words = {"OL", "----"};
    const Outcome outcome = after_first_line(language, "OL\n----\n9.9E37\n-9.9E+37\n9.91E37\nNaN\ninf\n5\n");
    std::vector<NoteKind> notes;
    for (const Reading& reading : outcome.readings) {
        EXPECT_NE(reading.has_note, std::isfinite(reading.value));
        if (reading.has_note) {
            notes.push_back(reading.note);
        }
    }
    EXPECT_THAT(notes, ElementsAre(NoteKind::overrange, NoteKind::overrange, NoteKind::overrange, NoteKind::overrange,
                                   NoteKind::not_a_number, NoteKind::not_a_number, NoteKind::overrange));
    EXPECT_EQ(outcome.readings.back().value, 5.0);
    EXPECT_EQ(outcome.discarded, 0u);
}

// NIST SP 811, appendix B.8: 1 cmH2O = 98.0665 Pa.
TEST(NumericLines, converts_the_unit_that_stands_on_the_line)
{
    Language language;
    language.separator = " ";
    language.unit_field = 2;
    const Outcome outcome = after_first_line(language, "40 cmH2O\n3922.66 Pa\n39.2266 HPA\n40 CMH2O\n");
    ASSERT_EQ(outcome.readings.size(), 4u);
    for (const Reading& reading : outcome.readings) {
        EXPECT_NEAR(reading.value, 40.0, 40.0 * 1e-12);
    }
    EXPECT_EQ(outcome.readings[0].value, 40.0);
}

TEST(NumericLines, parts_number_and_unit_that_share_a_field)
{
    Language language;
    language.unit = trace::PressureUnit::Pa;
    language.unit_field = 1;
    const Outcome outcome = after_first_line(language, "1.5kPa,x\n-2E+1 hPa,x\n7 cmH2O,x\n");
    ASSERT_EQ(outcome.readings.size(), 3u);
    EXPECT_DOUBLE_EQ(outcome.readings[0].value, 1500.0);
    EXPECT_DOUBLE_EQ(outcome.readings[1].value, -2000.0);
    EXPECT_DOUBLE_EQ(outcome.readings[2].value, 686.4655);
}

// The well-known sentence of NMEA 0183 (from memory); its tenth field is a number like any other.
TEST(NumericLines, checks_an_xor_checksum_and_leaves_the_opening_mark_out_of_it)
{
    Language language;
    language.checksum = Language::Checksum::xor8;
    language.field = 10;
    const std::string sentence = "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\r\n";
    EXPECT_THAT(values(after_first_line(language, sentence)), ElementsAre(545.4));

    std::string damaged = sentence;
    damaged[damaged.find("545.4")] = '9';
    const Outcome outcome = after_first_line(language, damaged);
    ASSERT_EQ(outcome.readings.size(), 1u);
    EXPECT_TRUE(outcome.readings[0].has_note);
    EXPECT_EQ(outcome.readings[0].note, NoteKind::checksum);
    EXPECT_TRUE(std::isnan(outcome.readings[0].value));
    EXPECT_EQ(outcome.discarded, sentence.size() - 1);
}

// 0x4B37 is the catalogued check value of CRC-16/MODBUS over these nine digits.
TEST(NumericLines, checks_a_crc_checksum)
{
    Language language;
    language.checksum = Language::Checksum::crc16_modbus;
    language.checksum_separator = ";";
    EXPECT_THAT(values(after_first_line(language, "123456789;4B37\n123456789;4b37\n")),
                ElementsAre(123456789.0, 123456789.0));
    EXPECT_EQ(after_first_line(language, "123456788;4B37\n").readings.at(0).note, NoteKind::checksum);
}

// 0x29B1: catalogued for CRC-16/CCITT with start 0xFFFF; Python's binascii.crc_hqx gives the same. The sum of the nine
// digits is 477, that is 0x1DD.
TEST(NumericLines, checks_a_sum_and_the_other_crc)
{
    Language language;
    language.checksum = Language::Checksum::crc16_ccitt;
    EXPECT_THAT(values(after_first_line(language, "123456789*29B1\n")), ElementsAre(123456789.0));
    EXPECT_EQ(after_first_line(language, "123456788*29B1\n").readings.at(0).note, NoteKind::checksum);
    language.checksum = Language::Checksum::sum8;
    EXPECT_THAT(values(after_first_line(language, "123456789*DD\n")), ElementsAre(123456789.0));
    EXPECT_EQ(after_first_line(language, "123456788*DD\n").readings.at(0).note, NoteKind::checksum);
}

TEST(NumericLines, multiplies_and_adds_before_it_converts_the_unit)
{
    Language language;
    language.scale = 0.01;
    language.offset = -10.0;
    EXPECT_THAT(values(after_first_line(language, "5000\n0\n")), ElementsAre(40.0, -10.0));
    language.unit = trace::PressureUnit::Pa;
    language.unit_field = 2;
    EXPECT_THAT(values(after_first_line(language, "1500,hPa\n")), ElementsAre(500.0));
}

TEST(NumericLines, reads_a_number_behind_its_prefix_and_no_other_line)
{
    Language language;
    language.prefix = "P1:";
    const Outcome outcome = after_first_line(language, "P1:-40.03\nT1:21.5\nP1: 3\n");
    EXPECT_THAT(values(outcome), ElementsAre(-40.03, 3.0));
    EXPECT_EQ(outcome.discarded, std::string("T1:21.5\n").size());
    EXPECT_THAT(trouble_after(language, "T1:21.5\n"), HasSubstr("does not begin with \"P1:\""));
}

// "$PPRS,-40.03" summed without its mark, by hand.
TEST(NumericLines, takes_a_prefix_with_the_mark_of_a_sentence_as_it_stands)
{
    Language language;
    language.prefix = "$PPRS,";
    language.checksum = Language::Checksum::xor8;
    unsigned sum = 0;
    for (const char c : std::string("PPRS,-40.03")) {
        sum ^= static_cast<unsigned char>(c);
    }
    std::array<char, 3> digits{};
    EXPECT_EQ(std::snprintf(digits.data(), digits.size(), "%02X", sum), 2);
    EXPECT_THAT(values(after_first_line(language, "$PPRS,-40.03*" + std::string(digits.data()) + "\n")),
                ElementsAre(-40.03));
}

TEST(NumericLines, reads_frames_with_and_without_line_ends)
{
    Language language;
    language.frame_start = "\x02";
    language.frame_end = "\x03";
    for (const std::string end : {"", "\r\n"}) {
        const Outcome outcome = after_first_line(language, "\x02-40.03\x03" + end + "\x02" + "1.5\x03" + end);
        EXPECT_THAT(values(outcome), ElementsAre(-40.03, 1.5));
        EXPECT_EQ(outcome.discarded, 0u);
    }
    EXPECT_THAT(trouble_after(language, "40.03\x03"), HasSubstr("lacks its start byte"));
}

TEST(NumericLines, begins_anew_where_a_frame_lost_its_end)
{
    Language language;
    language.frame_start = "\x02";
    language.frame_end = "\x03";
    const Outcome outcome = after_first_line(language, "\x02-40.\x02-41.5\x03");
    EXPECT_THAT(values(outcome), ElementsAre(-41.5));
    EXPECT_EQ(outcome.discarded, 5u);
}

TEST(NumericLines, finds_the_checksum_of_a_frame_behind_its_end_byte)
{
    Language language;
    language.frame_start = "\x02";
    language.checksum = Language::Checksum::sum8;
    language.checksum_separator = "\x03";
    EXPECT_THAT(values(after_first_line(language, "\x02"
                                                  "123456789\x03"
                                                  "DD\r\n")),
                ElementsAre(123456789.0));
}

TEST(NumericLines, takes_the_quotation_marks_off_a_field)
{
    Language language;
    language.field = 2;
    language.unit_field = 3;
    const Outcome outcome = after_first_line(language, "\"day 1, night\",\"-40.03\",\"cmH2O\"\nx, \"2\" ,cmH2O\n");
    EXPECT_THAT(values(outcome), ElementsAre(-40.03, 2.0));
    language.separator = " ";
    EXPECT_THAT(values(after_first_line(language, "\"day 1\" \"-40.03\" cmH2O\n")), ElementsAre(-40.03));
    EXPECT_THAT(trouble_after(language, "\"day 1 -40.03 cmH2O\n"), HasSubstr("\"-40.03\""))
        << "no second mark: the blanks part it";
}

TEST(NumericLines, finds_fields_by_their_names_wherever_they_stand)
{
    Language language;
    language.separator = ";";
    language.field = 0;
    language.names.pressure = "P";
    language.unit_field = 0;
    language.names.unit = "P";
    language.count_field = 0;
    language.names.count = "N";
    const Outcome outcome = after_first_line(language, "P=+40.00cmH2O;T=21.5;N=7\nN=8;T=21.5;P = -3 hPa\n");
    ASSERT_EQ(outcome.readings.size(), 2u);
    EXPECT_EQ(outcome.readings[0].value, 40.0);
    EXPECT_EQ(outcome.readings[0].count, 7);
    EXPECT_NEAR(outcome.readings[1].value, -3.0 * 100.0 / 98.0665, 1e-12);
    EXPECT_EQ(outcome.readings[1].count, 8);
    EXPECT_THAT(trouble_after(language, "Q=1cmH2O;N=1\n"), HasSubstr("no field named \"P\""));
    EXPECT_THAT(trouble_after(language, "P=xcmH2O;N=1\n"), HasSubstr("unit"));
    language.name_mark = ":";
    EXPECT_THAT(values(after_first_line(language, "N:1;P:2.5 cmH2O\n")), ElementsAre(2.5));
}

TEST(NumericLines, names_a_unit_that_it_does_not_know)
{
    Language language;
    language.unit_field = 1;
    EXPECT_THAT(trouble_after(language, "-400.3furlong\n"), HasSubstr("unit on the line is not known: \"furlong\""));
    EXPECT_THAT(values(after_first_line(language, "-400.3mmH2O\n")), ElementsAre(testing::DoubleNear(-40.03, 1e-12)));
}

TEST(NumericLines, discards_a_line_whose_checksum_is_not_even_there)
{
    Language language;
    language.checksum = Language::Checksum::xor8;
    for (const std::string line : {"12.5\n", "12.5*\n", "12.5*4\n", "12.5*4G\n", "12.5*123\n"}) {
        const Outcome outcome = after_first_line(language, line);
        EXPECT_TRUE(outcome.readings.empty()) << line;
        EXPECT_EQ(outcome.discarded, line.size()) << line;
    }
}

TEST(NumericLines, discards_and_counts_a_torn_line_and_reads_the_next)
{
    Language language;
    language.count_field = 2;
    const Outcome outcome = after_first_line(language, "1.5,10\n12.5,1013.0,12\n1.5,13\n");
    EXPECT_THAT(values(outcome), ElementsAre(1.5, 1.5));
    EXPECT_EQ(outcome.discarded, std::string("12.5,1013.0,12\n").size());
}

// "3,39.9" lost its last digit and its end: what stands in the field is a number, and a wrong one.
TEST(NumericLines, discards_a_line_that_ran_into_the_next_one_although_its_field_is_a_number)
{
    Language language;
    language.field = 2;
    const Outcome outcome = decoded_in_every_way(lines(language), "\n1,39.9\n2,39.8\n3,39.4,39.7\n5,39.6\n6,39.5\n");
    EXPECT_THAT(values(outcome), ElementsAre(39.9, 39.8, 39.6, 39.5));
    EXPECT_EQ(outcome.discarded, 1 + std::string("3,39.4,39.7\n").size());
}

TEST(NumericLines, follows_an_instrument_that_sends_more_fields_from_now_on)
{
    Language language;
    const Outcome outcome =
        decoded_in_every_way(lines(language), "\n1\n2\n3,LOW BATTERY\n4,LOW BATTERY\n5,LOW BATTERY\n");
    EXPECT_THAT(values(outcome), ElementsAre(1, 2, 4, 5));
}

TEST(NumericLines, bounds_a_line_that_never_ends)
{
    std::string endless(100000, '7');
    const Outcome outcome = decoded(lines(), in_pieces_of("\n" + endless + "\n8\n", 1000));
    EXPECT_THAT(values(outcome), ElementsAre(8.0));
    EXPECT_EQ(outcome.discarded, 1u + endless.size() + 1u);
}

TEST(NumericLines, treats_the_longest_line_and_one_byte_more_alike_however_they_are_cut)
{
    const auto padded = [](std::size_t length) { return std::string(length - 1, ' ') + "4\n"; };
    EXPECT_THAT(values(after_first_line({}, padded(NumericLines::kLongestLine) + "5\n")), ElementsAre(4.0, 5.0));
    const Outcome longer = after_first_line({}, padded(NumericLines::kLongestLine + 1) + "5\n");
    EXPECT_THAT(values(longer), ElementsAre(5.0));
    EXPECT_EQ(longer.discarded, NumericLines::kLongestLine + 2);
}

TEST(NumericLines, discards_lines_with_bytes_that_are_no_text)
{
    const std::string noise("\x00\xff\x81\x1b", 4);
    const Outcome outcome = after_first_line({}, noise + "12.5\n" + "1" + noise + "\n6\n");
    EXPECT_THAT(values(outcome), ElementsAre(6.0));
    EXPECT_EQ(outcome.discarded, 9u + 6u);
}

TEST(NumericLines, leaves_other_fields_alone_whatever_alphabet_they_use)
{
    EXPECT_THAT(values(after_first_line({}, "12.5,22 \xc2\xb0"
                                            "C\n")),
                ElementsAre(12.5));
}

TEST(NumericLines, gives_up_a_line_that_stops_and_goes_on_much_later)
{
    NumericLines decoder({});
    std::vector<Reading> readings;
    decoder.feed("\n1", 1.0, readings);
    decoder.feed("2.5\n13\n", 1.0 + 2.0 * NumericLines::kLongestPause_s, readings);
    ASSERT_EQ(readings.size(), 1u);
    EXPECT_EQ(readings[0].value, 13.0);
    EXPECT_EQ(decoder.discarded_bytes(), 1u + 1u + 4u);
}

TEST(NumericLines, counts_the_unfinished_line_of_a_lost_instrument_and_starts_afresh)
{
    NumericLines decoder({});
    std::vector<Reading> readings;
    decoder.feed("\n1\n2.", 1.0, readings);
    decoder.restart();
    decoder.feed("75\n3\n", 1.0, readings);
    ASSERT_EQ(readings.size(), 2u);
    EXPECT_EQ(readings[1].value, 3.0);
    EXPECT_EQ(decoder.discarded_bytes(), 1u + 2u + 3u);
}

TEST(NumericLines, says_which_setting_does_not_fit)
{
    Language language;
    language.field = 2;
    EXPECT_EQ(trouble_after(language, "12.5\n"), "field 2 is missing, a line has 1 field");
    EXPECT_EQ(trouble_after({}, "P=12.5\n"), "field 1 is no number: \"P=12.5\"");
    EXPECT_EQ(trouble_after({}, "\x80\x81\n"), "field 1 is no number: \"??\"");
    EXPECT_EQ(trouble_after({}, std::string("\0\0\n", 3)), "bytes arrive that are no text");
    EXPECT_EQ(trouble_after({}, std::string(600, 'U')), "no line end in what arrives");
    language.field = 1;
    language.unit_field = 2;
    EXPECT_EQ(trouble_after(language, "12.5,furlong\n"), "the unit on the line is not known: \"furlong\"");
    language.unit_field.reset();
    language.count_field = 2;
    EXPECT_EQ(trouble_after(language, "12.5,x7\n"), "field 2 is no counter: \"x7\"");
}

TEST(NumericLines, forgets_the_trouble_once_readings_come)
{
    NumericLines decoder({});
    std::vector<Reading> readings;
    decoder.feed("\nx\n", 0.0, readings);
    EXPECT_THAT(decoder.trouble(), HasSubstr("no number"));
    decoder.feed("1\n", 0.0, readings);
    EXPECT_EQ(decoder.trouble(), "");
}

bool ends_line(char c) { return c == '\r' || c == '\n'; }

// A line end right after another one is framing, no data: CRLF, blank lines.
std::uint64_t bare_line_ends(const std::string& bytes)
{
    std::uint64_t bare = 0;
    for (std::size_t i = 1; i < bytes.size(); ++i) {
        bare += ends_line(bytes[i - 1]) && ends_line(bytes[i]) ? 1U : 0U;
    }
    return bare;
}

TEST(NumericLines, accounts_for_every_byte_of_a_damaged_stream_and_finds_back_within_two_lines)
{
    std::mt19937 random(7);
    Language language;
    language.checksum = Language::Checksum::xor8;
    const std::string valid = "12.5*18\n"; // 0x31 ^ 0x32 ^ 0x2e ^ 0x35 = 0x18
    for (int round = 0; round < 200; ++round) {
        std::string bytes;
        for (unsigned i = 0, n = static_cast<unsigned>(random()) % 300; i < n; ++i) {
            bytes += static_cast<char>(random());
        }
        bytes += valid + valid + valid;
        const Outcome outcome = decoded_in_every_way(lines(language), bytes);
        ASSERT_GE(outcome.readings.size(), 2u);
        EXPECT_EQ(outcome.readings[outcome.readings.size() - 2].value, 12.5);
        EXPECT_EQ(outcome.readings.back().value, 12.5);
        const auto kept = static_cast<std::uint64_t>(std::count_if(outcome.readings.begin(), outcome.readings.end(),
                                                                   [](const Reading& r) { return !r.has_note; }));
        EXPECT_EQ(outcome.discarded + kept * valid.size() + bare_line_ends(bytes), bytes.size());
    }
}

} // namespace
} // namespace zeroline::serial::test
