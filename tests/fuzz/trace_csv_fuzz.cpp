#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"

#include <cmath>
#include <cstdlib>
#include <string_view>

namespace {

using zeroline::trace::RawTrace;

void require(bool holds)
{
    if (!holds) {
        std::abort();
    }
}

bool same_number(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

void require_same(const std::vector<double>& a, const std::vector<double>& b)
{
    require(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        require(same_number(a[i], b[i]));
    }
}

// What was read can be written and read again, to the last bit.
void require_round_trip(const RawTrace& raw)
{
    const auto again = zeroline::trace::parse_trace_csv(zeroline::trace::to_csv(raw));
    require_same(raw.moment_s, again.moment_s);
    require_same(raw.pressure, again.pressure);
    require_same(raw.instrument_time_s, again.instrument_time_s);
    require(raw.count == again.count && raw.notes.size() == again.notes.size() && raw.unit == again.unit);
    for (std::size_t i = 0; i < raw.notes.size(); ++i) {
        require(raw.notes[i].row == again.notes[i].row && raw.notes[i].text == again.notes[i].text);
    }
}

void require_sound(const zeroline::trace::Trace& trace)
{
    require(trace.time_s.size() == trace.pressure_cmH2O.size());
    for (std::size_t i = 0; i < trace.size(); ++i) {
        require(std::isfinite(trace.time_s[i]) && std::isfinite(trace.pressure_cmH2O[i]));
        require(i == 0 || trace.time_s[i] > trace.time_s[i - 1]);
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    try {
        auto raw = zeroline::trace::parse_trace_csv({reinterpret_cast<const char*>(data), size});
        require_round_trip(raw);
        require_sound(zeroline::trace::derive(std::move(raw), nullptr));
    } catch (const zeroline::trace::InputError&) {
    }
    return 0;
}
