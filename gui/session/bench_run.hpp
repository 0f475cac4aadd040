#pragma once

#include "analysis/verification/assessment.hpp"
#include "analysis/verification/bench_file.hpp"

#include "gui/session/duty_meter.hpp"
#include "gui/session/result_view.hpp"
#include "gui/session/step_work.hpp"
#include "gui/session/zero_reading.hpp"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::session {

/// How a run came to its end.
enum class Ending {
    completed,   ///< every step was done
    critical,    ///< a critical finding stopped it
    out_of_time, ///< a step waited too long
    line_gone,   ///< the instrument did not come back
    not_saved,   ///< what is captured can no longer be saved: the disk is full, or gone
    given_back,  ///< somebody needed the unit
    interrupted  ///< Ctrl-C, or the window was closed
};

/// For the journal: "completed", "critical", "out-of-time", "line-gone", "not-saved", "given-back", "interrupted".
[[nodiscard]] std::string word_of(Ending ending);

/// What the evidence so far comes to; called with the log as it stands.
using Judge = std::function<verification::Assessment(const verification::RunLog&)>;

struct RunSettings {
    double wait_s = 60.0; ///< longest wait for the pressure in a step
    /// A person is there: each minute of waiting is told with the key that gives the unit back, and `wait_s` holds for
    /// steps that wait for a word too.
    bool reminds = false;
    verification::Duty duty;
    double zero_offset_limit_cmH2O = 0.5, leak_limit_cmH2O_s = 1.0;
    std::optional<verification::SecondGauge> second_gauge; ///< of this bench
    /// Keeps a check of the instrument for later runs; none: it stands in this run alone.
    std::function<std::string(const verification::InstrumentCheck&)> keep_check; ///< says why it could not, or nothing
    std::function<std::string()> now; ///< RFC 3339 with offset: when an answer was given; none: none can be given
    verification::RunLog log;         ///< operator, place, began, origin, settings found, environment: kept as they are
};

/// The bench run: order, instrument, zero, block, manual, automatic, zero again, back. Steps are data (run_steps.hpp).
///
/// Moves on by samples and words alone: no clock is read but for the date of an answer, nothing is printed, nothing
/// waits. Time for limits comes in by advance(). One thread. The terminal and the window drive the same machine.
class BenchRun : private RunDesk {
public:
    BenchRun(const verification::WorkOrder& order, RunSettings settings, Judge judge);
    BenchRun(const verification::WorkOrder& order, RunSettings settings, Judge judge, std::vector<RunStep> steps);

    void push(std::span<const LiveSample> samples);
    void line_lost();
    void line_back();
    /// Monotonic time; the run's clock stands while the line is lost.
    void advance(double now_s);

    /// A person's word at a step that waits for it; ignored where it does not.
    void confirm();
    /// Go on although the zero is off, the unit no longer cycles, or nobody can say what is at the hose end.
    void go_on();
    /// What a step `check` asks for. A remark belongs to whatever is not in order; ignored elsewhere.
    void answer(verification::ChecklistItem::Outcome outcome, const std::string& remark);
    /// What a step `value` or `gauge` asks for, in its unit, and a step of its last digit; ignored elsewhere.
    void answer(double value, double last_digit = 0.0);
    /// A value that was typed for an item before, once more: a slip. Both stand in the remark. False: no such value.
    bool correct(const std::string& item, double value);
    /// Leaves the step out where that is possible; what was seen of it so far stays. The reason stands in the run log;
    /// without one nothing happens.
    void skip(const std::string& reason);
    /// Ends the run by way of the hand-back list.
    void stop(Ending why);
    /// Giving back was a slip and nothing has been touched: on with the step that it broke off, from its beginning.
    void take_back();
    /// Ends the run here and now; nothing is read back.
    void abandon(Ending why);

    void set_displayed(std::vector<verification::Displayed> displayed);
    /// The settings as found, before anything was changed. `as_prescribed`: stated so with one word for all of them,
    /// not copied out; the log says so.
    void set_found(std::map<std::string, verification::Settings> found, bool as_prescribed);
    void set_checklist(std::vector<verification::ChecklistItem> checklist);
    void set_environment(const verification::Environment& environment);
    /// The hand-back list is done; `done`: every item of it. A unit that is held is never logged as restored: its
    /// checklist says whether it was made safe.
    void set_returned(bool done, std::optional<std::map<std::string, verification::Settings>> settings_left,
                      bool left_as_prescribed = false);

    /// What the hand-back list has to ask for as things stand.
    [[nodiscard]] HandBack hand_back() const;
    [[nodiscard]] RunView view() const;
    [[nodiscard]] std::vector<News> take_news();
    [[nodiscard]] bool ended() const noexcept { return ended_; }
    /// Whether that step (by number) was done; one that was left out, broken off or never reached was not.
    [[nodiscard]] bool done(std::size_t number) const { return done_[number]; }
    [[nodiscard]] Ending ending() const noexcept { return ending_.value_or(Ending::completed); }
    /// On its way to the end by the hand-back list, before every step was done.
    [[nodiscard]] bool stopping() const noexcept { return ending_.has_value(); }
    /// The log as it stands: a span that is still open ends at the newest sample.
    [[nodiscard]] verification::RunLog log() const;
    /// The last provisional result; none before the first phase was seen.
    [[nodiscard]] const std::optional<verification::Assessment>& provisional() const noexcept { return provisional_; }
    /// The same as it is shown.
    [[nodiscard]] const std::optional<ResultView>& result() const noexcept { return result_; }
    /// How many provisional results there have been: tells a new one from the last one.
    [[nodiscard]] std::size_t assessments() const noexcept { return assessments_; }

private:
    [[nodiscard]] const RunStep& step() const { return steps_[at_]; }
    [[nodiscard]] std::string sentence() const;
    [[nodiscard]] bool opened_again() const;
    [[nodiscard]] const verification::Preset& preset() const;
    [[nodiscard]] double stall_s() const;
    [[nodiscard]] double last_pause_s() const;
    [[nodiscard]] bool waits_for_pressure() const;
    [[nodiscard]] std::optional<verification::SpanKind> can_be_skipped() const;
    [[nodiscard]] std::string asked_now() const;
    [[nodiscard]] std::optional<double> held_s() const;
    [[nodiscard]] Deed deed_now() const;
    [[nodiscard]] DutyClock duty_now() const;
    void add_what_is_due(RunView& view) const;
    [[nodiscard]] std::string automatic_sentence() const;

    void enter(std::size_t number);
    void next();
    void leave_undone() { enter(at_ + 1); }
    void progress() override
    {
        progress_at_s_ = now_s_;
        reminded_ = 0;
    }
    void say(News::Kind kind, std::string text) override { news_.push_back({kind, std::move(text), step().place}); }
    void keep(verification::Span span) override;
    void keep(const verification::InstrumentCheck& check) override;
    [[nodiscard]] std::unique_ptr<StepWork> work_of_step();
    [[nodiscard]] std::unique_ptr<StepWork> gauge_work();
    [[nodiscard]] std::string why_no_gauge() const;
    [[nodiscard]] verification::Span placed(verification::Span span) const;
    void open_span(verification::SpanKind what, double from_s);
    void close_span(double to_s);
    void confirmed(const std::string& code);
    void not_confirmed(const std::string& code);
    void note_answer(verification::ChecklistItem item);
    void note_done(const std::string& say);
    void decline_gauge(const std::string& reason);
    [[nodiscard]] bool answered(const RunStep& step) const;
    [[nodiscard]] const RunStep* value_step(const std::string& item) const;
    void remind();
    void tell_what_is_wrong_with_the_set_up();
    void end(Ending why);

    void take_sample(const LiveSample& sample);
    void zero_before(const LiveSample& sample);
    void look_at_unrest();
    void accept_zero(const QuietStretch& stretch);
    void zero_after(const LiveSample& sample);
    void plug();
    void manual();
    void look_at_hold(const Dwell& dwell);
    void judge_a_hold_at_rest();
    void look_while_nothing_is_held();
    void finish_manual();
    void automatic();
    void note_dwell(const Dwell& dwell);
    void count_cycles();
    void tell_cycles();
    void note_standstill();
    void begin_rest();
    void rest();
    void stand_still();
    void begin_setting();
    void wait_for_the_setting();
    [[nodiscard]] bool runs_at_something_else() const;
    void tell_what_it_runs_at();
    [[nodiscard]] bool runs_as_dialled() const;
    void open_ladder();
    void note_runs_at(const Dwell& dwell);
    void time_is_up();

    void judge();
    void take_result(verification::Assessment assessment);
    void stop_for_what_is_critical();
    void ask_about_hose_end();
    void answer_about_hose_end(bool nothing_soft);
    [[nodiscard]] bool counts_here(const verification::Cycle& cycle,
                                   const std::vector<verification::Span>& spans) const;
    [[nodiscard]] int cycles_needed() const;
    [[nodiscard]] int judged_cycles() const;
    [[nodiscard]] int cycles_seen() const;
    [[nodiscard]] int newest_cycle() const; ///< its number over the whole record

    const verification::WorkOrder& order_;
    RunSettings settings_;
    Judge judge_;
    std::vector<RunStep> steps_;
    std::vector<bool> done_; ///< as many as steps
    std::size_t at_ = 0;
    std::unique_ptr<StepWork> work_; ///< of the step, where it does its own
    verification::RunLog log_;
    std::vector<verification::ChecklistItem> answers_; ///< of steps: none is lost, whatever else is noted
    std::optional<verification::Span> open_;
    std::vector<News> news_;
    std::optional<verification::Assessment> provisional_;
    std::optional<ResultView> result_; ///< of provisional_
    std::size_t assessments_ = 0;
    bool ended_ = false;
    std::optional<Ending> ending_;

    double now_s_ = 0.0;
    bool clock_runs_ = false; ///< a time has come in
    double progress_at_s_ = 0.0;
    int reminded_ = 0;                          ///< minutes of waiting that were told
    bool mains_out_ = false;                    ///< the mains lead is out, or about to be
    std::optional<std::size_t> returns_to_;     ///< the step that giving back broke off
    std::set<std::string_view> told_of_set_up_; ///< codes of findings, and words of our own
    double most_cmH2O_ = 0.0;                   ///< block: the largest pressure since the step was entered
    double last_s_ = 0.0;                       ///< newest sample
    double step_from_s_ = 0.0;                  ///< newest sample when the step was entered
    bool lost_ = false;

    ZeroReading zero_;
    std::optional<QuietStretch> off_limit_; ///< a zero reading that waits for a decision
    double unrest_looked_at_s_ = 0.0;
    int breaths_seen_ = 0; ///< looks in a row that took the unrest for breathing
    PressureWatch watch_;
    std::vector<Dwell> seen_; ///< manual: holds of the span
    int manual_tries_ = 0;
    bool hold_to_judge_ = false; ///< a hold has ended; the pressure has not been at rest since
    double done_at_s_ = 0.0;     ///< automatic: enough cycles since then; 0: not yet
    DutyMeter duty_;
    bool looked_again_ = false;                ///< automatic: judged once more since the unit stands still
    std::optional<signal::PhaseKind> left_in_; ///< automatic: a hold of the step before, which was left out, goes on
    bool resting_ = false;
    bool stalled_ = false;
    int reported_cycles_ = 0;
    std::size_t first_span_ = 0; ///< of the step: cycles of an earlier run of the preset do not count for this one
    bool asks_hose_end_ = false, asked_hose_end_ = false; ///< waits for an answer now; has asked, once for a set-up
    bool told_unlike_ = false;

    /// What a unit that cycles is seen to run at, about: its last phases.
    struct RunsAt {
        std::optional<Dwell> insufflation, exsufflation;
        [[nodiscard]] bool whole() const { return insufflation && exsufflation; }
    };
    RunsAt runs_at_, ran_at_;                       ///< now; at the setting before
    std::optional<verification::Settings> ran_set_; ///< that setting; none: as prescribed
    int other_settings_seen_ = 0;                   ///< ladder: cycles at something else than was dialled in
};

} // namespace zeroline::session
