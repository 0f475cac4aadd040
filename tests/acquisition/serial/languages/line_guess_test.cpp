#include "acquisition/serial/languages/line_guess.hpp"

#include <gmock/gmock.h>

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
