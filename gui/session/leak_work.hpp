#pragma once

#include "gui/session/leak_reading.hpp"
#include "gui/session/step_work.hpp"

namespace zeroline::session {

/// The leak test of the set-up within a run: a pressure shut in above zero, then one below. Where it does not hold, a
/// person mends it and it is done once more, or goes on: the record then says that the set-up leaks.
class LeakWork : public StepWork {
public:
    LeakWork(RunDesk& desk, double limit_cmH2O_s) : StepWork(desk), limit_cmH2O_s_(limit_cmH2O_s) {}

    bool take(const LiveSample& sample, PressureWatch& watch) override;
    void confirm() override;
    bool go_on() override;
    [[nodiscard]] bool waits_for_word() const override { return leaks_; }
    void show(RunView& view) const override;

private:
    [[nodiscard]] double target_cmH2O() const { return kLeakTargets_cmH2O[side_]; }
    bool next_side();

    double limit_cmH2O_s_;
    std::size_t side_ = 0, tries_ = 0;
    bool leaks_ = false; ///< waits for a decision
    LeakReading reading_{kLeakTargets_cmH2O[0], 0.0};
};

} // namespace zeroline::session
