#include "acquisition/serial/languages/decoder.hpp"

#include "acquisition/serial/languages/modbus_rtu.hpp"
#include "acquisition/serial/languages/numeric_lines.hpp"
#include "acquisition/serial/languages/scpi_query.hpp"
#include "acquisition/trace/trace_limits.hpp"

#include <cmath>

namespace zeroline::serial {

void Decoder::deliver(Reading reading, std::vector<Reading>& out)
{
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    if (!reading.has_note && !(std::abs(reading.value) <= trace::kLargestPressure)) {
        reading.has_note = true;
        reading.note = std::isnan(reading.value) ? trace::NoteKind::not_a_number : trace::NoteKind::overrange;
        reading.value = none;
    }
    reading.count = reading.count <= trace::kLargestCount ? reading.count : -1;
    if (!(std::abs(reading.instrument_time_s) <= trace::kLargestTime_s)) {
        reading.instrument_time_s = none;
    }
    out.push_back(reading);
}

std::unique_ptr<Decoder> decoder_for(const trace::Instrument& instrument)
{
    switch (instrument.language.kind) {
    case trace::Language::Kind::scpi_query:
    case trace::Language::Kind::polled_lines:
        return std::make_unique<ScpiQuery>(instrument);
    case trace::Language::Kind::modbus_rtu:
        return std::make_unique<ModbusRtu>(instrument);
    case trace::Language::Kind::numeric_lines:
        break;
    }
    return std::make_unique<NumericLines>(instrument.language);
}

} // namespace zeroline::serial
