#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <thread>
#include <vector>

namespace zeroline {

/// Calls `work(i)` for every i below `count`, on all cores; returns when all are done, and throws what one of them
/// threw. `work` must be safe to call from several threads at once.
template <typename Work> void on_all_cores(std::size_t count, Work work)
{
    std::atomic<std::size_t> next{0};
    const auto take = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            work(i);
        }
    };
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    std::vector<std::future<void>> others;
    for (std::size_t i = 1; i < std::min(cores, count); ++i) {
        others.push_back(std::async(take)); // later, and by this thread, where the system gives no more threads
    }
    take();
    for (auto& other : others) {
        other.get();
    }
}

/// The same for parts of one trace of `samples`: a short one is not worth a thread.
template <typename Work> void on_all_cores_if_long(std::size_t samples, std::size_t count, Work work)
{
    constexpr std::size_t kLong = 200'000;
    if (samples >= kLong) {
        on_all_cores(count, work);
        return;
    }
    for (std::size_t i = 0; i < count; ++i) {
        work(i);
    }
}

} // namespace zeroline
