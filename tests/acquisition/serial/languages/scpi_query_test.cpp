#include "acquisition/serial/languages/scpi_query.hpp"

#include "tests/acquisition/serial/languages/framing.hpp"

#include <gmock/gmock.h>

#include <deque>
#include <random>
#include <utility>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;
using trace::NoteKind;

constexpr double kTimeout_s = 0.5;

trace::Instrument queried(bool pipelined = false)
{
    trace::Instrument instrument;
    instrument.port.baud = 115200;
    instrument.language.kind = trace::Language::Kind::scpi_query;
    instrument.language.query = "MEAS:PRES?";
    instrument.language.pipelined = pipelined;
    instrument.language.timeout_s = kTimeout_s;
    instrument.language.retries = 2;
    return instrument;
}

/// A decoder that has been told who the instrument is, and its readings.
struct Talk {
    explicit Talk(const trace::Instrument& instrument = queried()) : decoder(instrument)
    {
        EXPECT_EQ(decoder.to_send(0.0), "*IDN?\n");
        decoder.feed("example,pressure module,1234,0\r\n", 0.0, readings);
    }
    /// Asks at `asked_s`, hears `answer` at `answered_s`.
    void exchange(double asked_s, const std::string& answer, double answered_s)
    {
        EXPECT_EQ(decoder.to_send(asked_s), "MEAS:PRES?\n");
        decoder.feed(answer, answered_s, readings);
    }
    ScpiQuery decoder;
    std::vector<Reading> readings;
};

TEST(ScpiQuery, asks_once_who_the_instrument_is)
{
    Talk talk;
    EXPECT_EQ(talk.decoder.identity(), "example,pressure module,1234,0");
    EXPECT_EQ(talk.decoder.to_send(0.0), "MEAS:PRES?\n");
    EXPECT_TRUE(talk.readings.empty());
}

trace::Instrument asked_for_lines()
{
    trace::Instrument instrument = queried();
    instrument.language.kind = trace::Language::Kind::polled_lines;
    instrument.language.query = "#01";
    instrument.language.line_end = "\r";
    instrument.language.prefix = ">";
    instrument.language.unit_field = 1;
    instrument.language.unit = trace::PressureUnit::mbar;
    return instrument;
}

TEST(PolledLines, asks_its_own_query_and_nothing_else)
{
    ScpiQuery decoder(asked_for_lines());
    std::vector<Reading> readings;
    EXPECT_EQ(decoder.to_send(1.0), "#01\r");
    decoder.feed(">+12.5mbar\r\n", 1.2, readings);
    ASSERT_EQ(readings.size(), 1u);
    EXPECT_EQ(readings[0].value, 12.5);
    EXPECT_DOUBLE_EQ(readings[0].arrival_s, 1.1) << "half-way between request and answer";
    EXPECT_EQ(decoder.discarded_bytes(), 0u);
    EXPECT_EQ(decoder.to_send(2.0), "#01\r");
}

TEST(PolledLines, discards_an_answer_that_is_no_reading_and_says_why)
{
    ScpiQuery decoder(asked_for_lines());
    std::vector<Reading> readings;
    EXPECT_EQ(decoder.to_send(1.0), "#01\r");
    decoder.feed("#01\r?01\r", 1.1, readings); // an echo, and a refusal
    EXPECT_TRUE(readings.empty());
    EXPECT_EQ(decoder.discarded_bytes(), 8u);
    EXPECT_THAT(decoder.trouble(), HasSubstr("does not begin with \">\""));
    EXPECT_EQ(decoder.to_send(3.0), "#01\r") << "no SYST:ERR?";
}

TEST(PolledLines, asks_again_where_no_answer_comes)
{
    ScpiQuery decoder(asked_for_lines());
    EXPECT_EQ(decoder.to_send(1.0), "#01\r");
    EXPECT_EQ(decoder.to_send(1.3), "");
    EXPECT_EQ(decoder.to_send(1.6), "#01\r");
    EXPECT_EQ(decoder.unanswered(), 1u);
    EXPECT_THAT(decoder.trouble(), HasSubstr("no answer to \"#01\""));
}

TEST(PolledLines, accounts_for_every_byte_however_the_answer_is_cut)
{
    trace::Instrument instrument = asked_for_lines();
    instrument.language.frame_start = "\x02";
    instrument.language.frame_end = "\x03";
    const auto asked = [&] {
        auto decoder = std::make_unique<ScpiQuery>(instrument);
        EXPECT_EQ(decoder->to_send(1.0), "#01\r");
        return decoder;
    };
    const Outcome outcome = decoded_in_every_way(asked, "\x02>7.5mbar\x03\r\nstray\r\n");
    ASSERT_EQ(outcome.readings.size(), 1u);
    EXPECT_EQ(outcome.readings[0].value, 7.5);
    EXPECT_EQ(outcome.discarded, 6u);
}

TEST(ScpiQuery, scales_what_it_reads)
{
    trace::Instrument instrument = queried();
    instrument.language.scale = -2.0;
    instrument.language.offset = 1.0;
    Talk talk(instrument);
    talk.exchange(1.0, "12.5\n", 1.1);
    ASSERT_EQ(talk.readings.size(), 1u);
    EXPECT_EQ(talk.readings[0].value, -24.0);
}

TEST(ScpiQuery, goes_on_where_nobody_says_who_it_is)
{
    ScpiQuery decoder(queried());
    EXPECT_EQ(decoder.to_send(0.0), "*IDN?\n");
    EXPECT_EQ(decoder.to_send(0.4), "");
    EXPECT_EQ(decoder.to_send(0.6), "MEAS:PRES?\n");
    EXPECT_EQ(decoder.unanswered(), 1u);
}

// IEEE 488.2, response data NR1, NR2 and NR3 (from memory).
TEST(ScpiQuery, reads_the_published_number_forms)
{
    Talk talk;
    double at = 1.0;
    for (const auto& [text, value] : std::vector<std::pair<std::string, double>>{{"38", 38.0},
                                                                                 {"-206", -206.0},
                                                                                 {"+18.0", 18.0},
                                                                                 {"-12.6", -12.6},
                                                                                 {"1.23E+5", 123000.0},
                                                                                 {"+3.0E-01", 0.3}}) {
        talk.exchange(at, text + "\n", at + 0.01);
        EXPECT_EQ(talk.readings.back().value, value) << text;
        at += 1.0;
    }
    EXPECT_EQ(talk.readings.size(), 6u);
    EXPECT_EQ(talk.decoder.discarded_bytes(), 0u);
}

// SCPI-99, as many drivers spell it: infinity and not-a-number are no data.
TEST(ScpiQuery, makes_of_infinity_and_not_a_number_readings_without_value)
{
    Talk talk;
    talk.exchange(1.0, "9.9E37\n", 1.01);
    talk.exchange(2.0, "-9.9E+37\n", 2.01);
    talk.exchange(3.0, "9.91000E+37\n", 3.01);
    ASSERT_EQ(talk.readings.size(), 3u);
    for (const Reading& reading : talk.readings) {
        EXPECT_TRUE(reading.has_note);
        EXPECT_TRUE(std::isnan(reading.value));
    }
    EXPECT_EQ(talk.readings[0].note, NoteKind::overrange);
    EXPECT_EQ(talk.readings[1].note, NoteKind::overrange);
    EXPECT_EQ(talk.readings[2].note, NoteKind::not_a_number);
}

TEST(ScpiQuery, stamps_a_reading_half_way_between_query_and_answer)
{
    Talk talk;
    talk.exchange(1.0, "5\n", 1.5);
    EXPECT_DOUBLE_EQ(talk.readings.at(0).arrival_s, 1.25);
}

TEST(ScpiQuery, asks_in_the_rhythm_of_the_instrument_file_without_making_up_for_missed_beats)
{
    trace::Instrument instrument = queried();
    instrument.nominal_hz = 10.0;
    Talk talk(instrument);
    talk.exchange(1.0, "1\n", 1.02);
    EXPECT_EQ(talk.decoder.to_send(1.09), "");
    EXPECT_NEAR(talk.decoder.next_s(), 1.1, 1e-9);
    talk.exchange(1.105, "2\n", 1.11);
    EXPECT_NEAR(talk.decoder.next_s(), 1.2, 1e-9); // the rhythm, not 0.1 s after the late request
    talk.exchange(2.0, "3\n", 2.01);
    EXPECT_NEAR(talk.decoder.next_s(), 2.1, 1e-9);
}

TEST(ScpiQuery, repeats_a_query_that_is_not_answered_and_then_reads_the_error)
{
    Talk talk;
    EXPECT_EQ(talk.decoder.to_send(1.0), "MEAS:PRES?\n");
    EXPECT_EQ(talk.decoder.to_send(1.6), "MEAS:PRES?\n");
    EXPECT_EQ(talk.decoder.to_send(2.2), "MEAS:PRES?\n");
    EXPECT_EQ(talk.decoder.to_send(2.8), "SYST:ERR?\n");
    EXPECT_EQ(talk.decoder.unanswered(), 3u);
    EXPECT_THAT(talk.decoder.trouble(), HasSubstr("no answer to \"MEAS:PRES?\""));
    talk.decoder.feed("-113,\"Undefined header\"\n", 2.9, talk.readings);
    EXPECT_EQ(talk.decoder.trouble(), "the instrument says -113,\"Undefined header\"");
    EXPECT_EQ(talk.decoder.to_send(3.5), "MEAS:PRES?\n");
    talk.decoder.feed("7\n", 3.51, talk.readings);
    EXPECT_EQ(talk.decoder.trouble(), "");
}

TEST(ScpiQuery, reads_the_error_once_until_readings_come_again)
{
    Talk talk;
    talk.exchange(1.0, "what?\n", 1.1);
    EXPECT_THAT(talk.decoder.trouble(), HasSubstr("the answer is no number: \"what?\""));
    EXPECT_EQ(talk.decoder.to_send(1.2), "SYST:ERR?\n");
    talk.decoder.feed("0,\"No error\"\n", 1.3, talk.readings);
    EXPECT_THAT(talk.decoder.trouble(), HasSubstr("no number"));
    talk.exchange(2.0, "what?\n", 2.1);
    talk.exchange(3.0, "4\n", 3.1);
    talk.exchange(4.0, "what?\n", 4.1);
    EXPECT_EQ(talk.decoder.to_send(5.0), "SYST:ERR?\n");
    EXPECT_EQ(talk.decoder.discarded_bytes(), 3 * std::string("what?\n").size());
}

TEST(ScpiQuery, lets_a_late_answer_pass_instead_of_taking_it_for_the_next_one)
{
    Talk talk;
    EXPECT_EQ(talk.decoder.to_send(1.0), "MEAS:PRES?\n");
    EXPECT_EQ(talk.decoder.to_send(1.6), "MEAS:PRES?\n"); // repeated
    talk.decoder.feed("1\n", 1.7, talk.readings);         // the first one's answer
    EXPECT_EQ(talk.decoder.to_send(1.8), "");
    talk.decoder.feed("2\n", 1.9, talk.readings); // the second one's
    EXPECT_EQ(talk.readings.size(), 1u);
    EXPECT_EQ(talk.decoder.discarded_bytes(), 2u);
    talk.exchange(2.3, "3\n", 2.4);
    EXPECT_EQ(talk.readings.back().value, 3.0);
    EXPECT_DOUBLE_EQ(talk.readings.back().arrival_s, 2.35);
}

TEST(ScpiQuery, has_two_queries_under_way_only_where_the_instrument_file_says_so)
{
    Talk one_by_one;
    EXPECT_NE(one_by_one.decoder.to_send(1.0), "");
    EXPECT_EQ(one_by_one.decoder.to_send(1.0), "");

    Talk pipelined(queried(true));
    EXPECT_NE(pipelined.decoder.to_send(1.0), "");
    EXPECT_NE(pipelined.decoder.to_send(1.1), "");
    EXPECT_EQ(pipelined.decoder.to_send(1.2), "");
    pipelined.decoder.feed("1\n2\n", 1.3, pipelined.readings);
    ASSERT_EQ(pipelined.readings.size(), 2u);
    EXPECT_DOUBLE_EQ(pipelined.readings[0].arrival_s, 1.15);
    EXPECT_DOUBLE_EQ(pipelined.readings[1].arrival_s, 1.2);
}

TEST(ScpiQuery, never_wants_to_be_asked_before_it_can_do_anything)
{
    Talk talk(queried(true));
    EXPECT_NE(talk.decoder.to_send(1.0), "");
    EXPECT_NE(talk.decoder.to_send(1.0), "");
    talk.decoder.feed("what?\n", 1.1, talk.readings);
    // The error is read alone, after the second answer.
    EXPECT_EQ(talk.decoder.to_send(1.1), "");
    EXPECT_GT(talk.decoder.next_s(), 1.4);
    talk.decoder.feed("5\n", 1.2, talk.readings);
    EXPECT_LE(talk.decoder.next_s(), 1.2);
}

TEST(ScpiQuery, discards_an_echo_and_what_nobody_asked_for)
{
    Talk talk;
    talk.decoder.feed("99\n", 0.5, talk.readings);
    talk.exchange(1.0, "MEAS:PRES?\r\n5\r\n", 1.1);
    ASSERT_EQ(talk.readings.size(), 1u);
    EXPECT_EQ(talk.readings[0].value, 5.0);
    EXPECT_EQ(talk.decoder.discarded_bytes(), std::string("99\nMEAS:PRES?\n").size());
}

TEST(ScpiQuery, refuses_a_list_a_unit_and_a_comma_for_a_point)
{
    Talk talk;
    double at = 1.0;
    for (const std::string answer : {"1.5,2.5\n", "12,5\n", "1.5 kPa\n", "nano\n", "0x10\n"}) {
        const std::string sent = talk.decoder.to_send(at);
        talk.decoder.feed(sent == "SYST:ERR?\n" ? "0,\"No error\"\n" : answer, at + 0.1, talk.readings);
        at += 1.0;
    }
    EXPECT_TRUE(talk.readings.empty());
}

TEST(ScpiQuery, bounds_an_answer_that_never_ends_and_finds_back)
{
    Talk talk;
    EXPECT_NE(talk.decoder.to_send(1.0), "");
    const std::string endless(10000, '1');
    talk.decoder.feed(endless, 1.1, talk.readings);
    talk.decoder.feed("\n", 1.1, talk.readings);
    EXPECT_EQ(talk.decoder.discarded_bytes(), endless.size() + 1);
    talk.decoder.feed("5\n", 1.2, talk.readings);
    EXPECT_EQ(talk.readings.at(0).value, 5.0);
}

/// An instrument that answers every question 10 ms later, and a line that garbles now and then.
class SoundInstrument {
public:
    explicit SoundInstrument(ScpiQuery& decoder) : decoder_(decoder) {}

    /// One step of 5 ms; `noise` arrives in it, in front of an answer that is due.
    void step(const std::string& noise)
    {
        now_s_ += 0.005;
        decoder_.feed(noise, now_s_, readings);
        since_noise_ = noise.empty() ? since_noise_ : 0;
        if (!due_.empty() && now_s_ >= due_.front().second) {
            const auto before = decoder_.understood_bytes();
            decoder_.feed(due_.front().first, now_s_, readings);
            ++since_noise_;
            EXPECT_TRUE(since_noise_ < 2 || decoder_.understood_bytes() - before == due_.front().first.size())
                << "sound answer " << since_noise_ << " after the noise: " << due_.front().first;
            due_.pop_front();
        }
        if (const std::string question = decoder_.to_send(now_s_); !question.empty()) {
            due_.emplace_back(answer_to(question), now_s_ + 0.01);
        }
    }

    std::vector<Reading> readings;

private:
    static std::string answer_to(const std::string& question)
    {
        return question == "*IDN?\n"       ? "example,module,0,0\n"
               : question == "SYST:ERR?\n" ? "0,\"No error\"\n"
                                           : "12.5\n";
    }

    ScpiQuery& decoder_;
    std::deque<std::pair<std::string, double>> due_;
    double now_s_ = 0.0;
    int since_noise_ = 0;
};

// The first sound answer after the noise may be glued to it, or be the one that noise was taken for.
TEST(ScpiQuery, finds_back_within_two_sound_answers_whatever_came_between)
{
    std::mt19937 random(5);
    for (int round = 0; round < 300; ++round) {
        ScpiQuery decoder(queried());
        SoundInstrument instrument(decoder);
        const unsigned noisy_step = 20 + static_cast<unsigned>(random()) % 20;
        for (unsigned step = 0; step < 600; ++step) {
            std::string noise;
            for (unsigned i = 0, n = static_cast<unsigned>(random()) % 400; step == noisy_step && i < n; ++i) {
                noise += static_cast<char>(random());
            }
            instrument.step(noise);
        }
        EXPECT_GT(instrument.readings.size(), 20u);
        EXPECT_EQ(instrument.readings.back().value, 12.5);
    }
}

TEST(ScpiQuery, makes_the_same_of_an_answer_however_it_is_cut)
{
    const MakeDecoder asked = [] {
        auto decoder = std::make_unique<ScpiQuery>(queried());
        std::vector<Reading> none;
        EXPECT_NE(decoder->to_send(0.0), "");
        decoder->feed("example,module,0,0\n", 0.1, none);
        EXPECT_NE(decoder->to_send(0.2), "");
        return decoder;
    };
    const Outcome clean = decoded_in_every_way(asked, "\r\n+1.250E+01\r\n");
    ASSERT_EQ(clean.readings.size(), 1u);
    EXPECT_EQ(clean.readings[0].value, 12.5);
    EXPECT_EQ(clean.discarded, 0u);
    const Outcome damaged = decoded_in_every_way(asked, std::string("\x00\xff+1.2", 6) + "\n7\nrest");
    EXPECT_TRUE(damaged.readings.empty());
    EXPECT_EQ(damaged.discarded, 9u);
    const Outcome echoed = decoded_in_every_way(asked, "MEAS:PRES?\r\n-4\r\n" + std::string(400, '8') + "\r\n");
    ASSERT_EQ(echoed.readings.size(), 1u);
    EXPECT_EQ(echoed.discarded, 11u + 401u);
}

} // namespace
} // namespace zeroline::serial::test
