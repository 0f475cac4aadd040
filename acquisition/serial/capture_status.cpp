#include "acquisition/serial/capture_status.hpp"

#include <utility>

namespace zeroline::serial {

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
        count_lost_before(reading.count);
    }
}

// A counter that jumps back was started anew or came round: nothing can be said about what was lost then.
void CaptureStatus::count_lost_before(std::int64_t count)
{
    if (last_count_ >= 0 && count > last_count_ + 1) {
        add(lost_, static_cast<std::uint64_t>(count - last_count_ - 1));
    }
    last_count_ = count;
}

} // namespace zeroline::serial
