#pragma once

#include "gui/session/bench_session.hpp"
#include "gui/session/soft_sound.hpp"

#include <QStackedWidget>

#include <memory>

namespace zeroline::window {

class PracticePage;
class RegisterReader;
class ResultPage;
class RunPage;
class StartPage;
class StopPage;

/// The bench: begin, run, result, and begin again. One page at a time; nothing modal while data flows.
class BenchPlace : public QStackedWidget {
    Q_OBJECT
public:
    explicit BenchPlace(QWidget* parent = nullptr);
    ~BenchPlace() override;

    [[nodiscard]] bool running() const;
    [[nodiscard]] bool stopped() const; ///< something critical fills the window
    /// A scanner's text reaches the asset field of the page that is shown.
    void take_asset(const QString& text);
    /// A run with that unit is to begin: its order is looked for. Not while a run goes on; a run that nobody has signed
    /// is asked about first.
    void begin_with(const QString& asset);
    void use_register(RegisterReader* reader);
    void set_muted(bool muted) { sound_.set_muted(muted); }
    /// Ends a run that goes on and keeps what was captured.
    void break_off();

    /// What holds for every step of a run, a line each: that it is simulated. A result says it itself.
    [[nodiscard]] QStringList banner() const;
    /// A record folder, an order, an instrument or a trace was dropped on the window, or named in another way.
    void take_file(const QString& path);

    [[nodiscard]] StartPage& start_page() const noexcept { return *start_; }
    [[nodiscard]] ResultPage& result_page() const noexcept { return *result_; }
    [[nodiscard]] session::BenchSession* session() const noexcept { return session_.get(); }

Q_SIGNALS:
    void bannerChanged(const QStringList& lines);

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void connect_pages();
    void begin();
    void connect_session();
    void show_stop();
    [[nodiscard]] static QString whom_to_call(bool held, const QString& contact);
    void run_ended();
    void ask_what_it_was(session::RunResult result);
    void tell_what_it_was(const QString& answer);
    void to_start();
    void again(const QString& cause, const QString& evidence);
    void look_at(const QString& folder);
    void look_at_trace(const QString& file);
    void take_news(session::News::Kind kind);
    void edit_order(const QString& file);
    void edit_instrument(const QString& file);
    void leave_form(QWidget* form);

    session::SoftSound sound_;
    StartPage* start_;
    ResultPage* result_;
    StopPage* stop_;
    PracticePage* practice_;
    RunPage* run_ = nullptr;
    std::unique_ptr<session::BenchSession> session_;
    std::optional<session::RunResult> practised_; ///< waits for an answer
};

} // namespace zeroline::window
