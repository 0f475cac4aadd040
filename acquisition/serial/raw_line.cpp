#include "acquisition/serial/raw_line.hpp"

#include "acquisition/serial/asio.hpp"
#include "acquisition/serial/languages/decoder.hpp"
#include "acquisition/serial/serial_link.hpp"

#include <chrono>

namespace zeroline::serial {

bool listen_raw(const std::string& port, const trace::Instrument& instrument,
                const std::function<bool(std::string_view)>& take)
{
    using std::chrono::steady_clock;
    boost::asio::io_context io;
    SerialLink link(io);
    link.open(port, instrument.port);
    const auto began = steady_clock::now();
    const auto now_s = [began] { return std::chrono::duration<double>(steady_clock::now() - began).count(); };
    const auto decoder = decoder_for(instrument); // knows when to ask, and with what
    std::string heard;
    link.listen([&](std::string_view bytes) { heard += bytes; }, [] {});
    link.send(instrument.port.start);
    std::vector<Reading> unused;
    for (bool more = true; more && link.is_open();) {
        link.send(decoder->to_send(now_s()));
        io.run_for(std::chrono::milliseconds(20));
        io.restart();
        decoder->feed(heard, now_s(), unused);
        unused.clear();
        more = take(heard);
        heard.clear();
    }
    const bool stands = link.is_open();
    link.send(instrument.port.stop);
    io.run_for(std::chrono::milliseconds(20));
    return stands;
}

std::string with_escapes(std::string_view bytes)
{
    constexpr std::string_view kDigits = "0123456789ABCDEF";
    std::string text;
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 0x20 && byte < 0x7f) {
            text += c;
        } else {
            text += {'\\', 'x', kDigits[byte >> 4U], kDigits[byte & 0xFU]};
        }
    }
    return text;
}

} // namespace zeroline::serial
