#pragma once

#include "fixtures/virtual_bench/virtual_bench.hpp"
#include "gui/session/bench_run.hpp"
#include "gui/session/provisional_judge.hpp"

#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace zeroline::session {

/// A pressure drawn by hand: levels one after the other with ramps between them, a small regular ripple on top.
class DrawnPressure {
public:
    explicit DrawnPressure(double rate_hz = 250.0) : rate_hz_(rate_hz) {}

    DrawnPressure& hold(double level_cmH2O, double seconds)
    {
        constexpr double ramp_s = 0.06;
        const double from = level_;
        const auto count = static_cast<int>(std::lround(seconds * rate_hz_));
        for (int i = 0; i < count; ++i) {
            const double share = std::min(1.0, (i + 1) / (ramp_s * rate_hz_));
            const double ripple = 0.02 * std::sin(0.7 * static_cast<double>(samples_.size()));
            samples_.push_back({time_s(), from + (level_cmH2O - from) * share + ripple});
        }
        level_ = level_cmH2O;
        return *this;
    }
    DrawnPressure& cycles(int count, double up, double down, double pause_level = 0.0, double pause_s = 0.5)
    {
        for (int i = 0; i < count; ++i) {
            hold(up, 0.5).hold(down, 0.5).hold(pause_level, pause_s);
        }
        return *this;
    }
    DrawnPressure& toggles(double up, double down)
    {
        return hold(up, 2.0).hold(0.0, 2.0).hold(down, 2.0).hold(0.0, 2.0);
    }
    [[nodiscard]] const std::vector<LiveSample>& samples() const { return samples_; }
    [[nodiscard]] std::vector<LiveSample> take() { return std::exchange(samples_, {}); }
    void skip(double seconds) { skipped_s_ += seconds; }

private:
    [[nodiscard]] double time_s() { return skipped_s_ + static_cast<double>(count_++) / rate_hz_; }

    double rate_hz_;
    double level_ = 0.0;
    double skipped_s_ = 0.0;
    long count_ = 0;
    std::vector<LiveSample> samples_;
};

inline verification::WorkOrder short_order()
{
    verification::WorkOrder order;
    order.work_order = "WO-1";
    order.unit.asset = "RC-1";
    verification::Preset preset;
    preset.name = "day";
    preset.insufflation = {40.0, 0.5};
    preset.exsufflation = {-40.0, 0.5};
    preset.pause = {0.0, 0.5};
    order.presets.push_back(preset);
    order.cycles = 3;
    order.lead_cycles = 1;
    return order;
}

inline trace::Instrument bench_transducer(double rate_hz = 250.0)
{
    trace::Instrument instrument;
    instrument.name = "bench transducer";
    instrument.serial = "PT-1";
    instrument.language.field = 2;
    instrument.language.count_field = 1;
    instrument.range = {-100.0, 100.0, 0.01, trace::PressureUnit::cmH2O};
    instrument.nominal_hz = rate_hz;
    instrument.clock_ppm = 100.0;
    instrument.calibration.certificate = "CAL-1";
    instrument.calibration.on = "2026-06-03";
    instrument.calibration.due = "2027-06-03";
    instrument.calibration.expanded_uncertainty = 0.2;
    return instrument;
}

} // namespace zeroline::session
