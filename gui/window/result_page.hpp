#pragma once

#include "gui/session/bench_session.hpp"
#include "gui/session/findings_model.hpp"
#include "gui/session/judgement_model.hpp"
#include "gui/window/printout.hpp"

#include <QWidget>

#include <filesystem>
#include <optional>

class QBoxLayout;
class QLabel;
class QPushButton;

namespace zeroline::charts {
class PictureView;
}

namespace zeroline::window {

class HomeLines;
class LadderPanel;
class NumbersTable;
class OnceMore;
class RegisterReader;
class ResultCharts;
class ResultHead;
class SigningBar;

/// What a run has come to: what was not tested, the verdict and why, the numbers, the cycles, the trace, the findings;
/// then signing and saving, printing, and what comes next.
class ResultPage : public QWidget {
    Q_OBJECT
public:
    explicit ResultPage(QWidget* parent = nullptr);

    /// A run that has just ended, to be signed and saved.
    void show_result(session::RunResult result);
    /// A record that was saved before: looked at and printed, never changed.
    void show_record(const std::filesystem::path& folder);
    /// A trace from elsewhere, judged with files chosen here: looked at, no record. `practised`: it is that of a
    /// practice, and what it was.
    void show_trace(records::LoadedEvidence evidence, const QStringList& practised = {});
    [[nodiscard]] const std::optional<session::RunResult>& result() const noexcept { return result_; }
    [[nodiscard]] bool saved() const noexcept { return saved_; }
    /// A record could be made of what is shown, and nobody has signed it.
    [[nodiscard]] bool waits_for_signature() const;
    [[nodiscard]] const std::filesystem::path& shown_folder() const noexcept { return shown_folder_; }

    /// Signs and makes the record; says what is missing, or where it was saved.
    void save();
    /// Leaves for the next unit; asks first where nobody has signed.
    void go_on();
    /// Where the visit before is looked for, and what was saved is registered; its bench seals a run that is opened to
    /// be signed.
    void use_register(RegisterReader* reader);
    /// What is chosen goes to a PDF file that is asked for.
    void save_pdf();
    /// The same to a printer, which the system's own dialog asks for.
    void print();
    /// The same to that file. False where it could not be; the reason is shown.
    bool print_to(const QString& file);

Q_SIGNALS:
    void wantsNextUnit();
    /// The same order once more: what was wrong with the set-up and what shows it; or, with an empty cause, an as-left
    /// run and what was done since.
    void wantsAgain(const QString& cause, const QString& said);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QWidget* make_verdict();
    QWidget* make_numbers();
    QWidget* make_top();
    QWidget* make_ladder();
    QWidget* make_findings();
    void connect_actions();
    void show_all();
    void show_verdict();
    void show_details(bool details);
    void show_state();
    [[nodiscard]] Printout printout() const;
    void say_missing(const std::vector<std::string>& missing);
    /// To the register, which may be far away: nobody waits for it.
    void deliver(const records::Unlock& unlock);

    RegisterReader* reader_ = nullptr;
    std::optional<session::RunResult> result_;
    session::ResultView view_; ///< of result_
    std::filesystem::path shown_folder_;
    bool saved_ = false;
    QStringList practised_; ///< what it was; empty: no practice
    session::JudgementModel numbers_;
    session::FindingsModel findings_;
    QLabel *seal_, *not_tested_, *banner_, *verdict_, *why_, *not_given_out_, *to_do_, *accuracy_, *no_room_, *sources_,
        *findings_head_;
    QBoxLayout* top_;
    QWidget* findings_card_;
    OnceMore* again_;
    ResultHead* head_;
    HomeLines* home_lines_;
    SigningBar* bar_;
    NumbersTable* table_;
    QPushButton* details_;
    LadderPanel* ladder_;
    ResultCharts* charts_;
    charts::PictureView* strips_;
};

} // namespace zeroline::window
