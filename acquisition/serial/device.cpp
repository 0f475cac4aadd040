#include "acquisition/serial/device.hpp"

#include "acquisition/serial/capture.hpp"
#include "acquisition/serial/line_errors.hpp"

#include <fcntl.h>
#include <linux/serial.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <termios.h>
#include <unistd.h>

#include <cerrno>

namespace zeroline::serial {

namespace {

// Opening something that is no terminal could have effects of its own (a pipe, a tape).
void refuse_what_is_no_device(const std::string& path)
{
    struct stat status = {};
    if (::stat(path.c_str(), &status) != 0) {
        throw cannot_open(path, errno);
    }
    if (!S_ISCHR(status.st_mode)) {
        throw no_serial_device(path);
    }
}

bool make_raw(int descriptor)
{
    struct termios line = {};
    if (::tcgetattr(descriptor, &line) != 0) {
        return false;
    }
    ::cfmakeraw(&line);
    line.c_cflag |= CREAD | CLOCAL;
    return ::tcsetattr(descriptor, TCSANOW, &line) == 0;
}

// A pseudo-terminal would stay exclusive for as long as its other end lives, also after this program was killed: there
// the lock alone must do.
bool lock(int descriptor, const std::string& path)
{
    if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        return false;
    }
    if (!is_pseudo_terminal(path)) {
        ::ioctl(descriptor, TIOCEXCL);
    }
    return true;
}

void set_control_line(int descriptor, int line, bool on) { ::ioctl(descriptor, on ? TIOCMBIS : TIOCMBIC, &line); }

void show_damage(int descriptor)
{
    struct termios line = {};
    if (::tcgetattr(descriptor, &line) == 0) {
        line.c_iflag &= ~static_cast<tcflag_t>(IGNPAR | PARMRK | IGNBRK | BRKINT);
        ::tcsetattr(descriptor, TCSANOW, &line);
    }
}

void ask_for_short_latency(int descriptor)
{
    struct serial_struct driver = {};
    if (::ioctl(descriptor, TIOCGSERIAL, &driver) == 0) {
        driver.flags |= static_cast<int>(ASYNC_LOW_LATENCY);
        ::ioctl(descriptor, TIOCSSERIAL, &driver);
    }
}

} // namespace

bool is_pseudo_terminal(const std::string& path)
{
    struct stat status = {};
    if (::stat(path.c_str(), &status) != 0 || !S_ISCHR(status.st_mode)) {
        return false;
    }
    // Linux, devices.txt: majors 136 to 143 are the Unix98 pseudo-terminals, 3 the BSD ones.
    const unsigned kind = major(status.st_rdev);
    return (kind >= 136 && kind <= 143) || kind == 3;
}

int open_alone(const std::string& path)
{
    refuse_what_is_no_device(path);
    const int descriptor = ::open(path.c_str(), O_RDWR | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    if (descriptor < 0) {
        throw cannot_open(path, errno);
    }
    if (::isatty(descriptor) == 0) {
        const int error_number = errno;
        ::close(descriptor);
        throw error_number == EIO ? cannot_open(path, EIO) : no_serial_device(path);
    }
    if (!lock(descriptor, path)) {
        ::close(descriptor);
        throw taken_by_another_program(path);
    }
    if (!make_raw(descriptor)) {
        const int error_number = errno;
        ::close(descriptor);
        throw cannot_open(path, error_number);
    }
    return descriptor;
}

void prepare(int descriptor, const trace::PortSettings& settings)
{
    show_damage(descriptor);
    set_control_line(descriptor, TIOCM_DTR, settings.dtr);
    if (settings.flow_control != trace::FlowControl::hardware) {
        set_control_line(descriptor, TIOCM_RTS, settings.rts);
    }
    ask_for_short_latency(descriptor);
    ::tcflush(descriptor, TCIFLUSH);
}

std::uint64_t damaged_characters(int descriptor)
{
    struct serial_icounter_struct counted = {};
    if (::ioctl(descriptor, TIOCGICOUNT, &counted) != 0) {
        return 0;
    }
    return static_cast<std::uint64_t>(counted.parity) + static_cast<std::uint64_t>(counted.frame) +
           static_cast<std::uint64_t>(counted.overrun) + static_cast<std::uint64_t>(counted.buf_overrun);
}

int unsent_bytes(int descriptor)
{
    int bytes = 0;
    return ::ioctl(descriptor, TIOCOUTQ, &bytes) == 0 ? bytes : 0;
}

void drop_unsent(int descriptor) { ::tcflush(descriptor, TCOFLUSH); }

} // namespace zeroline::serial
