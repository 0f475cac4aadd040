// Whole runs of units by their equations, with a lung on the hose or healthy (docs/physics.md). More of them:
// whole_runs_study.

#include "tests/physics/whole_runs.hpp"

#include <gtest/gtest.h>

namespace zeroline::physics_study {
namespace {

class WithLung : public testing::TestWithParam<int> {};

TEST_P(WithLung, is_found_never_passes_and_is_not_blamed_on_the_unit)
{
    const Outcome outcome = run_with_lung(static_cast<std::uint64_t>(GetParam()));
    EXPECT_TRUE(outcome.found()) << outcome.words();
    EXPECT_FALSE(outcome.passed()) << outcome.words();
    EXPECT_FALSE(outcome.blamed()) << outcome.words();
}

INSTANTIATE_TEST_SUITE_P(WholeRuns, WithLung, testing::Range(1, 42));

TEST(HealthyRun, is_not_asked_about_its_hose_end_and_passes)
{
    for (std::uint64_t seed = 1; seed <= 15; ++seed) {
        const Outcome outcome = run_healthy(seed);
        EXPECT_FALSE(outcome.found()) << outcome.words();
        EXPECT_TRUE(outcome.passed()) << outcome.words();
    }
}

} // namespace
} // namespace zeroline::physics_study
