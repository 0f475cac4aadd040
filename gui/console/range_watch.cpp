#include "gui/console/range_watch.hpp"

#include "gui/session/number_text.hpp"

namespace zeroline::console {

using session::signed_fixed_text;

RangeWatch::RangeWatch(const trace::SensorRange& range)
    : low_cmH2O_(trace::to_cmH2O(range.low, range.unit)), high_cmH2O_(trace::to_cmH2O(range.high, range.unit))
{
}

std::string RangeWatch::take(const std::vector<session::LiveSample>& samples)
{
    std::string sentence;
    for (const auto& sample : samples) {
        if (sample.pressure_cmH2O >= low_cmH2O_ && sample.pressure_cmH2O <= high_cmH2O_) {
            continue;
        }
        if (++beyond_ == 1) {
            sentence = "a reading of " + signed_fixed_text(sample.pressure_cmH2O, 2) +
                       " cmH2O lies beyond the range of the instrument file, " + signed_fixed_text(low_cmH2O_, 2) +
                       " to " + signed_fixed_text(high_cmH2O_, 2) + " cmH2O: are unit, field, scale and range right?";
        }
    }
    return sentence;
}

} // namespace zeroline::console
