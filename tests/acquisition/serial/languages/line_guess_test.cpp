#include "acquisition/serial/languages/line_guess.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <functional>
#include <string>

namespace zeroline::serial::test {
namespace {

using trace::Language;

std::string repeated(const std::function<std::string(int)>& line)
{
    std::string bytes = "ail\r\n";
    for (int i = 0; i < 20; ++i) {
        bytes += line(i) + "\r\n";
    }
    return bytes + "1.";
}

std::string decimal(int i) { return std::to_string(i % 7) + "." + std::to_string(25 + i); }

TEST(LineGuess, finds_a_lone_number)
{
    const LineGuess guess = guess_lines(repeated(decimal));
    ASSERT_EQ(guess.languages.size(), 1u);
    EXPECT_EQ(guess.languages[0].field, 1);
    EXPECT_FALSE(guess.languages[0].count_field);
    EXPECT_EQ(guess.text_share, 1.0);
    EXPECT_EQ(guess.lines, 20u);
}

TEST(LineGuess, tells_the_counter_from_the_pressure)
{
    const LineGuess guess =
        guess_lines(repeated([](int i) { return "P;" + std::to_string(100 + i) + ";" + decimal(i) + ";ok"; }));
    ASSERT_EQ(guess.languages.size(), 1u);
    EXPECT_EQ(guess.languages[0].separator, ";");
    EXPECT_EQ(guess.languages[0].field, 3);
    EXPECT_EQ(guess.languages[0].count_field, 2);
}

TEST(LineGuess, finds_the_unit_on_the_line)
{
    const LineGuess guess = guess_lines(repeated([](int i) { return decimal(i) + " kPa"; }));
    ASSERT_FALSE(guess.languages.empty());
    EXPECT_TRUE(guess.languages[0].unit_field);
}

TEST(LineGuess, offers_both_meanings_of_a_comma_between_whole_numbers)
{
    const LineGuess guess = guess_lines(repeated([](int i) { return "12," + std::to_string(30 + i % 3); }));
    ASSERT_EQ(guess.languages.size(), 2u);
    EXPECT_EQ(guess.languages[0].separator, ",");
    EXPECT_EQ(guess.languages[0].decimal, '.');
    EXPECT_EQ(guess.languages[1].decimal, ',');
}

// 0x31 ^ 0x2e ^ 0x35 = 0x2a
TEST(LineGuess, finds_a_checksum)
{
    const LineGuess guess = guess_lines(repeated([](int) { return std::string("1.5*2A"); }));
    ASSERT_FALSE(guess.languages.empty());
    EXPECT_EQ(guess.languages[0].checksum, Language::Checksum::xor8);
}

/// The language as an instrument file would hold it, read back.
Language through_a_file(const Language& language)
{
    trace::Instrument instrument;
    instrument.name = instrument.serial = "invented";
    instrument.language = language;
    instrument.range = {-100.0, 100.0, 0.01, trace::PressureUnit::cmH2O};
    instrument.nominal_hz = 100.0;
    instrument.calibration.certificate = "invented";
    instrument.calibration.on = instrument.calibration.due = "2026-01-02";
    instrument.calibration.expanded_uncertainty = 0.2;
    return trace::parse_instrument(trace::to_json(instrument)).language;
}

struct Spoken {
    std::string line; ///< the same every time, but for # (a count)
    double reads;
    trace::PressureUnit unit;
};

std::string spoken(const Spoken& instrument)
{
    return repeated([&](int i) {
        std::string line = instrument.line;
        const auto count = line.find('#');
        return count == std::string::npos ? line : line.replace(count, 1, std::to_string(400 + i));
    });
}

TEST(LineGuess, proposes_only_what_an_instrument_file_takes_and_shows_the_number)
{
    using enum trace::PressureUnit;
    for (const Spoken& instrument : std::vector<Spoken>{
             {"-40.03hPa", -40.03, hPa},
             {"-400.3 mmH2O", -400.3, mmH2O},
             {"+39,20 mbar", 39.2, mbar},
             {"\x02-40.03\x03", -40.03, cmH2O},
             {"P=+40.00cmH2O;T=21.5", 40.0, cmH2O},
             {"N=#;T=21.5;P=-3.5kPa", -3.5, kPa},
             {"#,21.5,C,-40.03,hPa", -40.03, hPa},
             {"\"#\",\"-40.03\",\"Pa\"", -40.03, Pa},
             {">-12.5", -12.5, cmH2O},
             {"#;-40,03;21,5", -40.03, cmH2O},
         }) {
        const LineGuess guess = guess_lines(spoken(instrument));
        ASSERT_EQ(guess.languages.size(), 1u) << instrument.line;
        ASSERT_EQ(guess.reads.size(), 1u);
        EXPECT_NEAR(guess.reads[0], instrument.reads, 1e-9) << instrument.line;
        EXPECT_EQ(guess.languages[0].unit, instrument.unit) << instrument.line;
        EXPECT_EQ(guess.languages[0].count_field.has_value(), instrument.line.find('#') != std::string::npos);
        const Language read_back = through_a_file(guess.languages[0]);
        EXPECT_EQ(read_back.field, guess.languages[0].field) << instrument.line;
        EXPECT_EQ(read_back.unit_field, guess.languages[0].unit_field) << instrument.line;
        EXPECT_EQ(guess.unknown_unit, "") << instrument.line;
    }
}

TEST(LineGuess, drops_what_reads_a_fragment_of_a_number)
{
    for (const std::string line : {"-40,03", "+7,05 hPa", "-40,03;21,5"}) {
        const LineGuess guess = guess_lines(repeated([&](int) { return line; }));
        ASSERT_EQ(guess.languages.size(), 1u) << line;
        EXPECT_EQ(guess.languages[0].decimal, ',') << line;
    }
}

TEST(LineGuess, names_an_unknown_unit_and_never_takes_it_for_another)
{
    for (const std::string line : {"-400.3 furlong", "-400.3furlong", "-400.3,furlong", "7;-400.3;furlong"}) {
        const LineGuess guess = guess_lines(repeated([&](int) { return line; }));
        EXPECT_TRUE(guess.languages.empty()) << line;
        EXPECT_EQ(guess.unknown_unit, "furlong") << line;
    }
}

TEST(LineGuess, takes_no_label_for_a_unit)
{
    const LineGuess guess = guess_lines(repeated([](int i) { return "PRES," + decimal(i) + ",TEMP,21.5"; }));
    ASSERT_EQ(guess.languages.size(), 1u);
    EXPECT_EQ(guess.languages[0].field, 2);
}

TEST(LineGuess, takes_no_clock_for_the_pressure)
{
    const LineGuess guess = guess_lines(
        repeated([](int i) { return std::to_string(1000.0 + 0.004 * i) + "," + std::to_string(i % 3) + ".5"; }));
    ASSERT_EQ(guess.languages.size(), 1u);
    EXPECT_EQ(guess.languages[0].field, 2);
}

TEST(LineGuess, sees_seven_bits_with_even_parity_in_eight)
{
    std::string bytes = repeated(decimal);
    for (char& c : bytes) {
        bool odd = false;
        for (int bit = 0; bit < 7; ++bit) {
            odd ^= ((c >> bit) & 1) != 0;
        }
        c = static_cast<char>(odd ? c | 0x80 : c);
    }
    const LineGuess guess = guess_lines(bytes);
    EXPECT_EQ(guess.seven_bit_parity, trace::Parity::even);
    EXPECT_FALSE(guess.languages.empty());
}

TEST(LineGuess, finds_nothing_in_noise_or_words)
{
    std::string noise;
    for (int i = 0; i < 1000; ++i) {
        noise += static_cast<char>((i * 7919) % 251);
    }
    EXPECT_TRUE(guess_lines(noise).languages.empty());
    EXPECT_LT(guess_lines(noise).text_share, 0.6);
    EXPECT_TRUE(guess_lines(repeated([](int) { return std::string("READY"); })).languages.empty());
    EXPECT_TRUE(guess_lines("").languages.empty());
}

} // namespace
} // namespace zeroline::serial::test
