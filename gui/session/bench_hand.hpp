#pragma once

#include "fixtures/virtual_bench/virtual_bench.hpp"
#include "gui/session/bench_run.hpp"

#include <optional>
#include <tuple>
#include <vector>

namespace zeroline::session {

/// The hand at a virtual bench: does what a run asks for, a little later, as a person would. So the bench goes along
/// with a run however long its questions take.
class BenchHand {
public:
    /// What is to be done on the bench, in order, for what the run asks now; empty where it asks for nothing new.
    /// VirtualBench::follow() takes them.
    [[nodiscard]] std::vector<virtual_bench::Action> next(const RunView& view);

private:
    [[nodiscard]] std::vector<virtual_bench::Action> actions_for(const RunView& view);

    std::optional<std::tuple<std::size_t, Deed, std::size_t>> done_; ///< step, deed, holds seen
    bool holding_ = false;                                           ///< the first hold began together with the plug
    bool syringe_in_ = false;                                        ///< it was pressed, and nothing let off since
    int starts_ = 0;                                                 ///< of automatic mode in this step
};

} // namespace zeroline::session
