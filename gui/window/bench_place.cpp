#include "gui/window/bench_place.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/session/result_view.hpp"
#include "gui/window/demonstration.hpp"
#include "gui/window/file_choice.hpp"
#include "gui/window/instrument_form.hpp"
#include "gui/window/order_form.hpp"
#include "gui/window/practice_page.hpp"
#include "gui/window/result_page.hpp"
#include "gui/window/run_page.hpp"
#include "gui/window/start_page.hpp"
#include "gui/window/stop_page.hpp"

#include <QDragEnterEvent>
#include <QMimeData>
#include <QUrl>

namespace zeroline::window {

using session::News;
using trace::InputError;

BenchPlace::BenchPlace(QWidget* parent)
    : QStackedWidget(parent), start_(new StartPage), result_(new ResultPage), stop_(new StopPage),
      practice_(new PracticePage)
{
    for (QWidget* page : std::initializer_list<QWidget*>{start_, result_, stop_, practice_}) {
        addWidget(page);
    }
    connect_pages();
    setAcceptDrops(true);
    connect(this, &QStackedWidget::currentChanged, this, [this] { Q_EMIT bannerChanged(banner()); });
}

BenchPlace::~BenchPlace() { delete run_; }

void BenchPlace::connect_pages()
{
    connect(start_, &StartPage::begins, this, &BenchPlace::begin);
    connect(start_, &StartPage::wantsRecord, this, &BenchPlace::look_at);
    connect(start_, &StartPage::wantsTrace, this, &BenchPlace::look_at_trace);
    connect(start_, &StartPage::wantsOrder, this, &BenchPlace::edit_order);
    connect(start_, &StartPage::wantsInstrument, this, &BenchPlace::edit_instrument);
    connect(result_, &ResultPage::wantsNextUnit, this, [this] {
        start_->begin_anew();
        to_start();
    });
    connect(result_, &ResultPage::wantsAgain, this, &BenchPlace::again);
    connect(practice_, &PracticePage::answered, this, &BenchPlace::tell_what_it_was);
    connect(stop_, &StopPage::understood, this, [this] {
        setCurrentWidget(run_);
        run_->setFocus();
    });
}

QStringList BenchPlace::banner() const
{
    const bool of_the_run = currentWidget() == run_ || currentWidget() == stop_ || currentWidget() == practice_;
    QStringList lines;
    if (of_the_run && session_ && session_->line().simulated) {
        const session::ResultWords words(session::Reader::screen);
        lines << words.say(session::kSimulated);
        if (session_->set_up().practice) {
            lines.prepend(words.say(session::kPractice));
        }
    }
    return lines;
}

void BenchPlace::dragEnterEvent(QDragEnterEvent* event)
{
    if (!running() && event->mimeData()->hasUrls() && event->mimeData()->urls().front().isLocalFile()) {
        event->acceptProposedAction();
    }
}

void BenchPlace::dropEvent(QDropEvent* event)
{
    event->acceptProposedAction();
    take_file(event->mimeData()->urls().front().toLocalFile());
}

/// What it is, is told by what it holds: a name may say anything.
void BenchPlace::take_file(const QString& path)
{
    if (running()) {
        return;
    }
    const std::filesystem::path file = path.toStdString();
    if (std::filesystem::is_directory(file)) {
        return look_at(path);
    }
    if (std::filesystem::exists(file.parent_path() / "record.json")) {
        return look_at(QString::fromStdString(file.parent_path().string()));
    }
    to_start();
    start_->take_file(path);
}

bool BenchPlace::stopped() const { return currentWidget() == stop_; }

bool BenchPlace::running() const { return session_ && session_->running(); }

void BenchPlace::take_asset(const QString& text)
{
    if (currentWidget() == start_) {
        start_->take_asset(text);
    } else if (currentWidget() == run_ && run_ != nullptr) {
        run_->take_asset(text);
    }
}

void BenchPlace::begin_with(const QString& asset)
{
    if (running()) {
        return;
    }
    if (currentWidget() == result_ && result_->waits_for_signature()) {
        return result_->go_on();
    }
    to_start();
    start_->begin_anew();
    start_->take_asset(asset);
}

void BenchPlace::use_register(RegisterReader* reader)
{
    start_->use_register(reader);
    result_->use_register(reader);
}

void BenchPlace::break_off()
{
    if (session_) {
        session_->break_off();
    }
}

void BenchPlace::begin()
{
    delete std::exchange(run_, nullptr);
    session_.reset();
    try {
        session_ = std::make_unique<session::BenchSession>(start_->set_up());
        session_->start();
    } catch (const InputError& error) {
        session_.reset();
        start_->show_trouble(QString::fromUtf8(error.what()));
        return;
    }
    start_->remember();
    connect_session();
    run_ = new RunPage(*session_);
    addWidget(run_);
    setCurrentWidget(run_);
    run_->setFocus();
}

void BenchPlace::connect_session()
{
    connect(session_.get(), &session::BenchSession::newsCame, this, [this](News::Kind kind) { take_news(kind); });
    connect(session_.get(), &session::BenchSession::stopped, this, &BenchPlace::show_stop);
    // Queued: the page that ends the run is left only after its own signal has been dealt with.
    connect(session_.get(), &session::BenchSession::ended, this, &BenchPlace::run_ended, Qt::QueuedConnection);
}

void BenchPlace::take_news(News::Kind kind)
{
    switch (kind) {
    case News::Kind::step:
        return sound_.play(session::SoftSound::Kind::step);
    case News::Kind::seen:
        return sound_.play(session::SoftSound::Kind::seen);
    case News::Kind::caution:
    case News::Kind::critical:
    case News::Kind::end:
        return sound_.play(session::SoftSound::Kind::attention);
    }
}

void BenchPlace::show_stop()
{
    const auto& result = session_->result();
    const auto contact = QString::fromStdString(session_->set_up().order.meaning.contact);
    const bool breathing = result && result->has_finding("breathing");
    const auto what = session_->what_to_hand_back();
    const auto seen = breathing ? tr("Take the hose off the person now. The pressure moves as it does where somebody "
                                     "breathes at the hose.")
                      : result  ? result->why
                                : QString();
    const auto then = what.held ? tr("Next: stop it, take the plug out, switch it off, label it 'out of use'.")
                                : tr("Next: see to the person, take plug and line off; then run again with nobody "
                                     "connected.");
    stop_->show_sentence(what.person ? tr("Stop. Is someone connected?") : tr("Stop. Keep this unit out of use."),
                         seen + u' ' + then, whom_to_call(what.held, contact),
                         what.held ? tr("Understood: make safe and hold back  [Space]")
                                   : tr("Understood: the person first, then make safe  [Space]"));
    setCurrentWidget(stop_);
    stop_->setFocus();
}

QString BenchPlace::whom_to_call(bool held, const QString& contact)
{
    if (!held) {
        return contact.isEmpty() ? QString() : tr("If help or another unit is needed: %1.").arg(contact);
    }
    return contact.isEmpty()
               ? tr("If a person depends on it, arrange a replacement now; do not leave them without one.")
               : tr("If a person depends on it, arrange a replacement now: %1.").arg(contact);
}

void BenchPlace::run_ended()
{
    if (!session_ || session_->history().empty()) {
        // Nothing came in: there is nothing to look at.
        const auto sentence = session_ ? session_->line().trouble : std::string{};
        break_off();
        to_start();
        start_->show_trouble(sentence.empty() ? tr("No reading came in: nothing was saved.")
                                              : QString::fromStdString(sentence));
        return;
    }
    try {
        auto result = session_->conclude();
        if (session_->set_up().practice) {
            return ask_what_it_was(std::move(result));
        }
        result_->show_result(std::move(result));
        setCurrentWidget(result_);
        result_->setFocus();
    } catch (const InputError& error) {
        const auto part = QString::fromStdString(session_->part().string());
        to_start();
        start_->show_trouble(tr("%1. What was captured is kept in %2.").arg(QString::fromUtf8(error.what()), part));
    }
}

void BenchPlace::ask_what_it_was(session::RunResult result)
{
    practised_.emplace(std::move(result));
    practice_->begin_anew();
    setCurrentWidget(practice_);
    practice_->setFocus();
}

void BenchPlace::tell_what_it_was(const QString& answer)
{
    const auto view = session::result_view(practised_->assessed.record_json, session::Reader::screen);
    const auto told =
        session::practice_told(*session_->set_up().practice, answer.toStdString(), view, session::Reader::screen);
    auto evidence = std::move(practised_->evidence);
    practised_.reset(); // it holds the folder, which goes with the bench
    result_->show_trace(std::move(evidence), told);
    setCurrentWidget(result_);
    result_->setFocus();
}

void BenchPlace::to_start()
{
    practised_.reset();
    // The folder of the run that is left is free for whoever opens it.
    delete std::exchange(run_, nullptr);
    session_.reset();
    start_->prepare(std::nullopt, std::nullopt, {});
    start_->look_again();
    setCurrentWidget(start_);
}

void BenchPlace::again(const QString& cause, const QString& evidence)
{
    const auto& result = result_->result();
    const int attempt = result ? result->assessed.assessment.attempt : 1;
    if (cause.isEmpty()) {
        start_->prepare(std::nullopt, session::AsFound{result_->shown_folder(), evidence.toStdString()},
                        tr("As-left run: attempt %1 stays as the as-found one.").arg(attempt));
    } else {
        verification::Replaces replaces;
        replaces.attempt = attempt;
        replaces.cause = cause.toStdString();
        replaces.evidence = evidence.toStdString();
        start_->prepare(replaces, std::nullopt, tr("This run stands in place of attempt %1.").arg(attempt));
    }
    setCurrentWidget(start_);
}

void BenchPlace::look_at(const QString& folder)
{
    try {
        result_->show_record(folder.toStdString());
        setCurrentWidget(result_);
        Q_EMIT bannerChanged(banner()); // also where a record was shown already
    } catch (const InputError& error) {
        start_->show_trouble(QString::fromUtf8(error.what()));
    }
}

void BenchPlace::look_at_trace(const QString& file)
{
    try {
        result_->show_trace(records::load_evidence(start_->files_for(file)));
        setCurrentWidget(result_);
        Q_EMIT bannerChanged(banner());
    } catch (const InputError& error) {
        start_->show_trouble(QString::fromUtf8(error.what()));
    }
}

void BenchPlace::edit_order(const QString& file)
{
    try {
        const bool anew = file.isEmpty();
        const bool built_in = anew || file == FileChoice::kDemonstration;
        auto* form = new OrderForm(anew ? empty_order() : start_->order().meaning, built_in ? QString() : file);
        connect(form, &OrderForm::cancelled, this, [this, form] { leave_form(form); });
        connect(form, &OrderForm::saved, this, [this, form](const QString& saved) {
            start_->choose_order(saved);
            leave_form(form);
        });
        setCurrentIndex(addWidget(form));
    } catch (const InputError& error) {
        start_->show_trouble(QString::fromUtf8(error.what()));
    }
}

void BenchPlace::edit_instrument(const QString& file)
{
    try {
        const bool anew = file.isEmpty();
        const bool built_in = anew || file == FileChoice::kDemonstration;
        auto* form = new InstrumentForm(anew ? empty_instrument() : start_->instrument().meaning,
                                        built_in ? QString() : file, [this] { return start_->port(); });
        connect(form, &InstrumentForm::cancelled, this, [this, form] { leave_form(form); });
        connect(form, &InstrumentForm::saved, this, [this, form](const QString& saved) {
            start_->choose_instrument(saved);
            leave_form(form);
        });
        setCurrentIndex(addWidget(form));
    } catch (const InputError& error) {
        start_->show_trouble(QString::fromUtf8(error.what()));
    }
}

void BenchPlace::leave_form(QWidget* form)
{
    setCurrentWidget(start_);
    removeWidget(form);
    form->deleteLater();
}

} // namespace zeroline::window
