#pragma once

#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <stdexcept>
#include <string>
#include <string_view>

namespace zeroline::serial::test {

/// The instrument's end of a pseudo-terminal; the program opens path().
class InstrumentEnd {
public:
    InstrumentEnd() : descriptor_(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC))
    {
        std::array<char, 128> name{};
        if (descriptor_ < 0 || ::grantpt(descriptor_) != 0 || ::unlockpt(descriptor_) != 0 ||
            ::ptsname_r(descriptor_, name.data(), name.size()) != 0) {
            throw std::runtime_error("no pseudo-terminal");
        }
        path_ = name.data();
        make_raw();
    }
    ~InstrumentEnd() { unplug(); }
    InstrumentEnd(const InstrumentEnd&) = delete;
    InstrumentEnd& operator=(const InstrumentEnd&) = delete;

    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] int descriptor() const { return descriptor_; }

    void write(std::string_view bytes) const
    {
        while (!bytes.empty()) {
            const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
            if (written < 0) {
                throw std::runtime_error("the instrument cannot write");
            }
            bytes.remove_prefix(static_cast<std::size_t>(written));
        }
    }

    /// What the program has sent, waiting up to `milliseconds` for the first byte.
    [[nodiscard]] std::string read(int milliseconds) const
    {
        pollfd waiting{descriptor_, POLLIN, 0};
        if (::poll(&waiting, 1, milliseconds) <= 0 || (waiting.revents & POLLIN) == 0) {
            return {};
        }
        std::array<char, 4096> room{};
        const ssize_t bytes = ::read(descriptor_, room.data(), room.size());
        return bytes > 0 ? std::string(room.data(), static_cast<std::size_t>(bytes)) : std::string();
    }

    void unplug()
    {
        if (descriptor_ >= 0) {
            ::close(descriptor_);
            descriptor_ = -1;
        }
    }

private:
    // Until the program sets the line, the other end would echo and turn line ends about.
    void make_raw() const
    {
        termios line{};
        ::tcgetattr(descriptor_, &line);
        ::cfmakeraw(&line);
        ::tcsetattr(descriptor_, TCSANOW, &line);
    }

    int descriptor_ = -1;
    std::string path_;
};

} // namespace zeroline::serial::test
