#include "acquisition/serial/languages/modbus_rtu.hpp"
#include "tests/fuzz/decoder_fuzz.hpp"

#include <cstdint>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    if (size < 1) {
        return 0;
    }
    zeroline::trace::Instrument instrument;
    instrument.language.kind = zeroline::trace::Language::Kind::modbus_rtu;
    instrument.language.register_type = static_cast<zeroline::trace::Language::Register>(data[0] & 3U);
    instrument.language.low_word_first = (data[0] & 4U) != 0;
    const auto asked = [&] {
        auto decoder = std::make_unique<zeroline::serial::ModbusRtu>(instrument);
        static_cast<void>(decoder->to_send(0.0));
        return decoder;
    };
    zeroline::fuzz::require_the_same_however_cut(asked, std::string(data + 1, data + size));
    return 0;
}
