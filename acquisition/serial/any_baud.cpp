// The kernel's termios2 takes any rate, but its header and <termios.h> cannot be included together: hence a file alone.
#include "acquisition/serial/device.hpp"

#include <asm/ioctls.h>
#include <asm/termbits.h>

extern "C" int ioctl(int descriptor, unsigned long request, ...) noexcept;

namespace zeroline::serial {

bool set_any_baud(int descriptor, int baud)
{
    struct termios2 line = {};
    if (::ioctl(descriptor, TCGETS2, &line) != 0) {
        return false;
    }
    line.c_cflag &= ~static_cast<tcflag_t>(CBAUD);
    line.c_cflag |= BOTHER;
    line.c_ispeed = static_cast<speed_t>(baud);
    line.c_ospeed = static_cast<speed_t>(baud);
    return ::ioctl(descriptor, TCSETS2, &line) == 0;
}

} // namespace zeroline::serial
