#include "gui/window/main_window.hpp"

#include "gui/records/bench_file.hpp"
#include "gui/register/delivery.hpp"
#include "gui/window/bench_place.hpp"
#include "gui/window/help_dialog.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/plain_text.hpp"
#include "gui/window/register_place.hpp"
#include "gui/window/register_reader.hpp"
#include "gui/window/result_page.hpp"
#include "gui/window/scanner_filter.hpp"
#include "gui/window/start_page.hpp"
#include "gui/window/theme.hpp"
#include "gui/window/tone_colours.hpp"
#include "gui/window/wheel_guard.hpp"

#include <QApplication>
#include <QCloseEvent>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QShortcut>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

namespace {

const auto kMutedKey = QStringLiteral("sounds/muted");
const auto kSchemeKey = QStringLiteral("window/scheme");
const auto kGeometryKey = QStringLiteral("window/geometry");

} // namespace

MainWindow::MainWindow(const WindowOptions& options, QWidget* parent)
    : QMainWindow(parent), desktop_(QGuiApplication::palette())
{
    show_only_plain_text(*qApp);
    schemes_ = make_schemes();
    dress_up();
    reader_ = std::make_unique<RegisterReader>();
    const unit_register::Bench bench{options.bench_file.empty()
                                         ? records::usual_bench_file()
                                         : std::optional<std::filesystem::path>(options.bench_file),
                                     unit_register::given_register(options.place)};
    reader_->use(bench);
    // What was saved while the register could not be reached; what it still does not take is told at the next save.
    reader_->deliver({}, {}, [](const auto&) {});
    bench_ = new BenchPlace;
    bench_->start_page().use_bench_file(options.bench_file);
    bench_->use_register(reader_.get());
    setWindowTitle(tr("Zeroline"));
    auto* column = column_of({closing_ = make_closing(), make_top(), make_places()});
    column->layout()->setSpacing(0);
    static_cast<QVBoxLayout*>(column->layout())->setStretch(2, 1); // the lines above take no more than they need
    setCentralWidget(column);
    set_up_scanner();
    resize(1024, 700);
    recall();
}

MainWindow::~MainWindow()
{
    bench_->disconnect(this); // its pages go, and each of them is told about
}

/// A line above every page: what holds for all of it, and what belongs to the window and not to the work.
QWidget* MainWindow::make_top()
{
    help_ = quiet(button("help", tr("Help")));
    help_->setToolTip(QStringLiteral("F1"));
    help_->setShortcut(QKeySequence(Qt::Key_F1));
    mute_ = quiet(button("mute", tr("Mute sounds")));
    mute_->setCheckable(true);
    connect(help_, &QPushButton::clicked, this, &MainWindow::show_help);
    connect(mute_, &QPushButton::toggled, this, [this](bool muted) {
        bench_->set_muted(muted);
        QSettings().setValue(kMutedKey, muted);
    });
    const auto place = [](const char* name, const QString& text, Qt::Key digit) {
        auto* made = quiet(button(name, text));
        made->setCheckable(true);
        made->setShortcut(QKeySequence(Qt::CTRL | digit));
        return made;
    };
    to_bench_ = place("toBench", tr("Bench  [Ctrl+1]"), Qt::Key_1);
    to_register_ = place("toRegister", tr("Register  [Ctrl+2]"), Qt::Key_2);
    to_bench_->setChecked(true);
    auto* top = row_of({to_bench_, to_register_, make_banner(), mute_, schemes_, help_});
    top->layout()->setContentsMargins(kPage_px, kAir_px, kPage_px, 0);
    put_gap(top, 3);
    constexpr int most = 100; // the gap takes one share
    let_grow(top, 2, most);
    return top;
}

QWidget* MainWindow::make_places()
{
    register_ = new RegisterPlace(*reader_);
    places_ = new QStackedWidget;
    places_->addWidget(bench_);
    places_->addWidget(register_);
    connect(to_bench_, &QPushButton::clicked, this, [this] { go_to(bench_); });
    connect(to_register_, &QPushButton::clicked, this, [this] { go_to(register_); });
    connect(bench_, &QStackedWidget::currentChanged, this, &MainWindow::show_what_goes_with_the_page);
    connect(register_, &RegisterPlace::begins, this, [this](const QString& asset) {
        go_to(bench_);
        bench_->begin_with(asset);
    });
    connect(register_, &RegisterPlace::wantsRecord, this, [this](const QString& folder) {
        go_to(bench_);
        bench_->take_file(folder);
    });
    return places_;
}

void MainWindow::go_to(QWidget* place)
{
    register_->look_for_runs_in(bench_->start_page().records_folder());
    places_->setCurrentWidget(place);
    show_what_goes_with_the_page();
}

/// What stops a run has the window to itself, and a run needs the room.
void MainWindow::show_what_goes_with_the_page()
{
    const bool at_bench = places_->currentWidget() == bench_;
    to_bench_->setChecked(at_bench);
    to_register_->setChecked(!at_bench);
    to_bench_->setVisible(!bench_->running());
    to_register_->setVisible(!bench_->running());
    mute_->setVisible(!bench_->stopped());
    help_->setVisible(!bench_->stopped());
    schemes_->setVisible(!bench_->running());
    show_banner();
}

void MainWindow::show_banner()
{
    const auto lines = places_->currentWidget() == bench_ ? bench_->banner() : QStringList();
    banner_->setText(lines.join(u'\n'));
    banner_->setVisible(!lines.isEmpty());
}

QComboBox* MainWindow::make_schemes()
{
    auto* schemes = named(new QComboBox, "schemes", tr("colours of the window"));
    schemes->setMinimumHeight(kTarget_px);
    schemes->addItem(tr("Colours: desktop"), QString());
    schemes->addItem(tr("Light"), QStringLiteral("light"));
    schemes->addItem(tr("Dark"), QStringLiteral("dark"));
    schemes->addItem(tr("High contrast"), QStringLiteral("contrast"));
    schemes->setCurrentIndex(std::max(0, schemes->findData(QSettings().value(kSchemeKey).toString())));
    connect(schemes, &QComboBox::activated, this, [this] {
        QSettings().setValue(kSchemeKey, schemes_->currentData());
        dress_up();
    });
    return schemes;
}

void MainWindow::dress_up() { dress(*qApp, scheme_of(schemes_->currentData().toString(), desktop_)); }

/// What must not be overlooked on any page: that nothing here is about a real unit, or that a record is not intact.
QWidget* MainWindow::make_banner()
{
    auto* banner = text_label("banner", tr("what holds for all of this"));
    fill_with(banner, session::Tone::conditional);
    banner->setAlignment(Qt::AlignCenter);
    auto bold = banner->font();
    bold.setBold(true);
    banner->setFont(bold);
    banner->hide();
    connect(bench_, &BenchPlace::bannerChanged, this, &MainWindow::show_banner);
    return banner_ = banner;
}

/// Asks once, without a box over the trace, whether a run that goes on is to be ended.
QWidget* MainWindow::make_closing()
{
    auto* question = text_label("closing", tr("closing"));
    auto* close_now = button("closeNow", tr("Close"));
    auto* stay = button("stay", tr("Stay"));
    connect(close_now, &QPushButton::clicked, this, [this] {
        may_close_ = true;
        close();
    });
    connect(stay, &QPushButton::clicked, this, [this] { closing_->hide(); });
    auto* row = row_of({question, close_now, stay});
    row->layout()->setContentsMargins(6, 6, 6, 6);
    let_grow(row, 0);
    row->hide();
    return row;
}

void MainWindow::set_up_scanner()
{
    auto* filter = new ScannerFilter(
        [this](const QString& text) {
            return places_->currentWidget() == bench_ ? bench_->take_asset(text) : register_->take_asset(text);
        },
        this);
    qApp->installEventFilter(filter);
    qApp->installEventFilter(new WheelGuard(this));
}

void MainWindow::recall()
{
    const QSettings settings;
    mute_->setChecked(settings.value(kMutedKey).toBool());
    restoreGeometry(settings.value(kGeometryKey).toByteArray());
}

void MainWindow::show_help()
{
    // Never modal: a run goes on behind it.
    if (help_box_ == nullptr) {
        help_box_ = new HelpDialog(this);
        connect(help_box_, &QDialog::finished, this, [this] {
            activateWindow();
            if (auto* page = bench_->currentWidget(); bench_->running()) {
                page->setFocus(); // Space and Escape mean the run again
            }
        });
    }
    help_box_->show();
    help_box_->raise();
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    const bool unsigned_run =
        bench_->currentWidget() == &bench_->result_page() && bench_->result_page().waits_for_signature();
    if ((bench_->running() || unsigned_run) && !may_close_) {
        closing_->findChild<QLabel*>(QStringLiteral("closing"))
            ->setText(unsigned_run
                          ? tr("Nobody has signed this run: it is no record. It is kept, and can be opened and "
                               "signed later.")
                          : tr("A run is going on. Closing ends it; what was captured is kept. Is the unit "
                               "back as it must be?"));
        closing_->show();
        closing_->findChild<QPushButton*>(QStringLiteral("stay"))->setFocus();
        event->ignore();
        return;
    }
    bench_->break_off();
    QSettings().setValue(kGeometryKey, saveGeometry());
    event->accept();
}

} // namespace zeroline::window
