#pragma once

#include "gui/session/live_feed.hpp"
#include "gui/session/pressure_watch.hpp"
#include "gui/session/run_view.hpp"

#include "analysis/verification/instrument_check.hpp"

#include <memory>
#include <string>

namespace zeroline::session {

/// What a step that does its own work may do to its run.
class RunDesk {
public:
    virtual ~RunDesk() = default;
    virtual void say(News::Kind kind, std::string text) = 0;
    virtual void keep(verification::Span span) = 0; ///< a stretch of the trace that was seen; its preset is filled in
    virtual void keep(const verification::InstrumentCheck& check) = 0;
    virtual void progress() = 0; ///< something happened: nobody waits in vain
};

/// A step that does its own work, from the moment it is entered until it is left: it looks at what comes in, hears what
/// a person says, and adds to what a screen shows.
class StepWork {
public:
    explicit StepWork(RunDesk& desk) : desk_(desk) {}
    virtual ~StepWork() = default;
    StepWork(const StepWork&) = delete;
    StepWork& operator=(const StepWork&) = delete;

    /// A sample came in, and `watch` has it; true: the step is done.
    virtual bool take(const LiveSample& sample, PressureWatch& watch) = 0;
    virtual void confirm() {}
    /// In spite of what is wrong; true: the step is done.
    virtual bool go_on() { return false; }
    /// A number that was typed, and a step of its last digit; true: the step is done.
    virtual bool answer(double /*value*/, double /*last_digit*/) { return false; }
    /// It cannot go on by what the pressure does.
    [[nodiscard]] virtual bool waits_for_word() const { return false; }
    virtual void show(RunView& view) const = 0;

protected:
    RunDesk& desk() const { return desk_; }

private:
    RunDesk& desk_;
};

} // namespace zeroline::session
