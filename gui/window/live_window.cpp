#include "gui/window/live_window.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/session/live_feed.hpp"
#include "gui/window/live_chart.hpp"

#include <QCloseEvent>
#include <QComboBox>
#include <QFileDialog>
#include <QFontDatabase>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QPushButton>
#include <QSettings>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

namespace {

constexpr double kShown_s = 20.0;
constexpr double kRateOver_s = 2.0;
constexpr int kFrame_ms = 33;
constexpr int kTarget_px = 40; // a finger in a glove has to hit it
constexpr double kLargeFont = 2.0;
const auto kPortKey = QStringLiteral("live/port");
const auto kInstrumentKey = QStringLiteral("live/instrument");

template <typename Widget> Widget* named(Widget* widget, const char* name, const QString& spoken)
{
    widget->setObjectName(QLatin1String(name));
    widget->setAccessibleName(spoken);
    return widget;
}

QPushButton* button(const char* name, const QString& text)
{
    auto* made = named(new QPushButton(text), name, QString(text).remove(u'&'));
    made->setMinimumHeight(kTarget_px);
    return made;
}

QLabel* label(const char* name, const QString& spoken)
{
    auto* made = named(new QLabel, name, spoken);
    made->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return made;
}

QWidget* row_of(std::initializer_list<QWidget*> widgets)
{
    auto* row = new QWidget;
    auto* layout = new QHBoxLayout(row);
    layout->setContentsMargins({});
    for (auto* widget : widgets)
        layout->addWidget(widget);
    return row;
}

/// A form's own labels stand at the top of a tall row; these stand in its middle.
QLabel* row_label(const QString& text, QWidget* buddy)
{
    auto* made = new QLabel(text);
    made->setMinimumHeight(kTarget_px);
    made->setBuddy(buddy);
    return made;
}

QString text_of(serial::LineState state)
{
    switch (state) {
    case serial::LineState::opening:
        return LiveWindow::tr("opening the port");
    case serial::LineState::running:
        return LiveWindow::tr("running");
    case serial::LineState::silent:
        return LiveWindow::tr("no reading comes");
    case serial::LineState::lost:
        return LiveWindow::tr("the instrument is gone; waiting for it");
    case serial::LineState::ended:
        return LiveWindow::tr("ended");
    case serial::LineState::failed:
        return LiveWindow::tr("failed");
    }
    return {};
}

/// Mean rate over the samples; 0 where two are not yet there.
double rate_hz(std::span<const session::LiveSample> samples)
{
    if (samples.size() < 2)
        return 0.0;
    return static_cast<double>(samples.size() - 1) / (samples.back().time_s - samples.front().time_s);
}

} // namespace

LiveWindow::LiveWindow(QWidget* parent) : QWidget(parent), tail_(kShown_s), timer_(new QTimer(this))
{
    setWindowTitle(tr("Zeroline"));
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(make_choices());
    chart_ = named(new LiveChart, "chart", tr("live trace"));
    layout->addWidget(chart_, 1);
    layout->addWidget(make_figures());
    sentence_ = label("sentence", tr("what to do"));
    sentence_->setWordWrap(true);
    layout->addWidget(sentence_);
    connect_actions();
    list_ports();
    recall_choices();
    show_running(false);
    sentence_->setText(tr("Choose the port and the instrument file, then start. Nobody is connected to the unit."));
    resize(1024, 700);
}

LiveWindow::~LiveWindow() = default;

QWidget* LiveWindow::make_choices()
{
    ports_ = named(new QComboBox, "ports", tr("port"));
    ports_->setEditable(true);
    ports_->setInsertPolicy(QComboBox::NoInsert);
    ports_->setMinimumHeight(kTarget_px);
    ports_->lineEdit()->setPlaceholderText(tr("device path, e.g. /dev/ttyUSB0"));
    refresh_ = button("refresh", tr("&Look again"));
    auto* choices = new QWidget;
    auto* form = new QFormLayout(choices);
    form->setContentsMargins({});
    auto* port_row = row_of({ports_, refresh_});
    static_cast<QHBoxLayout*>(port_row->layout())->setStretch(0, 1);
    form->addRow(row_label(tr("&Port"), ports_), port_row);
    auto* instrument_row = make_instrument_row();
    form->addRow(row_label(tr("&Instrument"), instrument_), instrument_row);
    form->addRow(make_buttons());
    return choices;
}

QWidget* LiveWindow::make_instrument_row()
{
    instrument_ = named(new QLineEdit, "instrument", tr("instrument file"));
    instrument_->setMinimumHeight(kTarget_px);
    instrument_->setPlaceholderText(tr("the file that describes the transducer"));
    browse_ = button("browse", tr("&Choose..."));
    return row_of({instrument_, browse_});
}

QWidget* LiveWindow::make_buttons()
{
    start_ = button("start", tr("&Start"));
    stop_ = button("stop", tr("S&top"));
    return row_of({start_, stop_});
}

QWidget* LiveWindow::make_figures()
{
    now_ = label("now", tr("pressure now"));
    auto font = QFontDatabase::systemFont(QFontDatabase::FixedFont);
    font.setPointSizeF(font.pointSizeF() * kLargeFont);
    now_->setFont(font);
    range_ = label("range", tr("lowest and highest"));
    line_ = label("line", tr("state of the line"));
    line_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    auto* figures = row_of({now_, range_, line_});
    static_cast<QHBoxLayout*>(figures->layout())->setStretch(2, 1);
    static_cast<QHBoxLayout*>(figures->layout())->setSpacing(24);
    return figures;
}

void LiveWindow::connect_actions()
{
    connect(refresh_, &QPushButton::clicked, this, &LiveWindow::list_ports);
    connect(browse_, &QPushButton::clicked, this, &LiveWindow::choose_instrument);
    connect(start_, &QPushButton::clicked, this, &LiveWindow::start);
    connect(stop_, &QPushButton::clicked, this, &LiveWindow::stop);
    connect(timer_, &QTimer::timeout, this, &LiveWindow::pull);
    timer_->setInterval(kFrame_ms);
}

void LiveWindow::list_ports()
{
    const auto typed = ports_->currentText();
    ports_->clear();
    for (const auto& port : session::offered_ports()) {
        const auto path = QString::fromStdString(port.path);
        const auto what = QString::fromStdString(port.description);
        ports_->addItem(what.isEmpty() ? path : tr("%1 - %2").arg(path, what), path);
    }
    if (!typed.isEmpty())
        ports_->setEditText(typed);
}

QString LiveWindow::chosen_port() const
{
    const auto text = ports_->currentText().trimmed();
    const int listed = ports_->findText(text);
    return listed >= 0 ? ports_->itemData(listed).toString() : text;
}

void LiveWindow::choose_instrument()
{
    const auto file = QFileDialog::getOpenFileName(this, tr("Instrument file"), instrument_->text(),
                                                   tr("Instrument files (*.json);;All files (*)"));
    if (!file.isEmpty())
        instrument_->setText(file);
}

void LiveWindow::start()
{
    stop();
    try {
        serial::CaptureSettings settings;
        settings.instrument = records::load_instrument(instrument_->text().trimmed().toStdString()).meaning;
        settings.port = chosen_port().toStdString();
        auto feed = std::make_unique<session::LiveFeed>(std::move(settings));
        feed->start();
        feed_ = std::move(feed);
    } catch (const trace::InputError& error) {
        sentence_->setText(QString::fromUtf8(error.what()));
        return;
    }
    tail_.clear();
    chart_->reset_edges();
    sentence_->clear();
    keep_choices();
    show_running(true);
    timer_->start();
}

void LiveWindow::stop()
{
    timer_->stop();
    if (feed_ == nullptr)
        return;
    feed_->stop();
    pull();
    feed_.reset();
    show_running(false);
}

void LiveWindow::pull()
{
    const auto batch = feed_->pull();
    tail_.append(batch.samples);
    if (!batch.samples.empty()) {
        chart_->show_samples(tail_.all(), kShown_s);
        show_figures();
    }
    show_line();
    sentence_->setText(QString::fromStdString(feed_->sentence()));
    const auto state = feed_->state();
    if (timer_->isActive() && (state == serial::LineState::failed || state == serial::LineState::ended))
        stop();
}

QString LiveWindow::pressure_text(double pressure_cmH2O) const
{
    const auto digits = locale().toString(pressure_cmH2O, 'f', 1);
    return pressure_cmH2O > 0 ? u'+' + digits : digits;
}

void LiveWindow::show_figures()
{
    const auto samples = tail_.all();
    const auto [lowest, highest] =
        std::minmax_element(samples.begin(), samples.end(),
                            [](const auto& a, const auto& b) { return a.pressure_cmH2O < b.pressure_cmH2O; });
    now_->setText(tr("%1 cmH2O").arg(pressure_text(samples.back().pressure_cmH2O), 6));
    range_->setText(tr("last %1 s: %2 to %3")
                        .arg(static_cast<int>(kShown_s))
                        .arg(pressure_text(lowest->pressure_cmH2O), pressure_text(highest->pressure_cmH2O)));
}

void LiveWindow::show_line()
{
    const auto counters = feed_->counters();
    auto text = tr("%1 - %2 Hz - lost %3 - unreadable bytes %4")
                    .arg(text_of(feed_->state()), locale().toString(rate_hz(tail_.last(kRateOver_s)), 'f', 1))
                    .arg(counters.lost_readings)
                    .arg(counters.discarded_bytes);
    line_->setText(feed_->simulated() ? tr("SIMULATED - %1").arg(text) : text);
}

void LiveWindow::show_running(bool running)
{
    for (QWidget* choice :
         {static_cast<QWidget*>(ports_), static_cast<QWidget*>(instrument_), static_cast<QWidget*>(browse_),
          static_cast<QWidget*>(refresh_), static_cast<QWidget*>(start_)})
        choice->setEnabled(!running);
    stop_->setEnabled(running);
    (running ? stop_ : start_)->setFocus();
}

void LiveWindow::recall_choices()
{
    const QSettings settings;
    instrument_->setText(settings.value(kInstrumentKey).toString());
    if (const auto port = settings.value(kPortKey).toString(); !port.isEmpty())
        ports_->setEditText(port);
}

void LiveWindow::keep_choices() const
{
    QSettings settings;
    settings.setValue(kPortKey, ports_->currentText());
    settings.setValue(kInstrumentKey, instrument_->text());
}

void LiveWindow::closeEvent(QCloseEvent* event)
{
    stop();
    event->accept();
}

} // namespace zeroline::window
