#include "gui/window/main_window.hpp"

#include "gui/window/bench_place.hpp"
#include "gui/window/help_dialog.hpp"
#include "gui/window/look.hpp"
#include "gui/window/plain_text.hpp"
#include "gui/window/result_page.hpp"
#include "gui/window/scanner_filter.hpp"
#include "gui/window/start_page.hpp"
#include "gui/window/theme.hpp"
#include "gui/window/wheel_guard.hpp"

#include <QApplication>
#include <QCloseEvent>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QShortcut>
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
    bench_ = new BenchPlace;
    bench_->start_page().use_bench_file(options.bench_file);
    setWindowTitle(tr("Zeroline"));
    auto* column = column_of({closing_ = make_closing(), make_top(), bench_});
    column->layout()->setSpacing(0);
    setCentralWidget(column);
    set_up_scanner();
    resize(1024, 700);
    recall();
}

MainWindow::~MainWindow() = default;

/// A line above every page: what holds for all of it, and what belongs to the window and not to the work.
QWidget* MainWindow::make_top()
{
    help_ = quiet(button("help", tr("Help  [F1]")));
    help_->setShortcut(QKeySequence(Qt::Key_F1));
    mute_ = quiet(button("mute", tr("Sounds off")));
    mute_->setCheckable(true);
    connect(help_, &QPushButton::clicked, this, &MainWindow::show_help);
    connect(mute_, &QPushButton::toggled, this, [this](bool muted) {
        bench_->set_muted(muted);
        QSettings().setValue(kMutedKey, muted);
    });
    auto* top = row_of({make_banner(), mute_, schemes_, help_});
    top->layout()->setContentsMargins(kPage_px, kAir_px, kPage_px, 0);
    put_gap(top, 1);
    constexpr int most = 100; // the gap takes one share
    let_grow(top, 0, most);
    // What stops a run has the window to itself.
    connect(bench_, &QStackedWidget::currentChanged, top, [this] {
        mute_->setVisible(!bench_->stopped());
        help_->setVisible(!bench_->stopped());
        schemes_->setVisible(!bench_->running()); // a run needs the room
    });
    return top;
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
    connect(bench_, &BenchPlace::bannerChanged, banner, [banner](const QStringList& lines) {
        banner->setText(lines.join(u'\n'));
        banner->setVisible(!lines.isEmpty());
    });
    return banner;
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
    auto* filter = new ScannerFilter([this](const QString& text) { bench_->take_asset(text); }, this);
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
