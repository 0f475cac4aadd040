#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace zeroline::console {

/// Calls `work(i)` for every i below `count`, on all cores; returns when all are done. `work` must not throw and must
/// be safe to call from several threads at once.
template <typename Work> void on_all_cores(std::size_t count, Work work)
{
    std::atomic<std::size_t> next{0};
    const auto take = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            work(i);
        }
    };
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    std::vector<std::thread> threads;
    for (std::size_t i = 1; i < std::min(cores, count); ++i) {
        threads.emplace_back(take);
    }
    take();
    for (auto& thread : threads) {
        thread.join();
    }
}

} // namespace zeroline::console
