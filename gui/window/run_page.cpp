#include "gui/window/run_page.hpp"

#include "gui/charts/trace_chart.hpp"
#include "gui/session/checklist.hpp"
#include "gui/window/checklist_panel.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/hand_back_panel.hpp"
#include "gui/window/held_display.hpp"
#include "gui/window/number_cards.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/question_panel.hpp"
#include "gui/window/run_text.hpp"
#include "gui/window/scan_question.hpp"
#include "gui/window/settings_fields.hpp"
#include "gui/window/skip_dialog.hpp"
#include "gui/window/space_key.hpp"
#include "gui/window/step_bar.hpp"
#include "gui/window/tone_delegate.hpp"
#include "gui/window/wiring_view.hpp"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <QWindow>

#include <algorithm>
#include <utility>

namespace zeroline::window {

using session::News;
using session::RunView;
using session::StepKind;

namespace {

constexpr double kSentence_pt = 24.0;
constexpr double kHeader_pt = 12.0;
constexpr int kAssetLetters = 24;
constexpr int kLinesForWiring = 34;      ///< height of the page with room for the drawing
constexpr double kLeastOfNumbers = 0.43; ///< of the width they share with the trace

} // namespace

RunPage::RunPage(session::BenchSession& session, QWidget* parent)
    : QWidget(parent), session_(session), numbers_(session::JudgementModel::bench_columns())
{
    named(this, "runPage", tr("run in progress"));
    setFocusPolicy(Qt::StrongFocus);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kPage_px, kAir_px, kPage_px, kGap_px);
    layout->setSpacing(kAir_px);
    layout->addWidget(make_header());
    steps_ = new StepBar;
    layout->addWidget(steps_);
    guide_ = make_guide();
    layout->addWidget(guide_);
    scan_question_ = new ScanQuestion;
    connect(scan_question_, &ScanQuestion::answered, this, &RunPage::take_scan_answer);
    layout->addWidget(scan_question_);
    layout->addWidget(make_middle(), 1);
    layout->addWidget(make_buttons());
    line_ = text_label("line", tr("instrument and line"));
    layout->addWidget(line_);
    connect_session();
    show_step();
}

void RunPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    share_middle();
    show_all();
}

QWidget* RunPage::make_header()
{
    header_ = large_label("header", tr("order, unit and prescription"), kHeader_pt, true);
    scanned_ = text_label("scanned", tr("what the scan says"));
    scanned_->hide();
    asset_ = named(new QLineEdit, "asset", tr("asset, scanned or typed"));
    asset_->setPlaceholderText(tr("scan the unit"));
    asset_->setMinimumHeight(kTarget_px);
    asset_->setProperty("field", true);
    asset_->setMaximumWidth(kAssetLetters * asset_->fontMetrics().averageCharWidth());
    connect(asset_, &QLineEdit::returnPressed, this, [this] { take_asset(asset_->text()); });
    auto* row = row_of({header_, scanned_, asset_});
    let_grow(row, 0);
    return row;
}

QWidget* RunPage::make_middle()
{
    chart_ = new charts::TraceChart;
    chart_->show_trace(&session_.history(), true);
    cards_ = new NumberCards("numbers", tr("prescribed, displayed, measured"), &numbers_);
    splitter_ = named(new QSplitter, "splitter", tr("trace and numbers"));
    splitter_->addWidget(card_of({chart_}));
    wiring_ = new WiringView;
    wiring_card_ = card_of({wiring_});
    held_ = new HeldDisplay(session_, [this] { go_on_by_space(); });
    numbers_of_ = text_label("numbersOf", tr("what the numbers are about"));
    auto* right = column_of({wiring_card_, held_, numbers_of_, cards_});
    right->layout()->setSpacing(kAir_px);
    // The numbers first; the drawing takes what they leave.
    static_cast<QVBoxLayout*>(right->layout())->setStretch(0, 1);
    static_cast<QVBoxLayout*>(right->layout())->setStretch(3, 100);
    splitter_->addWidget(right);
    splitter_->setChildrenCollapsible(false);
    connect(splitter_, &QSplitter::splitterMoved, this, [this] { shared_by_hand_ = true; });
    middle_ = new QStackedWidget;
    middle_->addWidget(splitter_);
    middle_->addWidget(checklist_page_ = make_checklist());
    middle_->addWidget(found_page_ = make_found());
    middle_->addWidget(question_ = new QuestionPanel(session_));
    return middle_;
}

/// The numbers get what they need to be read without scrolling, where that leaves the trace enough.
void RunPage::share_middle()
{
    if (shared_by_hand_) {
        return;
    }
    const int all = splitter_->width() - splitter_->handleWidth();
    const int wanted = std::max(static_cast<int>(kLeastOfNumbers * all), cards_->wanted_px());
    const int numbers = std::min(wanted, all - splitter_->widget(0)->minimumSizeHint().width());
    splitter_->setSizes({all - numbers, numbers});
}

void RunPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    // The numbers come before the drawing where both have no room.
    wiring_card_->setVisible(height() > kLinesForWiring * fontMetrics().height());
    share_middle();
}

QWidget* RunPage::make_checklist()
{
    const auto& set_up = session_.set_up();
    checklist_ = new ChecklistPanel(session::checklist_of(set_up.order.meaning.occasion, set_up.procedure),
                                    QStringLiteral("run"));
    checklist_->put(set_up.checklist, set_up.environment);
    connect(checklist_, &ChecklistPanel::edited, this, &RunPage::note_looked_at);
    return scrolled(card_of({checklist_}), "checklistScroll", tr("checklist"));
}

/// What was answered about a scan stands beside what was looked at.
void RunPage::note_looked_at()
{
    auto all = checklist_->checklist();
    if (scan_answer_) {
        session::note_item(all, *scan_answer_);
    }
    session_.note_checklist(std::move(all), checklist_->environment());
}

/// Asked at the one step at which nothing on the unit has been changed yet.
QWidget* RunPage::make_found()
{
    found_ = new SettingsFields(session_.set_up().order.meaning, QStringLiteral("found"));
    connect(found_, &SettingsFields::edited, this,
            [this] { session_.note_found(found_->settings(), found_->stated_as_prescribed()); });
    let_space_through(found_, [this] { go_on_by_space(); });
    auto* card = card_of({heading(tr("Settings as found, read from the unit's screen")), found_});
    auto* column = column_of({card});
    static_cast<QVBoxLayout*>(column->layout())->addStretch(1);
    return scrolled(column, "foundScroll", tr("settings as found"));
}

bool RunPage::asks_settings(const RunView& view) const
{
    // A simulated unit's screen is read by the program.
    return !session_.set_up().simulated && session_.steps()[view.number].confirms == "trigger-off";
}

void RunPage::show_middle()
{
    const auto view = session_.view();
    auto* work = hand_back_ != nullptr      ? static_cast<QWidget*>(hand_back_)
                 : session::asks(view.step) ? question_
                 : asks_settings(view)      ? found_page_
                                            : middle_->widget(0);
    middle_->setCurrentWidget(checks_->isChecked() ? checklist_page_ : work);
    scan_question_->setVisible(scan_question_->open());
    show_sentence(view);
    show_more();
}

void RunPage::show_more()
{
    more_->setVisible(hand_back_ != nullptr && middle_->currentWidget() == hand_back_ &&
                      !hand_back_->seen_to_the_end());
}

QWidget* RunPage::make_guide()
{
    sentence_ = large_label("sentence", tr("what to do"), kSentence_pt);
    waits_ = text_label("waits", tr("what the run waits for"));
    check_ = text_label("check", tr("what to check"));
    auto bold = check_->font();
    bold.setBold(true);
    check_->setFont(bold);
    news_ = text_label("news", tr("what was seen last"));
    duty_ = text_label("duty", tr("clock of blocked running"));
    duty_->setWordWrap(false);
    duty_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    progress_ = named(new QProgressBar, "progress", tr("progress of the step"));
    progress_->setRange(0, 100);
    progress_->setTextVisible(false);
    progress_->setFixedWidth(160);
    auto* row = row_of({progress_, waits_, duty_});
    let_grow(row, 1);
    auto* guide = column_of({sentence_, check_, row, news_});
    guide->layout()->setSpacing(kAir_px);
    guide->layout()->setContentsMargins(0, 0, 0, kAir_px);
    return guide;
}

QWidget* RunPage::make_buttons()
{
    go_on_ = primary(button("goOn", {}));
    more_ = primary(button("handBackMore", tr("\u25BE The list goes on below  [Space]")));
    more_->hide();
    connect(more_, &QPushButton::clicked, this, &RunPage::go_on_by_space);
    go_on_anyway_ = button("goOnAnyway", tr("Go on all the same  [G]"));
    give_back_ = button("giveBack", tr("Hand back now  [Esc]"));
    connect(go_on_, &QPushButton::clicked, this, [this] { session_.confirm(); });
    connect(go_on_anyway_, &QPushButton::clicked, this, [this] { session_.go_on(); });
    connect(give_back_, &QPushButton::clicked, this, [this] { session_.give_back(); });
    skip_ = button("skip", tr("Leave this step out...  [S]"));
    skip_dialog_ = new SkipDialog(this);
    connect(skip_, &QPushButton::clicked, this, &RunPage::ask_why_skipped);
    // Space and Escape mean the run again at once, also on a desktop that gives the focus back to nobody.
    connect(skip_dialog_, &QDialog::finished, this, [this] {
        window()->activateWindow();
        setFocus();
    });
    connect(skip_dialog_, &SkipDialog::skips, this,
            [this](const QString& reason) { session_.skip(reason.toStdString()); });
    checks_ = button("checks", tr("Checklist  [C]"));
    checks_->setCheckable(true);
    connect(checks_, &QPushButton::toggled, this, &RunPage::show_middle);
    auto* row = row_of({go_on_, more_, go_on_anyway_, skip_, checks_, give_back_});
    put_gap(row, 3);
    return row;
}

void RunPage::connect_session()
{
    connect(&session_, &session::BenchSession::changed, this, &RunPage::show_now);
    connect(&session_, &session::BenchSession::stepChanged, this, &RunPage::show_step);
    connect(&session_, &session::BenchSession::assessed, this, &RunPage::show_numbers);
    connect(&session_, &session::BenchSession::newsCame, this, &RunPage::take_news);
}

void RunPage::show_step()
{
    const auto view = session_.view();
    const auto preset = session_.preset();
    header_->setText(run_header(session_.set_up().order.meaning, preset));
    const auto places = run_places(session_);
    steps_->show_steps(places.places, places.now);
    if (preset != shown_preset_) {
        shown_preset_ = preset;
        numbers_.begin(session_.set_up().order.meaning, preset);
        share_middle();
    }
    show_numbers();
    if (view.step == StepKind::hand_back && hand_back_ == nullptr) {
        hand_back_ = new HandBackPanel(session_, [this] { show_more(); });
        let_space_through(hand_back_, [this] { go_on_by_space(); });
        middle_->addWidget(hand_back_);
        checks_->setChecked(false);
    } else if (view.step != StepKind::hand_back && hand_back_ != nullptr) {
        std::exchange(hand_back_, nullptr)->deleteLater(); // giving back was taken back
    }
    held_->show_step(view);
    show_middle();
    skip_dialog_->reject();
    give_back_->setVisible(view.step != StepKind::hand_back);
    // The focus stands where Space means "go on", never on a button that happens to be next.
    setFocus();
    show_question(view);
}

/// What a step asks for, and in the list beside the run what was answered to the steps before.
void RunPage::show_question(const RunView& view)
{
    checklist_->put_answers(session_.checklist());
    if (session::asks(view.step)) {
        question_->ask();
    }
}

void RunPage::show_numbers()
{
    // What runs after a preset, a ladder or the strength, is not what its numbers were measured at.
    const auto place = session_.view().place;
    numbers_of_->setVisible(place == "Ladder" || place == "Strength");
    numbers_of_->setText(tr("Preset %1 as prescribed: finished").arg(QString::fromStdString(session_.preset())));
    if (const auto& result = session_.result(); result && !result->rows.empty()) {
        // What was held by hand does not stand among what the unit did by itself.
        const auto by_hand = session_.view().step == StepKind::manual ? session_.provisional()->cycles
                                                                      : std::vector<verification::Cycle>{};
        numbers_.show_live(*result, by_hand, session_.preset(), session_.set_up().order.meaning.cycles);
    }
}

/// Nobody sees a page that is hidden, minimised or covered: nothing is drawn for it.
bool RunPage::on_screen() const
{
    const auto* handle = window()->windowHandle();
    return isVisible() && handle != nullptr && handle->isExposed();
}

void RunPage::show_now()
{
    if (on_screen()) {
        show_all();
    }
}

void RunPage::show_all()
{
    const auto view = session_.view();
    chart_->show_close_to_zero(view.step == StepKind::zero_before || view.step == StepKind::zero_after);
    chart_->show_marks(session_.marks(charts::TraceChart::kAhead_s));
    chart_->refresh();
    wiring_->show_wiring(wiring_of(view));
    show_sentence(view);
    show_duty(view);
    show_line();
}

void RunPage::show_sentence(const RunView& view)
{
    const auto set = [](QLabel* label, const QString& text) {
        if (label->text() != text) {
            label->setText(text);
        }
    };
    set(sentence_,
        view.line_lost ? tr("The instrument is gone. Put it back: the run then goes on.") : sentence_of(view));
    set(waits_, waits_text(view));
    set(check_, view.check.empty() ? QString() : tr("Check: %1").arg(QString::fromStdString(view.check)));
    const bool asks_unit = scan_question_->open(); // one thing is asked at a time; the clocks go on
    steps_->setVisible(!asks_unit);
    sentence_->setVisible(!asks_unit);
    news_->setVisible(!asks_unit);
    check_->setVisible(!view.check.empty() && !asks_unit);
    progress_->setVisible(view.progress.has_value());
    progress_->setValue(static_cast<int>(100.0 * view.progress.value_or(0.0)));
    const bool hand_back = view.step == StepKind::hand_back;
    go_on_->setVisible(view.can_confirm && !hand_back && !asks_unit);
    if (const auto text = go_on_text(view); go_on_->text() != text) {
        go_on_->setText(text);
        go_on_->setAccessibleName(text);
    }
    go_on_anyway_->setVisible(view.can_go_on && !asks_unit);
    skip_->setVisible(view.can_skip && !session::asks(view.step) && !asks_unit);
    waits_->setVisible(!hand_back);
}

void RunPage::show_duty(const RunView& view) { duty_->setText(duty_text(view, session_.set_up().duty().rest_s)); }

void RunPage::show_line()
{
    const auto text = status_line(session_);
    if (line_->text() != text) {
        line_->setText(text);
    }
}

void RunPage::take_news(News::Kind kind, const QString& text)
{
    if (kind != News::Kind::step) {
        news_->setText(text);
    }
}

} // namespace zeroline::window
