#include "acquisition/serial/languages/scpi_query.hpp"
#include "tests/fuzz/decoder_fuzz.hpp"

#include <cstdint>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    zeroline::trace::Instrument instrument;
    instrument.language.kind = zeroline::trace::Language::Kind::scpi_query;
    instrument.language.query = "READ?";
    instrument.language.pipelined = true;
    const auto asked = [&] {
        auto decoder = std::make_unique<zeroline::serial::ScpiQuery>(instrument);
        std::vector<zeroline::serial::Reading> none;
        static_cast<void>(decoder->to_send(0.0));
        decoder->feed("a,b,c,d\n", 0.1, none);
        static_cast<void>(decoder->to_send(0.2));
        static_cast<void>(decoder->to_send(0.2));
        return decoder;
    };
    zeroline::fuzz::require_the_same_however_cut(asked, std::string(data, data + size));
    return 0;
}
