#pragma once

#include "gui/session/bench_session.hpp"
#include "gui/session/judgement_model.hpp"

#include <QWidget>

#include <optional>
#include <string>

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QSplitter;
class QStackedWidget;

namespace zeroline::charts {
class TraceChart;
}

namespace zeroline::window {

class ChecklistPanel;
class HandBackPanel;
class HeldDisplay;
class NumberCards;
class QuestionPanel;
class ScanQuestion;
class SettingsFields;
class SkipDialog;
class StepBar;
class WiringView;

/// A run in progress: trace, numbers, what to do and what it waits for. Space goes on where that is allowed, Escape
/// gives the unit back at every step; everything else is moved by the pressure.
class RunPage : public QWidget {
    Q_OBJECT
public:
    explicit RunPage(session::BenchSession& session, QWidget* parent = nullptr);

    /// A scanner's text, or what was typed into the field.
    void take_asset(const QString& text);
    [[nodiscard]] QLineEdit* asset_field() const noexcept { return asset_; }

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* make_header();
    QWidget* make_middle();
    QWidget* make_guide();
    QWidget* make_buttons();
    void connect_session();

    void show_now(); ///< where it is on the screen
    void show_all();
    [[nodiscard]] bool on_screen() const;
    void show_step();
    void show_numbers();
    void show_sentence(const session::RunView& view);
    void show_duty(const session::RunView& view);
    void show_line();
    void take_news(session::News::Kind kind, const QString& text);
    void go_on_by_space();
    void ask_why_skipped();
    void show_middle();
    void show_more();
    void share_middle();
    [[nodiscard]] QWidget* make_checklist();
    [[nodiscard]] QWidget* make_found();
    void note_looked_at();
    void show_question(const session::RunView& view);
    void ask_about_scan(const QString& code);
    void take_scan_answer(const verification::ChecklistItem& answer);
    void close_or_give_back();
    void say_as_prescribed();
    [[nodiscard]] bool asks_settings(const session::RunView& view) const;

    session::BenchSession& session_;
    session::JudgementModel numbers_;
    std::string shown_preset_;
    QLabel *header_, *scanned_, *sentence_, *waits_, *check_, *news_, *duty_, *line_, *numbers_of_;
    QLineEdit* asset_;
    StepBar* steps_;
    charts::TraceChart* chart_;
    NumberCards* cards_;
    WiringView* wiring_;
    QWidget* wiring_card_;
    QProgressBar* progress_;
    QPushButton *go_on_, *more_, *go_on_anyway_, *skip_, *checks_, *give_back_;
    QStackedWidget* middle_;
    QSplitter* splitter_;
    bool shared_by_hand_ = false;
    QWidget *checklist_page_, *found_page_;
    ScanQuestion* scan_question_;
    ChecklistPanel* checklist_;
    QuestionPanel* question_;
    SettingsFields* found_;
    HeldDisplay* held_;
    std::optional<verification::ChecklistItem> scan_answer_;
    SkipDialog* skip_dialog_;
    QWidget* guide_;
    HandBackPanel* hand_back_ = nullptr;
};

} // namespace zeroline::window
