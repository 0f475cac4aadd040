#pragma once

#include "gui/session/gauge_check.hpp"
#include "gui/session/step_work.hpp"

namespace zeroline::session {

/// The instrument held against a second gauge within a run.
class GaugeWork : public StepWork {
public:
    GaugeWork(RunDesk& desk, GaugeCheck check) : StepWork(desk), check_(std::move(check)) {}

    bool take(const LiveSample& sample, PressureWatch& watch) override;
    bool answer(double value, double last_digit) override;
    [[nodiscard]] bool waits_for_word() const override { return true; }
    void show(RunView& view) const override;

private:
    GaugeCheck check_;
};

} // namespace zeroline::session
