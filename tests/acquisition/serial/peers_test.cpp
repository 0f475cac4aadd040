// Programs that nobody here wrote at the other end of the line: socat and python3-serial.

#include "acquisition/serial/capture.hpp"
#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/process.hpp"
#include "tests/acquisition/serial/socat_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <fstream>

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;

std::vector<double> captured_from(const std::string& port, const std::filesystem::path& file, std::size_t how_many,
                                  const std::function<void()>& while_running)
{
    CaptureSettings settings;
    settings.port = port;
    settings.instrument = plain_instrument();
    settings.file = file;
    Capture capture(settings);
    capture.start();
    while_running();
    EXPECT_TRUE(soon([&] { return capture.counters().readings >= how_many; }, 20000ms)) << capture.message();
    capture.stop();
    return trace::load_trace_csv(file).pressure;
}

TEST(Socat, carries_a_trace_into_the_capture_without_losing_a_reading)
{
    const TemporaryFolder folder;
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    std::vector<double> sent;
    {
        std::ofstream stream(folder / "stream.txt");
        stream << "\r\n";
        for (int i = 0; i < 5000; ++i) {
            sent.push_back(std::round(4000.0 * std::sin(i * 0.01)) / 100.0);
            stream << sent.back() << "\r\n";
        }
    }
    const auto came = captured_from(cable.end_a(), folder / "trace.csv", sent.size(), [&] {
        Process feed({"socat", "-u", "OPEN:" + (folder / "stream.txt").string(), "OPEN:" + cable.end_b() + ",rawer"});
        EXPECT_EQ(feed.wait(), 0);
    });
    EXPECT_EQ(came, sent);
}

// Five bytes at a time, now and then a pause in the middle of a line.
TEST(Socat, that_delays_and_cuts_what_it_carries_loses_no_reading)
{
    const TemporaryFolder folder;
    std::ofstream(folder / "slowly") << R"(
        printf '\r\n'
        i=0
        while [ $i -lt 150 ]; do
            printf '%d.' $i
            [ $((i % 25)) = 7 ] && sleep 0.15
            printf '5\r\n'
            sleep 0.004
            i=$((i+1))
        done
        sleep 30)";
    const std::string port = (folder / "port").string();
    // What is sent before somebody listens is lost on a real line as well: it begins when the port has been opened.
    const Process socat(
        {"socat", "-b", "5", "pty,rawer,wait-slave,link=" + port, "EXEC:sh " + (folder / "slowly").string()});
    ASSERT_TRUE(soon([&] { return std::filesystem::exists(port); }));
    const auto came = captured_from(port, folder / "trace.csv", 150, [] {});
    ASSERT_EQ(came.size(), 150u);
    for (std::size_t i = 0; i < came.size(); ++i) {
        EXPECT_EQ(came[i], static_cast<double>(i) + 0.5);
    }
    const auto moments = trace::load_trace_csv(folder / "trace.csv").moment_s;
    double longest_s = 0.0;
    for (std::size_t i = 1; i < moments.size(); ++i) {
        longest_s = std::max(longest_s, moments[i] - moments[i - 1]);
    }
    EXPECT_GT(longest_s, 0.14);
}

TEST(Socat, that_ends_is_an_instrument_that_is_gone)
{
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    CaptureSettings settings;
    settings.port = cable.end_a();
    settings.instrument = plain_instrument();
    Capture capture(settings);
    capture.start();
    cable.end();
    EXPECT_TRUE(soon([&] { return capture.state() == LineState::lost; }));
    EXPECT_THAT(capture.message(), HasSubstr("is gone"));
}

TEST(PythonSerial, writes_readings_from_another_process_and_none_is_lost)
{
    const TemporaryFolder folder;
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    const std::string program = "import serial\n"
                                "port = serial.Serial('" +
                                cable.end_b() +
                                "', 115200)\n"
                                "port.write(b'tail\\r\\n')\n"
                                "for i in range(1000):\n"
                                "    port.write(b'%+.2E\\r\\n' % (i / 8))\n"
                                "port.flush()\n"
                                "port.close()\n";
    const auto came = captured_from(cable.end_a(), folder / "trace.csv", 1000, [&] {
        Process python({"/usr/bin/python3", "-c", program});
        EXPECT_EQ(python.wait(), 0);
    });
    ASSERT_EQ(came.size(), 1000u);
    EXPECT_EQ(came[8], 1.0);
    EXPECT_EQ(came[999], 125.0); // 124.875 to three digits
}

TEST(PythonSerial, that_holds_the_port_for_itself_is_named_as_another_program)
{
    const TemporaryFolder folder;
    SocatPair cable;
    ASSERT_TRUE(cable.ready());
    const std::string program = "import serial, time\n"
                                "port = serial.Serial('" +
                                cable.end_a() + "', 9600, exclusive=True)\nopen('" + (folder / "held").string() +
                                "', 'w')\ntime.sleep(60)\n";
    const Process python({"/usr/bin/python3", "-c", program});
    ASSERT_TRUE(soon([&] { return std::filesystem::exists(folder / "held"); }));
    CaptureSettings settings;
    settings.port = cable.end_a();
    settings.instrument = plain_instrument();
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    try {
        capture.start();
        ADD_FAILURE() << "opened a port that another program holds";
    } catch (const trace::InputError& error) {
        EXPECT_EQ(error.where(), cable.end_a());
        EXPECT_THAT(error.what(), HasSubstr("another program is using it"));
    }
    EXPECT_FALSE(std::filesystem::exists(folder / "trace.csv"));
}

} // namespace
} // namespace zeroline::serial::test
