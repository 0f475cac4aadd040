#pragma once

#include "gui/session/step_work.hpp"

#include <optional>

namespace zeroline::session {

/// Cycles with an orifice in place of the plug, as many as count and the first ones that do not.
class StrengthWork : public StepWork {
public:
    /// `pause_s`: longer at rest than any pause; `stall_s`: than a rest of the series too, so the unit has stopped.
    StrengthWork(RunDesk& desk, const verification::Orifice& orifice, int cycles, double pause_s, double stall_s)
        : StepWork(desk), orifice_(orifice), cycles_(cycles), pause_s_(pause_s), stall_s_(stall_s)
    {
    }

    bool take(const LiveSample& sample, PressureWatch& watch) override;
    void show(RunView& view) const override;

private:
    void begin(double at_s, const PressureWatch& watch);
    void keep(double to_s);

    verification::Orifice orifice_;
    int cycles_, seen_ = 0;
    double pause_s_, stall_s_;
    std::optional<double> stopped_at_s_; ///< it stood still, for the first time in the step
    std::optional<double> from_s_;       ///< it cycles since then
};

} // namespace zeroline::session
