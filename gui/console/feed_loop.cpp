#include "gui/console/feed_loop.hpp"

#include "gui/console/interrupt.hpp"

#include "gui/session/number_text.hpp"

#include <algorithm>
#include <chrono>
#include <limits>
#include <optional>
#include <thread>
#include <vector>

namespace zeroline::console {

namespace {

constexpr double kStuck_s = 5.0;

/// Sees a reading that never changes, which a live transducer hardly does.
class StuckWatch {
public:
    /// The reading that has stood still for kStuck_s now; each stand is told once.
    std::optional<double> take(const std::vector<session::LiveSample>& samples)
    {
        std::optional<double> stands;
        for (const auto& sample : samples) {
            if (sample.pressure_cmH2O != pressure_cmH2O_) {
                pressure_cmH2O_ = sample.pressure_cmH2O;
                since_s_ = sample.time_s;
                told_ = false;
            } else if (!told_ && sample.time_s - since_s_ > kStuck_s) {
                told_ = true;
                stands = sample.pressure_cmH2O;
            }
        }
        return stands;
    }

private:
    double pressure_cmH2O_ = std::numeric_limits<double>::quiet_NaN();
    double since_s_ = 0.0;
    bool told_ = false;
};

} // namespace

void FeedLoop::tell_trouble()
{
    const auto sentence = feed_.sentence();
    if (sentence != told_) {
        terminal_.say(sentence.empty() ? "the instrument is back; it goes on" : sentence);
        told_ = sentence;
    }
}

void FeedLoop::tell_identity()
{
    const auto identity = feed_.identity();
    if (identity != told_identity_) {
        terminal_.say("the instrument says it is " + identity);
        told_identity_ = identity;
    }
}

void FeedLoop::tell_disorder(double heard_s)
{
    if (!told_back_ && feed_.counters().counts_back > 0) {
        terminal_.say("the instrument's count ran back: was it started anew, or are two instruments on this line?");
        told_back_ = true;
    }
    tell_too_many(heard_s);
}

void FeedLoop::tell_too_many(double heard_s)
{
    constexpr double sure_after_s = 3.0;
    constexpr double too_many = 1.5;
    const double rate_hz = static_cast<double>(feed_.counters().readings) / std::max(heard_s, sure_after_s);
    if (!told_too_many_ && heard_s >= sure_after_s && rate_hz > too_many * nominal_hz_) {
        terminal_.say(session::fixed_text(rate_hz, 0) + " readings a second come, the instrument file states " +
                      session::fixed_text(nominal_hz_, 0) +
                      ": is rate.nominal_hz right, or are two instruments on this line?");
        told_too_many_ = true;
    }
}

void FeedLoop::run(std::optional<double> seconds_s, const std::function<void(const session::LiveFeed::Batch&)>& take)
{
    using serial::LineState;
    using Clock = std::chrono::steady_clock;
    StuckWatch stuck;
    auto heard = Clock::now();
    stopped_ = false;
    for (bool over = false; !over && !stopped_ && !interrupted();) {
        const auto state = feed_.state();
        over = state == LineState::ended || state == LineState::failed;
        const auto batch = feed_.pull();
        take(batch);
        const auto now = Clock::now();
        if (!batch.samples.empty() || state == LineState::lost) {
            heard = now;
        }
        over = over || now - heard > std::chrono::duration<double>(wait_s_);
        tell_trouble();
        tell_identity();
        if (const auto stands = stuck.take(batch.samples)) {
            terminal_.say("the reading has not changed for " + session::fixed_text(kStuck_s, 0) + " s (" +
                          session::signed_fixed_text(*stands, 2) +
                          " cmH2O); if the pressure moves: is the sensing line blocked, or the instrument on hold?");
        }
        if (!batch.samples.empty() && !first_) {
            first_ = now;
        }
        over = over || (first_ && seconds_s && now - *first_ >= std::chrono::duration<double>(*seconds_s));
        if (first_) {
            tell_disorder(std::chrono::duration<double>(now - *first_).count());
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(over ? 0 : 20));
    }
}

} // namespace zeroline::console
