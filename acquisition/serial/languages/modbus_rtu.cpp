#include "acquisition/serial/languages/modbus_rtu.hpp"

#include "acquisition/serial/languages/checksums.hpp"
#include "acquisition/serial/languages/line_timing.hpp"

#include <bit>
#include <utility>

namespace zeroline::serial {

namespace {

using trace::Language;

constexpr std::size_t kExceptionFrame = 5;
constexpr int kExceptionBit = 0x80;

int registers_of(Language::Register type) noexcept
{
    return type == Language::Register::int16 || type == Language::Register::uint16 ? 1 : 2;
}

Asking::Plan plan_for(const trace::Instrument& instrument, std::size_t request)
{
    Asking::Plan plan;
    plan.period_s = polling_period_s(instrument);
    plan.timeout_s = instrument.language.timeout_s;
    plan.retries = instrument.language.retries;
    plan.silence_s = modbus_silence_s(instrument.port.baud);
    plan.request_s = wire_time_s(instrument.port, request);
    return plan;
}

std::uint32_t byte_at(std::string_view bytes, std::size_t index) noexcept
{
    return static_cast<unsigned char>(bytes[index]);
}

// Registers go high byte first; of two registers, the instrument file says which is the high one.
std::uint32_t word_at(std::string_view data, std::size_t index) noexcept
{
    return (byte_at(data, index) << 8U) | byte_at(data, index + 1);
}

std::uint32_t wide_word(std::string_view data, bool low_word_first) noexcept
{
    const std::uint32_t first = word_at(data, 0);
    const std::uint32_t second = word_at(data, 2);
    return low_word_first ? (second << 16U) | first : (first << 16U) | second;
}

double number_in(std::string_view data, const Language& language)
{
    switch (language.register_type) {
    case Language::Register::int16:
        return static_cast<std::int16_t>(static_cast<std::uint16_t>(word_at(data, 0)));
    case Language::Register::uint16:
        return word_at(data, 0);
    case Language::Register::int32:
        return static_cast<std::int32_t>(wide_word(data, language.low_word_first));
    case Language::Register::float32:
        break;
    }
    return std::bit_cast<float>(wide_word(data, language.low_word_first));
}

void append_word(std::string& bytes, int word)
{
    bytes += static_cast<char>(static_cast<unsigned>(word) >> 8U);
    bytes += static_cast<char>(static_cast<unsigned>(word) & 0xFFU);
}

} // namespace

std::string modbus_request(int address, int function, int first, int registers)
{
    std::string frame;
    frame += static_cast<char>(address);
    frame += static_cast<char>(function);
    append_word(frame, first);
    append_word(frame, registers);
    const std::uint16_t crc = crc16_modbus(frame);
    frame += static_cast<char>(crc & 0xFFU);
    frame += static_cast<char>(static_cast<unsigned>(crc) >> 8U);
    return frame;
}

// Application protocol V1.1b3, clause 7 (from memory).
std::string_view modbus_exception(int code) noexcept
{
    switch (code) {
    case 0x01:
        return "illegal function";
    case 0x02:
        return "illegal data address";
    case 0x03:
        return "illegal data value";
    case 0x04:
        return "server device failure";
    case 0x05:
        return "acknowledge";
    case 0x06:
        return "server device busy";
    case 0x08:
        return "memory parity error";
    case 0x0A:
        return "gateway path unavailable";
    case 0x0B:
        return "gateway target failed to respond";
    default:
        return "unknown exception";
    }
}

ModbusRtu::ModbusRtu(const trace::Instrument& instrument)
    : language_(instrument.language),
      request_(modbus_request(language_.address, language_.function, language_.first_register,
                              registers_of(language_.register_type))),
      asking_(plan_for(instrument, request_.size()))
{
    restart();
}

void ModbusRtu::restart()
{
    drop(buffer_.size(), {});
    asking_.restart();
}

std::string ModbusRtu::to_send(double now_s)
{
    if (asking_.overdue(now_s)) {
        drop(buffer_.size(), "no answer from address " + std::to_string(language_.address));
        asking_.give_up(now_s);
    }
    if (!asking_.due(now_s)) {
        return {};
    }
    asking_.ask(now_s);
    return request_;
}

void ModbusRtu::feed(std::string_view bytes, double arrival_s, std::vector<Reading>& out)
{
    asking_.heard(arrival_s);
    for (const char byte : bytes) {
        if (!asking_.waiting()) {
            discard(1, "bytes come that were not asked for");
            continue;
        }
        buffer_ += byte;
        while (!buffer_.empty()) {
            const std::size_t length = frame_length();
            if (length > buffer_.size()) {
                break;
            }
            if (length == 0 || crc16_modbus(std::string_view(buffer_).substr(0, length)) != 0) {
                drop(1, length == 0 ? "bytes arrive that are no answer" : "a CRC does not fit");
                continue;
            }
            take_frame(std::string_view(buffer_).substr(0, length), arrival_s, out);
            buffer_.erase(0, length);
        }
    }
}

// As long as a frame may still begin here, its full length, though less has come.
std::size_t ModbusRtu::frame_length() const
{
    const std::size_t answer = 5 + 2 * static_cast<std::size_t>(registers_of(language_.register_type));
    if (byte_at(buffer_, 0) != static_cast<std::uint32_t>(language_.address)) {
        return 0;
    }
    if (buffer_.size() == 1) {
        return answer;
    }
    const auto function = static_cast<int>(byte_at(buffer_, 1));
    if (function == (language_.function | kExceptionBit)) {
        return kExceptionFrame;
    }
    const bool length_fits = buffer_.size() == 2 || byte_at(buffer_, 2) == answer - 5;
    return function == language_.function && length_fits ? answer : 0;
}

void ModbusRtu::take_frame(std::string_view frame, double arrival_s, std::vector<Reading>& out)
{
    const double mid_s = asking_.answered(arrival_s).value_or(arrival_s);
    if (frame.size() == kExceptionFrame) {
        const auto code = static_cast<int>(byte_at(frame, 2));
        discard(frame.size(), "the instrument answers with exception " + std::to_string(code) + ", " +
                                  std::string(modbus_exception(code)));
        return;
    }
    Reading reading = reading_of(frame.substr(3));
    reading.arrival_s = mid_s;
    clear_trouble();
    understand(frame.size());
    deliver(reading, out);
}

Reading ModbusRtu::reading_of(std::string_view data) const
{
    // What is no number, or no pressure, deliver() notes.
    Reading reading;
    reading.value = number_in(data, language_) * language_.scale + language_.offset;
    return reading;
}

void ModbusRtu::drop(std::size_t bytes, std::string trouble)
{
    if (bytes > 0 || !trouble.empty()) {
        discard(bytes, std::move(trouble));
    }
    buffer_.erase(0, bytes);
}

} // namespace zeroline::serial
