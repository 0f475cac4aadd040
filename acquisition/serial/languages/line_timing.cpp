#include "acquisition/serial/languages/line_timing.hpp"

#include <algorithm>

namespace zeroline::serial {

namespace {

using trace::Instrument;
using trace::Language;

constexpr std::size_t kShortestNumber = 4; // "-1.5"
constexpr std::size_t kModbusRequest = 8;
constexpr std::size_t kModbusFrame = 5; // address, function, length, CRC

// With its separator.
std::size_t checksum_characters(Language::Checksum checksum)
{
    switch (checksum) {
    case Language::Checksum::none:
        return 0;
    case Language::Checksum::xor8:
    case Language::Checksum::sum8:
        return 3;
    case Language::Checksum::crc16_modbus:
    case Language::Checksum::crc16_ccitt:
        break;
    }
    return 5;
}

std::size_t characters_a_line(const Language& language)
{
    const int fields = std::max({language.field, language.count_field.value_or(1), language.time_field.value_or(1)});
    const std::size_t others = static_cast<std::size_t>(std::max(fields, 1) - 1);
    return kShortestNumber + 2 * others + language.prefix.size() + checksum_characters(language.checksum) + 1;
}

double modbus_exchange_s(const Instrument& instrument)
{
    const bool wide = instrument.language.register_type == Language::Register::int32 ||
                      instrument.language.register_type == Language::Register::float32;
    const std::size_t answer = kModbusFrame + (wide ? 4 : 2);
    return wire_time_s(instrument.port, kModbusRequest + answer) + 2.0 * modbus_silence_s(instrument.port.baud);
}

double seconds_a_reading(const Instrument& instrument)
{
    switch (instrument.language.kind) {
    case Language::Kind::scpi_query:
    case Language::Kind::polled_lines:
        return wire_time_s(instrument.port, instrument.language.query.size() + instrument.language.line_end.size() +
                                                kShortestNumber + 1);
    case Language::Kind::modbus_rtu:
        return modbus_exchange_s(instrument);
    case Language::Kind::numeric_lines:
        break;
    }
    return wire_time_s(instrument.port, characters_a_line(instrument.language));
}

} // namespace

double wire_time_s(const trace::PortSettings& port, std::size_t characters)
{
    const int bits = 1 + port.data_bits + (port.parity == trace::Parity::none ? 0 : 1) + port.stop_bits;
    return static_cast<double>(characters) * bits / std::max(port.baud, 1);
}

double modbus_silence_s(int baud) { return baud > 19200 ? 1.75e-3 : 3.5 * 11.0 / std::max(baud, 1); }

double highest_rate_hz(const Instrument& instrument) { return 1.0 / seconds_a_reading(instrument); }

double polling_period_s(const Instrument& instrument)
{
    return instrument.nominal_hz > 0.0 ? 1.0 / instrument.nominal_hz : 0.0;
}

} // namespace zeroline::serial
