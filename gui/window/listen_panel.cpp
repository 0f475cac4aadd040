#include "gui/window/listen_panel.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/charts/trace_chart.hpp"
#include "gui/session/ports_model.hpp"
#include "gui/session/shown_number.hpp"
#include "gui/window/page_parts.hpp"

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

namespace zeroline::window {

using session::shown;
using session::shown_signed;

namespace {

constexpr int kFrame_ms = 35;
constexpr double kOver_s = 2.0;

} // namespace

ListenPanel::ListenPanel(std::function<trace::Instrument()> instrument, std::function<std::string()> port,
                         QWidget* parent)
    : QWidget(parent), instrument_(std::move(instrument)), port_(std::move(port))
{
    chart_ = new charts::TraceChart;
    chart_->setObjectName(QStringLiteral("listenTrace"));
    chart_->hide(); // the description has its room until something comes
    says_ = text_label("listenSays", tr("what comes from the instrument"));
    fits_ = named(new QListWidget, "fits", tr("settings that fit"));
    fits_->setMaximumHeight(120);
    fits_->hide();
    listen_ = button("listen", tr("Listen"));
    find_ = button("find", tr("Find settings"));
    take_ = button("takeFit", tr("Take these settings"));
    take_->hide();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(heading(tr("Listen")));
    layout->addWidget(chart_, 1);
    layout->addWidget(says_);
    layout->addWidget(fits_);
    layout->addWidget(row_of({listen_, find_, take_}));
    layout->addStretch(0);
    connect(listen_, &QPushButton::clicked, this, &ListenPanel::toggle_listening);
    connect(find_, &QPushButton::clicked, this, &ListenPanel::toggle_search);
    connect(take_, &QPushButton::clicked, this, [this] {
        const auto row = static_cast<std::size_t>(std::max(0, fits_->currentRow()));
        const auto& fits = search_.result().fits;
        if (row < fits.size()) {
            Q_EMIT found(fits[row].port, fits[row].language);
        }
    });
    connect(&timer_, &QTimer::timeout, this, &ListenPanel::pull);
    timer_.setInterval(kFrame_ms);
    connect(&search_, &session::SettingsSearch::tries, says_, &QLabel::setText);
    connect(&search_, &session::SettingsSearch::finished, this, &ListenPanel::show_fits);
}

ListenPanel::~ListenPanel() { stop(); }

void ListenPanel::stop()
{
    timer_.stop();
    search_.stop();
    if (feed_) {
        feed_->stop();
        feed_.reset();
    }
    show_buttons();
}

void ListenPanel::show_buttons()
{
    listen_->setText(feed_ ? tr("Stop listening") : tr("Listen"));
    find_->setText(search_.running() ? tr("Stop searching") : tr("Find settings"));
    for (auto* one : {listen_, find_}) {
        one->setAccessibleName(one->text());
    }
    const bool fits = !search_.running() && !search_.result().fits.empty();
    fits_->setVisible(fits);
    take_->setVisible(fits);
}

void ListenPanel::toggle_listening()
{
    const bool was = feed_ != nullptr;
    stop();
    if (was) {
        return;
    }
    try {
        start_listening();
    } catch (const trace::InputError& error) {
        feed_.reset();
        says_->setText(QString::fromUtf8(error.what()));
    }
    show_buttons();
}

void ListenPanel::start_listening()
{
    const auto port = port_();
    if (port == session::PortsModel::kVirtualBench) {
        says_->setText(tr("The virtual bench speaks as the instrument file says: there is nothing to find out."));
        return;
    }
    serial::CaptureSettings settings;
    settings.instrument = instrument_();
    settings.port = port;
    history_ = session::TraceHistory(settings.instrument.nominal_hz);
    feed_ = std::make_unique<session::LiveFeed>(std::move(settings));
    feed_->start();
    chart_->show_trace(&history_, true);
    chart_->show();
    timer_.start();
}

void ListenPanel::pull()
{
    const auto batch = feed_->pull();
    history_.append(batch.samples);
    chart_->refresh();
    says_->setText(line_text());
    const auto state = feed_->state();
    if (state == serial::LineState::failed || state == serial::LineState::ended) {
        stop();
    }
}

QString ListenPanel::line_text() const
{
    const auto trouble = QString::fromStdString(feed_->sentence());
    const auto counters = feed_->counters();
    const auto samples = history_.between(history_.last_s() - kOver_s, history_.last_s());
    if (counters.readings == 0) {
        if (!trouble.isEmpty()) {
            return trouble;
        }
        return counters.bytes == 0
                   ? tr("No byte has come yet: is the cable in, is the instrument on, does it need a start text, DTR "
                        "or "
                        "RTS?")
                   : tr("%1 bytes have come, but none of them reads as a pressure: are baud, parity, field, separator "
                        "and unit right?")
                         .arg(counters.bytes);
    }
    const double rate = samples.size() > 1
                            ? static_cast<double>(samples.size() - 1) / (samples.back().time_s - samples.front().time_s)
                            : 0.0;
    const auto text = tr("%1 cmH2O, %2 Hz, lost %3, unreadable bytes %4")
                          .arg(shown_signed(samples.empty() ? 0.0 : samples.back().pressure_cmH2O, 2), shown(rate, 1))
                          .arg(counters.lost_readings)
                          .arg(counters.discarded_bytes);
    return trouble.isEmpty() ? text : trouble + u'\n' + text;
}

void ListenPanel::toggle_search()
{
    const bool was = search_.running();
    stop();
    if (was) {
        return;
    }
    const auto port = port_();
    if (port == session::PortsModel::kVirtualBench) {
        says_->setText(tr("The virtual bench speaks as the instrument file says: there is nothing to find out."));
        return;
    }
    trace::PortSettings first;
    try {
        first = instrument_().port;
    } catch (const trace::InputError&) {
        first = {}; // the file is not finished yet: the usual settings are tried
    }
    search_.start(port, first);
    show_buttons();
}

void ListenPanel::show_fits()
{
    fits_->clear();
    for (const auto& fit : search_.result().fits) {
        fits_->addItem(tr("%1 baud: %2").arg(fit.port.baud).arg(QString::fromStdString(fit.example).simplified()));
    }
    fits_->setCurrentRow(0);
    says_->setText(QString::fromStdString(search_.result().sentence));
    show_buttons();
}

} // namespace zeroline::window
