#pragma once

#include "analysis/all_cores.hpp"
#include "gui/console/terminal.hpp"

#include <cstddef>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace zeroline::console {

/// Outcomes of many that are worked on at once: each is shown as soon as it and all before it are there. Meanwhile a
/// terminal shows how many are done; a pipe does not.
template <typename Outcome> class InOrder {
public:
    InOrder(std::size_t count, std::function<void(const Outcome&)> show) : outcomes_(count), show_(std::move(show)) {}

    /// From any thread. Shows one at a time.
    void put(std::size_t i, Outcome outcome)
    {
        const std::scoped_lock one_at_a_time(mutex_);
        outcomes_[i] = std::move(outcome);
        ++done_;
        if (outcomes_[next_]) {
            terminal_.clear_progress();
        }
        for (; next_ < outcomes_.size() && outcomes_[next_]; ++next_) {
            show_(*outcomes_[next_]);
        }
        if (next_ < outcomes_.size()) {
            terminal_.progress(std::to_string(done_) + " of " + std::to_string(outcomes_.size()));
        }
    }

    /// All of them, once all were put.
    [[nodiscard]] std::vector<Outcome> all()
    {
        std::vector<Outcome> all;
        for (auto& outcome : outcomes_) {
            all.push_back(std::move(*outcome));
        }
        return all;
    }

private:
    std::mutex mutex_;
    std::vector<std::optional<Outcome>> outcomes_;
    std::function<void(const Outcome&)> show_;
    std::size_t next_ = 0; ///< the first that was not shown
    std::size_t done_ = 0;
    Terminal terminal_;
};

/// `work(i)` for every i below `count` on all cores; `show` gets the outcomes in the order of i, each as soon as it
/// can.
template <typename Outcome, typename Work>
std::vector<Outcome> work_in_order(std::size_t count, Work work, std::function<void(const Outcome&)> show)
{
    InOrder<Outcome> outcomes(count, std::move(show));
    on_all_cores(count, [&](std::size_t i) { outcomes.put(i, work(i)); });
    return outcomes.all();
}

} // namespace zeroline::console
