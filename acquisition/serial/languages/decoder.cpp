#include "acquisition/serial/languages/decoder.hpp"

#include "acquisition/serial/languages/modbus_rtu.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"
#include "acquisition/serial/languages/scpi_query.hpp"

namespace zeroline::serial {

std::unique_ptr<Decoder> decoder_for(const trace::Instrument& instrument)
{
    switch (instrument.language.kind) {
    case trace::Language::Kind::scpi_query:
        return std::make_unique<ScpiQuery>(instrument);
    case trace::Language::Kind::modbus_rtu:
        return std::make_unique<ModbusRtu>(instrument);
    case trace::Language::Kind::numeric_lines:
        break;
    }
    return std::make_unique<NumericLines>(instrument.language);
}

} // namespace zeroline::serial
