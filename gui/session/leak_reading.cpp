#include "gui/session/leak_reading.hpp"

#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::session {

namespace {

constexpr double kNearEnough = 0.6;  ///< share of what is asked for that counts as pressed
constexpr double kGrows_cmH2O = 0.3; ///< more than noise: somebody still presses
constexpr double kLost = 0.5;        ///< share of the pressure that need not be waited for any longer

} // namespace

std::optional<LeakRate> LeakReading::push(const LiveSample& sample)
{
    newest_cmH2O_ = sample.pressure_cmH2O - zero_cmH2O_;
    const double along = newest_cmH2O_ * (target_cmH2O_ < 0.0 ? -1.0 : 1.0);
    if (!follows() && along < kNearEnough * std::fabs(target_cmH2O_)) {
        return std::nullopt;
    }
    if (!follows() || along > most_cmH2O_ + kGrows_cmH2O) {
        time_s_.clear();
        pressure_cmH2O_.clear();
        most_cmH2O_ = along;
    }
    time_s_.push_back(sample.time_s);
    pressure_cmH2O_.push_back(newest_cmH2O_);
    const bool gone = along < kLost * most_cmH2O_;
    return gone || progress() >= 1.0 ? std::optional(verification::leak_rate(time_s_, pressure_cmH2O_)) : std::nullopt;
}

double LeakReading::progress() const
{
    return follows() ? std::min(1.0, (time_s_.back() - time_s_.front()) / verification::kLeakFollowed_s) : 0.0;
}

std::string leak_asked(double target_cmH2O)
{
    const auto level = shown_short_signed(target_cmH2O);
    const auto seconds = shown_short(verification::kLeakFollowed_s);
    return said(
        target_cmH2O > 0.0
            ? Run::tr("Press to about %1 cmH2O with the syringe, shut it off and take your hands away for %2 s.")
                  .arg(level, seconds)
            : Run::tr("Draw to about %1 cmH2O with the syringe, shut it off and take your hands away for %2 s.")
                  .arg(level, seconds));
}

std::string leak_told(const LeakRate& rate, double limit_cmH2O_s)
{
    const auto within =
        rate.uncertainty_cmH2O_s > 0.0 ? QStringLiteral(" (U ") + shown(rate.uncertainty_cmH2O_s, 2) + u')' : QString();
    const auto figures = Run::tr("from %1 cmH2O: %2 cmH2O/s lost%3 over %4 s, %5 mL/min")
                             .arg(shown_signed(rate.from_cmH2O, 1), shown(rate.loss_cmH2O_s, 2), within,
                                  shown(rate.over_s, 1), shown(rate.mL_min(), 0));
    const auto limit = shown_short(limit_cmH2O_s);
    return said(rate.loss_cmH2O_s > limit_cmH2O_s ? Run::tr("%1: OUTSIDE the limit of %2 cmH2O/s").arg(figures, limit)
                                                  : Run::tr("%1: within the limit of %2 cmH2O/s").arg(figures, limit));
}

} // namespace zeroline::session
