#pragma once

#include "gui/records/attempts.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/session/awake.hpp"
#include "gui/session/bench_run.hpp"
#include "gui/session/new_record_folder.hpp"
#include "gui/session/practice.hpp"
#include "gui/session/run_marks.hpp"
#include "gui/session/simulated_bench.hpp"
#include "gui/session/trace_history.hpp"

#include <QObject>
#include <QString>

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

class QTimer;

namespace zeroline::session {

using records::AsFound;

/// What a run is made with, read and checked before anything is opened.
struct RunSetUp {
    records::Read<verification::WorkOrder> order;
    records::Read<trace::Instrument> instrument;
    std::filesystem::path instrument_file; ///< its checks are kept beside it; empty: it has none
    std::optional<records::Read<verification::Bench>> bench;
    std::optional<records::Read<verification::Procedure>> procedure; ///< none: the guided run
    std::string port;
    std::filesystem::path folder; ///< the record folder to make
    std::string run_operator, place;
    verification::Environment environment;
    std::optional<std::map<std::string, verification::Settings>> settings_found;
    std::vector<verification::ChecklistItem> checklist;
    int attempt = 1;
    std::vector<records::KeptAttempt> before; ///< attempts that this one is counted with
    std::optional<verification::Replaces> replaces;
    std::optional<AsFound> as_found;
    std::optional<std::filesystem::path> bench_file; ///< where the key is looked for
    /// The bench's key, unlocked: signs the journal while it captures. None: it is read from its file at the start.
    std::optional<records::SigningKey> key;
    double wait_s = 60.0;
    bool reminds = false;                      ///< RunSettings::reminds
    std::shared_ptr<SimulatedBench> simulated; ///< none: a real instrument, or a bench in another program
    std::optional<PracticeTask> practice;      ///< what `simulated` plays unseen; none: it is no practice

    [[nodiscard]] verification::HouseProfile house() const;
    [[nodiscard]] verification::Duty duty() const;
};

/// How the line is doing, for the line at the bottom of the screen.
struct LineStatus {
    serial::LineState state = serial::LineState::opening;
    std::optional<double> rate_hz, noise_cmH2O; ///< over the last two seconds
    serial::Counters counters;
    std::string trouble; ///< one sentence; empty while all is well
    bool simulated = false;
};

/// What a run has come to.
struct RunResult {
    std::optional<records::RecordFolder> folder; ///< none: a record that was saved before
    records::LoadedEvidence evidence;
    records::Assessed assessed;
    Ending ending = Ending::completed;
    std::optional<std::filesystem::path> bench_file; ///< where the key is looked for
    std::optional<records::SigningKey> key = {};     ///< open already; none: it is read from its file

    /// Seen to its end, or stopped because it had seen enough: a record can be made of it.
    [[nodiscard]] bool whole() const { return ending == Ending::completed || ending == Ending::critical; }
};

/// A bench run with everything around it: line, trace, machine, record folder. What `verify` does in the terminal, for
/// a window. Lives in one thread with an event loop; a timer pulls, the capture's own thread never waits.
class BenchSession : public QObject {
    Q_OBJECT
public:
    /// `now_s`: monotonic seconds; none: the steady clock.
    explicit BenchSession(RunSetUp set_up, QObject* parent = nullptr, std::function<double()> now_s = {});
    ~BenchSession() override;

    /// Makes the folder, opens port and trace file. Throws trace::InputError; nothing then stays behind.
    void start();
    /// Ends the capture and keeps what was captured. Idempotent; nothing is judged. An empty run leaves no folder.
    void break_off();

    [[nodiscard]] bool running() const noexcept { return run_.has_value() && !concluded_; }
    [[nodiscard]] const RunSetUp& set_up() const noexcept { return set_up_; }
    [[nodiscard]] RunView view() const { return run_->view(); }
    [[nodiscard]] const std::vector<RunStep>& steps() const noexcept { return steps_; }
    [[nodiscard]] const TraceHistory& history() const noexcept { return history_; }
    /// Whether that step (by number) was done, not left out or broken off.
    [[nodiscard]] bool done(std::size_t number) const { return run_->done(number); }
    /// Bands of phases that come next reach so far ahead of the newest sample.
    [[nodiscard]] RunMarks marks(double ahead_s) const;
    [[nodiscard]] const std::optional<verification::Assessment>& provisional() const { return run_->provisional(); }
    [[nodiscard]] const std::optional<ResultView>& result() const { return run_->result(); }
    /// The preset that the numbers are about at this moment.
    [[nodiscard]] std::string preset() const;
    [[nodiscard]] const LineStatus& line() const noexcept { return line_; }
    [[nodiscard]] std::filesystem::path part() const { return folder_->part(); }
    [[nodiscard]] double zero_cmH2O() const;
    void add_bands(RunMarks& marks, const verification::Assessment& result, const RunView& view, double ahead_s) const;
    /// Values typed so far, or what a simulated panel shows.
    [[nodiscard]] std::vector<verification::Displayed> displayed() const;

    void confirm();
    void go_on();
    /// What has been looked at so far, also in steps of the procedure.
    [[nodiscard]] std::vector<verification::ChecklistItem> checklist() const { return run_->log().checklist; }
    /// The answer to a step that asks for one (BenchRun::answer()).
    void answer(verification::ChecklistItem::Outcome outcome, const std::string& remark);
    void answer(double value, double last_digit = 0.0);
    void skip(const std::string& reason);
    void give_back();
    void take_back(); ///< BenchRun::take_back()
    /// The settings as found (BenchRun::set_found()); the run log has them at once.
    void note_found(std::map<std::string, verification::Settings> found, bool as_prescribed);
    /// What the unit displayed in the holds, as far as it was read.
    void note_displayed(std::vector<verification::Displayed> displayed);
    /// What was looked at and the air in the room, as far as they are known; the run log has them at once.
    void note_checklist(std::vector<verification::ChecklistItem> checklist, const verification::Environment& air);
    [[nodiscard]] Ending ending() const { return run_->ending(); }
    /// What the hand-back list has to ask for (BenchRun::hand_back()).
    [[nodiscard]] HandBack what_to_hand_back() const { return run_->hand_back(); }
    /// The hand-back list is done; ends the run. `done`: every item of it.
    void hand_back(bool done, std::vector<verification::Displayed> displayed,
                   std::optional<std::map<std::string, verification::Settings>> settings_left,
                   bool left_as_prescribed = false);
    /// What a scanner read while the run goes on.
    void note_scanned(const std::string& asset);
    [[nodiscard]] const std::string& scanned() const noexcept { return scanned_; }

    /// After ended(): closes the trace, loads it with its final clock and judges it. Throws trace::InputError.
    [[nodiscard]] RunResult conclude();

public Q_SLOTS:
    void tick(); ///< the timer's; a test may call it

Q_SIGNALS:
    void changed();     ///< something on the screen may look otherwise
    void stepChanged(); ///< another step, and another sentence
    void assessed();    ///< the provisional result is a new one
    void newsCame(zeroline::session::News::Kind kind, const QString& text);
    void stopped(); ///< something critical was seen: the run goes to the hand-back list
    void ended();

private:
    void begin_run();
    bool pump(); ///< something came in
    void steer();
    void tell();
    void say_that_it_changed();
    void measure_line();
    void write_log();
    void end_log();
    [[nodiscard]] verification::Origin origin() const;
    void stop_line();
    [[nodiscard]] RunSettings run_settings() const;

    RunSetUp set_up_;
    std::function<double()> now_s_;
    std::optional<records::RecordFolder> folder_;
    std::unique_ptr<records::CaptureJournal> journal_; ///< outlives the feed
    std::unique_ptr<LiveFeed> feed_;
    std::optional<Awake> awake_; ///< while data flows
    std::vector<RunStep> steps_;
    std::optional<BenchRun> run_;
    verification::HouseProfile house_;
    TraceHistory history_;
    LineStatus line_;
    double line_measured_at_s_ = -1.0, told_at_s_ = -1.0;
    std::size_t assessments_ = 0;
    std::size_t step_ = static_cast<std::size_t>(-1);
    std::string scanned_, wrote_failed_;
    std::optional<std::vector<verification::Displayed>> displayed_; ///< as typed
    bool told_stop_ = false, told_end_ = false, concluded_ = false;
    QTimer* timer_;
};

/// No instrument can be there: it is a pseudo-terminal.
[[nodiscard]] bool is_simulated(const std::string& port);

/// Now, local time with its offset.
[[nodiscard]] std::string local_rfc3339();

/// The attempts that a run to be kept at `folder` is counted with (records::attempts_before()).
[[nodiscard]] std::vector<records::KeptAttempt> attempts_before(const std::filesystem::path& folder,
                                                                const verification::WorkOrder& order, bool simulated,
                                                                const std::optional<AsFound>& as_found,
                                                                const records::KeyList* known);
/// Finds the attempts before a run that is set up, by the keys that its bench knows, and gives it its number.
void count_attempts(RunSetUp& made);
/// One more than the last of them.
[[nodiscard]] int next_attempt(const std::vector<records::KeptAttempt>& before);

} // namespace zeroline::session
