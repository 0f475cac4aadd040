#include "acquisition/serial/languages/decoder.hpp"

#include "acquisition/serial/languages/numeric_lines.hpp"

namespace zeroline::serial {

std::unique_ptr<Decoder> decoder_for(const trace::Instrument& instrument)
{
    return std::make_unique<NumericLines>(instrument.language);
}

} // namespace zeroline::serial
