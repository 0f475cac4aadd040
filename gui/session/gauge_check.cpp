#include "gui/session/gauge_check.hpp"

#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::session {

namespace {

constexpr double kTogether_s = 1.0; ///< so much of the trace is read beside the second gauge
constexpr double kHeld_cmH2O = 0.5; ///< more than this to either side of the middle: it is not held
constexpr double kAboutThere = 0.5; ///< share of a point, either way, by which it may be missed
constexpr std::size_t kFewestSamples = 3;

double rounded(double value) { return std::round(value * 1e3) / 1e3; }

} // namespace

verification::InstrumentCheck check_with(const verification::SecondGauge& gauge, const std::string& day, int every_days)
{
    verification::InstrumentCheck check;
    check.on = day;
    check.due = verification::later_day(day, every_days);
    check.gauge = gauge.name;
    check.gauge_certificate = gauge.certificate;
    check.gauge_uncertainty_cmH2O = trace::to_cmH2O(gauge.uncertainty, gauge.unit);
    return check;
}

double last_digit_of(const std::string& typed)
{
    const auto point = typed.find_first_of(".,");
    const auto digits = point == std::string::npos ? std::size_t{0} : typed.size() - point - 1;
    return std::pow(10.0, -static_cast<double>(digits));
}

GaugeCheck::GaugeCheck(verification::InstrumentCheck check, trace::PressureUnit unit, std::vector<double> points_cmH2O,
                       const QuietStretch& zero)
    : check_(std::move(check)), unit_(unit), points_cmH2O_(std::move(points_cmH2O)), zero_(zero)
{
    check_.zero_cmH2O = rounded(zero.mean_cmH2O);
    check_.noise_cmH2O = rounded(zero.noise_cmH2O);
}

void GaugeCheck::push(const LiveSample& sample)
{
    newest_.push_back(sample);
    while (newest_.back().time_s - newest_.front().time_s > kTogether_s) {
        newest_.pop_front();
    }
}

double GaugeCheck::share_done() const
{
    return static_cast<double>(taken()) / static_cast<double>(points_cmH2O_.size());
}

std::string GaugeCheck::unit() const { return std::string(trace::name_of(unit_)); }

std::string GaugeCheck::question() const
{
    return said(Run::tr("Press to about %1 cmH2O and hold it. What does the second gauge show, in %2?")
                    .arg(shown_short_signed(wanted_cmH2O()), QString::fromStdString(unit())));
}

double GaugeCheck::mean_cmH2O() const
{
    double sum = 0.0;
    for (const auto& sample : newest_) {
        sum += sample.pressure_cmH2O;
    }
    return sum / static_cast<double>(newest_.size()) - zero_.mean_cmH2O;
}

/// Half of what lies between the lowest and the highest.
double GaugeCheck::half_width_cmH2O() const
{
    const auto [low, high] = std::minmax_element(newest_.begin(), newest_.end(), [](const auto& a, const auto& b) {
        return a.pressure_cmH2O < b.pressure_cmH2O;
    });
    return (high->pressure_cmH2O - low->pressure_cmH2O) / 2.0;
}

std::string GaugeCheck::why_not() const
{
    if (newest_.size() < kFewestSamples) {
        return said(Run::tr("No readings come in."));
    }
    if (half_width_cmH2O() > std::max(kHeld_cmH2O, 5.0 * zero_.noise_cmH2O)) {
        return said(Run::tr("The pressure moves: hold it still and type the gauge's value again."));
    }
    if (std::fabs(mean_cmH2O() - wanted_cmH2O()) > kAboutThere * std::fabs(wanted_cmH2O())) {
        return said(Run::tr("The instrument reads %1 cmH2O, not about %2: press there and type again.")
                        .arg(shown_signed(mean_cmH2O(), 1), shown_short_signed(wanted_cmH2O())));
    }
    return {};
}

/// What was read off is uncertain by half a step of its last digit, as a rectangle.
std::string GaugeCheck::take(double typed, double last_digit)
{
    auto trouble = why_not();
    if (trouble.empty()) {
        const double mean_u = zero_.noise_cmH2O / std::sqrt(static_cast<double>(newest_.size()));
        const double read_u = trace::to_cmH2O(last_digit / std::sqrt(12.0), unit_);
        const double gauge_u = check_.gauge_uncertainty_cmH2O / 2.0;
        check_.points.push_back({rounded(mean_cmH2O()), rounded(trace::to_cmH2O(typed, unit_)),
                                 rounded(2.0 * std::hypot(std::hypot(gauge_u, read_u), mean_u))});
    }
    return trouble;
}

} // namespace zeroline::session
