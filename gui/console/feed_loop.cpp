#include "gui/console/feed_loop.hpp"

#include "gui/console/interrupt.hpp"

#include <chrono>
#include <thread>

namespace zeroline::console {

void FeedLoop::tell_trouble()
{
    const auto sentence = feed_.sentence();
    if (sentence != told_) {
        terminal_.say(sentence.empty() ? "the instrument is back; it goes on" : sentence);
        told_ = sentence;
    }
}

void FeedLoop::run(std::optional<double> seconds_s, const std::function<void(const session::LiveFeed::Batch&)>& take)
{
    using serial::LineState;
    std::optional<double> first_s;
    auto heard = std::chrono::steady_clock::now();
    for (bool over = false; !over && !interrupted();) {
        const auto state = feed_.state();
        over = state == LineState::ended || state == LineState::failed;
        const auto batch = feed_.pull();
        take(batch);
        const auto now = std::chrono::steady_clock::now();
        if (!batch.samples.empty() || state == LineState::lost) {
            heard = now;
        }
        over = over || now - heard > std::chrono::duration<double>(wait_s_);
        tell_trouble();
        if (!batch.samples.empty()) {
            first_s = first_s.value_or(batch.samples.front().time_s);
            over = over || (seconds_s && batch.samples.back().time_s - *first_s >= *seconds_s);
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(over ? 0 : 20));
    }
}

} // namespace zeroline::console
