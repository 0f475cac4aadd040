// What a driver counts as parity, framing and overrun errors. A pseudo-terminal counts nothing, so the driver's answer
// is put in here: this program's own ioctl() stands before the system's.

#include "acquisition/serial/capture.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <linux/serial.h>
#include <sys/ioctl.h>
#include <sys/syscall.h>

#include <atomic>
#include <cstdarg>

namespace {

std::atomic<int> parity_errors = -1; // less than none: the driver does not count

} // namespace

extern "C" int ioctl(int descriptor, unsigned long request, ...) noexcept
{
    va_list more;
    va_start(more, request);
    void* const argument = va_arg(more, void*);
    va_end(more);
    if (request == TIOCGICOUNT && parity_errors >= 0) {
        auto* const counted = static_cast<serial_icounter_struct*>(argument);
        *counted = {};
        counted->parity = parity_errors;
        return 0;
    }
    return static_cast<int>(::syscall(SYS_ioctl, descriptor, request, argument));
}

namespace zeroline::serial::test {
namespace {

using testing::HasSubstr;

/// A driver that counts, for one test.
struct CountingDriver {
    CountingDriver() { parity_errors = 1000; } // what it counted before the port was opened is nobody's business
    ~CountingDriver() { parity_errors = -1; }
};

TEST(DamagedLine, is_counted_noted_in_the_trace_and_loses_no_good_reading)
{
    const CountingDriver driver;
    const TemporaryFolder folder;
    const InstrumentEnd instrument;
    CaptureSettings settings;
    settings.port = instrument.path();
    settings.instrument = plain_instrument();
    settings.file = folder / "trace.csv";
    Capture capture(settings);
    capture.start();
    instrument.write("\n1\n2\n");
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 2; }));
    parity_errors = 1003;
    instrument.write(std::string("3\0\n4\n", 5)); // the driver hands a damaged character over as a NUL
    ASSERT_TRUE(soon([&] { return capture.counters().damaged_characters == 3; }));
    ASSERT_TRUE(soon([&] { return capture.counters().readings == 3; }));
    capture.stop();
    const auto saved = trace::load_trace_csv(*settings.file);
    std::string notes;
    for (const auto& note : saved.notes) {
        notes += note.text + "; ";
    }
    EXPECT_THAT(notes, HasSubstr("damaged 3 characters"));
    EXPECT_THAT(notes, HasSubstr("discarded 3 bytes"));
}

TEST(DamagedLine, without_a_reading_is_told_in_the_sentence_on_the_silence)
{
    const CountingDriver driver;
    const InstrumentEnd instrument;
    CaptureSettings settings;
    settings.port = instrument.path();
    settings.instrument = plain_instrument();
    settings.silence_s = 1.0;
    Capture capture(settings);
    capture.start();
    parity_errors = 1012;
    ASSERT_TRUE(soon([&] {
        instrument.write(std::string("\0\0\n", 3));
        return capture.state() == LineState::silent;
    }));
    EXPECT_THAT(capture.message(), HasSubstr("12 characters came damaged"));
    EXPECT_THAT(capture.message(), HasSubstr("are baud rate, parity, field and unit right?"));
}

} // namespace
} // namespace zeroline::serial::test
