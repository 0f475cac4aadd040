#include "gui/console/in_order.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <numeric>
#include <thread>

namespace zeroline::console {
namespace {

using namespace std::chrono_literals;

std::vector<int> numbers_below(int count)
{
    std::vector<int> numbers(static_cast<std::size_t>(count));
    std::iota(numbers.begin(), numbers.end(), 0);
    return numbers;
}

TEST(InOrder, ShowsEachOnceInTheOrderOfTheArguments)
{
    std::vector<int> shown;
    const auto work = [](std::size_t i) {
        std::this_thread::sleep_for(std::chrono::microseconds((i * 7919) % 500)); // each done at another time
        return static_cast<int>(i);
    };
    const auto all = work_in_order<int>(300, work, [&](int one) { shown.push_back(one); });
    EXPECT_EQ(shown, numbers_below(300));
    EXPECT_EQ(all, numbers_below(300));
}

TEST(InOrder, ShowsTheFirstBeforeTheLastIsDone)
{
    std::atomic<bool> first_shown{false};
    bool before_the_last = false;
    const auto work = [&](std::size_t i) {
        const auto until = std::chrono::steady_clock::now() + 20s;
        while (i == 49 && !first_shown && std::chrono::steady_clock::now() < until) {
            std::this_thread::sleep_for(1ms);
        }
        before_the_last = i == 49 ? first_shown.load() : before_the_last;
        return static_cast<int>(i);
    };
    (void)work_in_order<int>(50, work, [&](int) { first_shown = true; });
    EXPECT_TRUE(before_the_last);
}

TEST(InOrder, WaitsForWhatComesBefore)
{
    std::vector<int> shown;
    InOrder<int> outcomes(3, [&](int one) { shown.push_back(one); });
    outcomes.put(2, 2);
    EXPECT_TRUE(shown.empty());
    outcomes.put(0, 0);
    EXPECT_EQ(shown, numbers_below(1));
    outcomes.put(1, 1);
    EXPECT_EQ(shown, numbers_below(3));
}

TEST(InOrder, HasNothingToShowOfNone)
{
    EXPECT_TRUE(work_in_order<int>(
                    0, [](std::size_t) { return 1; }, [](int) { FAIL(); })
                    .empty());
}

} // namespace
} // namespace zeroline::console
