#include "analysis/all_cores.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

namespace zeroline {
namespace {

TEST(AllCores, DoEachPartOnce)
{
    for (const std::size_t count : {0U, 1U, 2U, 1000U}) {
        std::vector<int> done(count);
        on_all_cores(count, [&](std::size_t i) { ++done[i]; });
        EXPECT_EQ(done, std::vector<int>(count, 1));
    }
}

TEST(AllCores, DoTheSameForAShortTraceAndALongOne)
{
    for (const std::size_t samples : {0U, 199'999U, 200'000U}) {
        std::vector<int> done(50);
        on_all_cores_if_long(samples, done.size(), [&](std::size_t i) { ++done[i]; });
        EXPECT_EQ(done, std::vector<int>(50, 1));
    }
}

TEST(AllCores, PassOnWhatAPartThrows)
{
    const auto fail = [](std::size_t i) {
        if (i == 7) {
            throw std::runtime_error("seven");
        }
    };
    EXPECT_THROW(on_all_cores(100, fail), std::runtime_error);
}

} // namespace
} // namespace zeroline
