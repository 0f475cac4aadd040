#pragma once

#include "analysis/verification/bench_file.hpp"
#include "analysis/verification/instrument_check.hpp"
#include "gui/session/live_feed.hpp"
#include "gui/session/zero_reading.hpp"

#include <deque>
#include <string>
#include <vector>

namespace zeroline::session {

/// A check that is about to begin: who, when, with which gauge, within which limit.
[[nodiscard]] verification::InstrumentCheck check_with(const verification::SecondGauge& gauge, const std::string& day,
                                                       int every_days);

/// A step of the last digit of a number as it was typed: 0.1 of "19.9" and "19,9", 1 of "20".
[[nodiscard]] double last_digit_of(const std::string& typed);

/// An instrument held against a second gauge, point by point: what the gauge shows is typed while the pressure is held.
class GaugeCheck {
public:
    /// `check` without its points; `points_cmH2O`: one at least. `zero` is subtracted from every reading.
    GaugeCheck(verification::InstrumentCheck check, trace::PressureUnit unit, std::vector<double> points_cmH2O,
               const QuietStretch& zero);

    void push(const LiveSample& sample);
    /// Takes the reading beside what was typed, in the gauge's unit. Empty: taken; else why not, in one sentence.
    [[nodiscard]] std::string take(double typed, double last_digit);

    [[nodiscard]] bool done() const { return taken() == points_cmH2O_.size(); }
    [[nodiscard]] std::size_t taken() const { return check_.points.size(); }
    [[nodiscard]] double share_done() const;
    [[nodiscard]] double wanted_cmH2O() const { return points_cmH2O_[taken()]; } ///< not when done()
    [[nodiscard]] std::string question() const;                                  ///< not when done()
    [[nodiscard]] std::string unit() const;
    [[nodiscard]] const verification::InstrumentCheck& check() const noexcept { return check_; }

private:
    [[nodiscard]] double mean_cmH2O() const;
    [[nodiscard]] double half_width_cmH2O() const;
    [[nodiscard]] std::string why_not() const;

    verification::InstrumentCheck check_;
    trace::PressureUnit unit_;
    std::vector<double> points_cmH2O_;
    QuietStretch zero_;
    std::deque<LiveSample> newest_; ///< of the last second
};

} // namespace zeroline::session
