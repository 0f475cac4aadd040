#pragma once

#include "acquisition/serial/asio.hpp"
#include "acquisition/trace/instrument.hpp"

#include <cstdint>
#include <deque>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial {

/// An open serial device, real or pseudo-terminal, on an Asio context. Everything but open() belongs to the thread that
/// runs the context; open() too, once that runs.
class SerialLink {
public:
    using OnBytes = std::function<void(std::string_view)>;
    using OnGone = std::function<void()>;

    /// Unsent bytes beyond this are dropped: nobody reads at the other end.
    static constexpr std::size_t kMostUnsent = 4096;

    explicit SerialLink(boost::asio::io_context& io);

    /// Opens `path` for this program alone, sets the line, drops what was received before. Throws trace::InputError
    /// where there is no port, it may not be opened, is taken, is no serial device, or refuses a setting.
    void open(const std::string& path, const trace::PortSettings& settings);

    /// From now on hands over what arrives. End of file and an input error both mean that the instrument is gone:
    /// `on_gone` is called once, after it nothing. Neither is called after close().
    void listen(OnBytes on_bytes, OnGone on_gone);

    /// Sends in the background, in order.
    void send(std::string bytes);

    /// True while bytes are on their way to the wire.
    [[nodiscard]] bool is_sending();

    /// Closes at once; bytes not yet on the wire are dropped. Idempotent.
    void close();

    [[nodiscard]] bool is_open() const { return port_.is_open(); }

    /// Characters the driver saw damaged (parity, framing, overrun) since opening; 0 where it does not count.
    [[nodiscard]] std::uint64_t damaged_characters();

private:
    void read();
    void write();
    void gone();

    boost::asio::serial_port port_;
    std::vector<char> received_;
    std::deque<std::string> unsent_;
    std::size_t unsent_bytes_ = 0;
    OnBytes on_bytes_;
    OnGone on_gone_;
    unsigned opening_ = 0; ///< completions of an earlier opening are told by it
    std::uint64_t damaged_at_opening_ = 0;
};

/// "115200 baud, 8N1".
[[nodiscard]] std::string in_words(const trace::PortSettings& settings);

} // namespace zeroline::serial
