#pragma once

#include "acquisition/serial/capture.hpp"

#include <atomic>
#include <mutex>
#include <string>

namespace zeroline::serial {

/// What the I/O thread tells the consumer besides readings. Written by one thread, read by any.
class CaptureStatus {
public:
    [[nodiscard]] LineState state() const { return state_.load(std::memory_order_acquire); }
    [[nodiscard]] std::string message() const;
    [[nodiscard]] std::string identity() const;
    [[nodiscard]] Counters counters() const;

    /// State and its sentence change together; an empty sentence while all is well.
    void set(LineState state, std::string message);
    void set_identity(std::string identity);
    void count_bytes(std::size_t bytes) { add(bytes_, bytes); }
    void count_reading(const Reading& reading);
    void count_not_displayed() { add(not_displayed_, 1); }
    void set_discarded(std::uint64_t bytes) { discarded_.store(bytes, std::memory_order_relaxed); }
    void set_damaged(std::uint64_t characters) { damaged_.store(characters, std::memory_order_relaxed); }
    void set_unanswered(std::uint64_t requests) { unanswered_.store(requests, std::memory_order_relaxed); }

private:
    using Count = std::atomic<std::uint64_t>;
    static void add(Count& count, std::uint64_t more) { count.fetch_add(more, std::memory_order_relaxed); }
    void count_lost_before(std::int64_t count);

    mutable std::mutex mutex_;
    std::string message_;
    std::string identity_;
    std::atomic<LineState> state_ = LineState::opening;
    Count readings_ = 0, without_value_ = 0, bytes_ = 0, discarded_ = 0, lost_ = 0, counts_back_ = 0,
          not_displayed_ = 0, unanswered_ = 0, damaged_ = 0;
    std::int64_t newest_count_ = -1; ///< the writing thread's, like the next two
    std::int64_t last_count_ = -1;   ///< believed
    std::int64_t jumped_to_ = -1;    ///< a count that left a hole: believed once the next one goes on from it
};

} // namespace zeroline::serial
