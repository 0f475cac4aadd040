#include "acquisition/serial/languages/numeric_lines.hpp"
#include "tests/fuzz/decoder_fuzz.hpp"

#include <cstdint>
#include <string>

namespace {

using zeroline::trace::Language;

// The first byte of an input chooses what the instrument file says; its highest bit dresses the line.
void dress(Language& language)
{
    language.frame_start = "\x02";
    language.frame_end = "\x03";
    language.prefix = ">";
    language.field = 0;
    language.names.pressure = "P";
    language.scale = 0.01;
    language.offset = 1.0;
}

Language language_for(unsigned choice)
{
    Language language;
    language.separator = std::string(1, ",; \t"[choice & 3U]);
    language.decimal = (choice & 4U) != 0 && language.separator != "," ? ',' : '.';
    if ((choice & 8U) != 0) {
        language.field = 2;
        language.count_field = 1;
    }
    if ((choice & 16U) != 0) {
        language.unit_field = language.field;
    }
    if ((choice & 32U) != 0) {
        language.checksum = (choice & 64U) != 0 ? Language::Checksum::crc16_modbus : Language::Checksum::xor8;
    }
    if ((choice & 128U) != 0) {
        dress(language);
    }
    language.overrange_words = {"OL"};
    return language;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    if (size < 1) {
        return 0;
    }
    const Language language = language_for(data[0]);
    const std::string bytes(data + 1, data + size);
    zeroline::fuzz::require_the_same_however_cut(
        [&] { return std::make_unique<zeroline::serial::NumericLines>(language); }, bytes);
    return 0;
}
