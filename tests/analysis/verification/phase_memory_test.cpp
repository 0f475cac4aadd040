// A run that goes on is measured from its own new samples.

#include "analysis/verification/phase_memory.hpp"
#include "tests/analysis/verification/synthetic.hpp"

#include <gmock/gmock.h>

namespace zeroline::verification {
namespace {

constexpr double kCycle_s = 5.0; ///< of PlayedCycle

/// The evidence of a run as it stood when its trace was so long.
class Growing {
public:
    explicit Growing(std::size_t cycles) : whole_(synthetic::bench(plan(cycles))) {}

    [[nodiscard]] const Span& automatic() const { return whole_.run.spans[2]; }

    Assessment look(double until_s, PhaseMemory* memory)
    {
        synthetic::Bench now = whole_;
        const auto& time = whole_.trace.time_s;
        const auto size = static_cast<std::size_t>(std::lower_bound(time.begin(), time.end(), until_s) - time.begin());
        now.trace.time_s.resize(size);
        now.trace.pressure_cmH2O.resize(size);
        now.run.spans.resize(3);
        now.run.spans.back().to_s = now.trace.time_s.back();
        return memory != nullptr ? assess(now.evidence(), *memory) : assess(now.evidence());
    }

private:
    static synthetic::Plan plan(std::size_t cycles)
    {
        synthetic::Plan plan;
        plan.cycles.resize(cycles);
        return plan;
    }

    synthetic::Bench whole_;
};

TEST(PhaseMemory, measures_as_many_samples_at_the_thirtieth_cycle_as_at_the_fifth)
{
    Growing run(30);
    PhaseMemory memory;
    std::vector<std::size_t> cost;
    for (int cycle = 1; cycle <= 30; ++cycle) {
        const auto before = memory.samples_measured();
        static_cast<void>(run.look(run.automatic().from_s + 1.0 + cycle * kCycle_s, &memory));
        cost.push_back(memory.samples_measured() - before);
    }
    EXPECT_LE(cost[29], cost[4] + 5);
    EXPECT_LE(cost[29], static_cast<std::size_t>(2.5 * kCycle_s * 250.0));
    EXPECT_LE(memory.samples_measured(), static_cast<std::size_t>(30 * 2.5 * kCycle_s * 250.0));
}

TEST(PhaseMemory, comes_to_the_values_of_measuring_the_whole)
{
    Growing run(12);
    PhaseMemory memory;
    Assessment live;
    const double begins_s = run.automatic().from_s + 1.0;
    for (double until_s = begins_s + 1.0; until_s < begins_s + 12 * kCycle_s; until_s += 1.7) {
        live = run.look(until_s, &memory);
    }
    live = run.look(begins_s + 12 * kCycle_s, &memory);
    const auto whole = run.look(begins_s + 12 * kCycle_s, nullptr);
    ASSERT_EQ(live.cycles.size(), whole.cycles.size());
    for (std::size_t i = 0; i < whole.cycles.size(); ++i) {
        EXPECT_EQ(live.cycles[i].judged, whole.cycles[i].judged) << i << live.cycles[i].why_not_judged;
        ASSERT_EQ(live.cycles[i].quantities.size(), whole.cycles[i].quantities.size()) << i;
        for (const auto& [name, quantity] : whole.cycles[i].quantities) {
            EXPECT_NEAR(live.cycles[i].quantities.at(name).value, quantity.value,
                        quantity.expanded.expanded_uncertainty)
                << name << " in cycle " << i;
        }
    }
    EXPECT_EQ(live.verdict, whole.verdict);
}

TEST(PhaseMemory, measures_nothing_again_where_nothing_came)
{
    Growing run(4);
    PhaseMemory memory;
    const double until_s = run.automatic().from_s + 1.0 + 4 * kCycle_s;
    const auto first = run.look(until_s, &memory);
    const auto measured = memory.samples_measured();
    EXPECT_EQ(run.look(until_s, &memory).cycles.size(), first.cycles.size());
    EXPECT_EQ(memory.samples_measured(), measured);
}

} // namespace
} // namespace zeroline::verification
