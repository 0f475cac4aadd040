#include "acquisition/serial/capture_status.hpp"

#include "acquisition/trace/reading_index.hpp"

#include <algorithm>
#include <utility>

namespace zeroline::serial {

namespace {

/// A count that went on past its end, some readings lost.
bool comes_round(std::int64_t before, std::int64_t after)
{
    constexpr std::int64_t most = 64;
    return std::any_of(trace::kCountSizes.begin(), trace::kCountSizes.end(),
                       [&](std::int64_t size) { return size > before && size - before + after <= most; });
}

} // namespace

std::string CaptureStatus::message() const
{
    const std::lock_guard lock(mutex_);
    return message_;
}

std::string CaptureStatus::identity() const
{
    const std::lock_guard lock(mutex_);
    return identity_;
}

Counters CaptureStatus::counters() const
{
    Counters now;
    now.readings = readings_.load(std::memory_order_relaxed);
    now.without_value = without_value_.load(std::memory_order_relaxed);
    now.bytes = bytes_.load(std::memory_order_relaxed);
    now.discarded_bytes = discarded_.load(std::memory_order_relaxed);
    now.damaged_characters = damaged_.load(std::memory_order_relaxed);
    now.lost_readings = lost_.load(std::memory_order_relaxed);
    now.counts_back = counts_back_.load(std::memory_order_relaxed);
    now.unanswered = unanswered_.load(std::memory_order_relaxed);
    now.not_displayed = not_displayed_.load(std::memory_order_relaxed);
    return now;
}

void CaptureStatus::set(LineState state, std::string message)
{
    const std::lock_guard lock(mutex_);
    message_ = std::move(message);
    state_.store(state, std::memory_order_release);
}

void CaptureStatus::set_identity(std::string identity)
{
    const std::lock_guard lock(mutex_);
    identity_ = std::move(identity);
}

void CaptureStatus::count_reading(const Reading& reading)
{
    add(reading.has_note ? without_value_ : readings_, 1);
    if (reading.count >= 0) {
        if (newest_count_ > reading.count && !comes_round(newest_count_, reading.count)) {
            add(counts_back_, 1);
        }
        newest_count_ = reading.count;
        count_lost_before(reading.count);
    }
}

// A counter that jumps back was started anew or came round: nothing can be said about what was lost then. One that
// jumps ahead may have been damaged: the next one tells.
void CaptureStatus::count_lost_before(std::int64_t count)
{
    const auto lost_between = [](std::int64_t before, std::int64_t after) {
        return static_cast<std::uint64_t>(std::max<std::int64_t>(after - before - 1, 0));
    };
    if (jumped_to_ >= 0) {
        const bool goes_on = count > jumped_to_;
        // Damaged it was still a reading, the one after the last good count.
        add(lost_, goes_on ? lost_between(last_count_, jumped_to_) : 0);
        last_count_ = goes_on ? jumped_to_ : last_count_ + 1;
        jumped_to_ = -1;
    }
    if (last_count_ >= 0 && count > last_count_ + 1) {
        jumped_to_ = count;
    } else {
        last_count_ = count;
    }
}

} // namespace zeroline::serial
