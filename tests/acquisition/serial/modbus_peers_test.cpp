// Modbus servers that nobody here wrote, over pseudo-terminals: libmodbus and pymodbus.

#include "acquisition/serial/capture.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/process.hpp"
#include "tests/acquisition/serial/socat_pair.hpp"

#include <gmock/gmock.h>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;
using trace::Language;

CaptureSettings asking(const std::string& port, int function, int first, Language::Register type,
                       bool low_first = false)
{
    CaptureSettings settings;
    settings.port = port;
    settings.silence_s = 1.0;
    settings.instrument.port.baud = 19200;
    Language& language = settings.instrument.language;
    language.kind = Language::Kind::modbus_rtu;
    language.function = function;
    language.first_register = first;
    language.register_type = type;
    language.low_word_first = low_first;
    language.timeout_s = 0.2;
    return settings;
}

// Twenty readings in a row, or the sentence that says why not.
std::string twenty_readings(const CaptureSettings& settings, double expected)
{
    Capture capture(settings);
    capture.start();
    std::vector<Reading> readings;
    const bool came = soon(
        [&] {
            pull_all(capture, readings);
            return readings.size() >= 20;
        },
        20000ms);
    capture.stop();
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (readings[i].value != expected || (i > 0 && readings[i].arrival_s <= readings[i - 1].arrival_s)) {
            return "reading " + std::to_string(i) + " is " + std::to_string(readings[i].value);
        }
    }
    return came ? "came" : "only " + std::to_string(readings.size()) + " came: " + capture.message();
}

#ifdef ZEROLINE_MODBUS_SERVER
TEST(Libmodbus, serves_floats_in_both_word_orders_and_input_registers)
{
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    const Process server({ZEROLINE_MODBUS_SERVER, cable.end_b()});
    EXPECT_EQ(twenty_readings(asking(cable.end_a(), 3, 0, Language::Register::float32, true), -40.5), "came");
    EXPECT_EQ(twenty_readings(asking(cable.end_a(), 3, 2, Language::Register::float32), -40.5), "came");
    EXPECT_EQ(twenty_readings(asking(cable.end_a(), 4, 8, Language::Register::uint16), 10.0), "came");
}

TEST(Libmodbus, says_in_words_that_there_is_no_such_register)
{
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    const Process server({ZEROLINE_MODBUS_SERVER, cable.end_b()});
    ASSERT_EQ(twenty_readings(asking(cable.end_a(), 3, 2, Language::Register::float32), -40.5), "came") << "it is up";
    Capture capture(asking(cable.end_a(), 3, 500, Language::Register::int16));
    capture.start();
    EXPECT_TRUE(soon([&] { return capture.state() == LineState::silent; }));
    EXPECT_THAT(capture.message(), HasSubstr("the instrument answers with exception 2, illegal data address"));
}

TEST(Libmodbus, that_is_asked_under_a_wrong_address_says_nothing_and_that_is_said)
{
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    const Process server({ZEROLINE_MODBUS_SERVER, cable.end_b()});
    CaptureSettings settings = asking(cable.end_a(), 3, 0, Language::Register::int16);
    settings.instrument.language.address = 9;
    Capture capture(settings);
    capture.start();
    EXPECT_TRUE(soon([&] { return capture.state() == LineState::silent; }));
    EXPECT_THAT(capture.message(), HasSubstr("no answer from address 9"));
    EXPECT_GT(capture.counters().unanswered, 2u);
}
#endif

TEST(Pymodbus, behind_a_line_that_carries_a_byte_at_a_time_serves_a_wide_whole_number_and_an_input_register)
{
    SocatPair cable("1"); // a byte at a time
    ASSERT_TRUE(cable.ready());
    const Process server(
        {"/usr/bin/python3", ZEROLINE_SOURCE_DIR "/tests/acquisition/serial/pymodbus_server.py", cable.end_b()});
    EXPECT_EQ(twenty_readings(asking(cable.end_a(), 3, 4, Language::Register::int32), -123456.0), "came");
    EXPECT_EQ(twenty_readings(asking(cable.end_a(), 4, 3, Language::Register::int16), 4000.0), "came");
}

} // namespace
} // namespace zeroline::serial::test
