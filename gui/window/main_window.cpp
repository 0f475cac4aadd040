#include "gui/window/main_window.hpp"

#include "gui/window/bench_place.hpp"
#include "gui/window/look.hpp"
#include "gui/window/plain_text.hpp"
#include "gui/window/scanner_filter.hpp"
#include "gui/window/start_page.hpp"
#include "gui/window/wheel_guard.hpp"

#include <QApplication>
#include <QCloseEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QSettings>
#include <QShortcut>
#include <QVBoxLayout>

namespace zeroline::window {

namespace {

const auto kMutedKey = QStringLiteral("sounds/muted");
const auto kGeometryKey = QStringLiteral("window/geometry");

} // namespace

MainWindow::MainWindow(const WindowOptions& options, QWidget* parent) : QMainWindow(parent), bench_(new BenchPlace)
{
    show_only_plain_text(*qApp);
    bench_->start_page().use_bench_file(options.bench_file);
    setPalette(readable_when_disabled(QGuiApplication::palette()));
    setWindowTitle(tr("Zeroline"));
    auto* middle = new QWidget;
    auto* layout = new QHBoxLayout(middle);
    layout->setContentsMargins({});
    layout->setSpacing(0);
    auto* rail = make_rail();
    layout->addWidget(rail);
    // What stops a run has the window to itself.
    connect(bench_, &QStackedWidget::currentChanged, rail, [this, rail] { rail->setVisible(!bench_->stopped()); });
    auto* column = column_of({closing_ = make_closing(), make_banner(), bench_});
    column->layout()->setSpacing(0);
    layout->addWidget(column, 1);
    setCentralWidget(middle);
    set_up_scanner();
    resize(1024, 700);
    recall();
}

MainWindow::~MainWindow() = default;

QWidget* MainWindow::make_rail()
{
    to_bench_ = button("toBench", tr("Bench"));
    to_bench_->setCheckable(true);
    to_bench_->setChecked(true);
    to_bench_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_1));
    help_ = button("help", tr("Help  [F1]"));
    help_->setShortcut(QKeySequence(Qt::Key_F1));
    mute_ = button("mute", tr("Sounds off"));
    mute_->setCheckable(true);
    connect(to_bench_, &QPushButton::clicked, this, [this] { to_bench_->setChecked(true); });
    connect(help_, &QPushButton::clicked, this, &MainWindow::show_help);
    connect(mute_, &QPushButton::toggled, this, [this](bool muted) {
        bench_->set_muted(muted);
        QSettings().setValue(kMutedKey, muted);
    });
    auto* rail = new QWidget;
    auto* layout = new QVBoxLayout(rail);
    layout->setContentsMargins(6, 6, 6, 6);
    layout->addWidget(to_bench_);
    layout->addStretch(1);
    layout->addWidget(mute_);
    layout->addWidget(help_);
    return rail;
}

/// What must not be overlooked on any page: that nothing here is about a real unit, or that a record is not intact.
QWidget* MainWindow::make_banner()
{
    auto* banner = text_label("banner", tr("what holds for all of this"));
    fill_with(banner, session::Tone::conditional);
    banner->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
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
    auto* question = text_label("closing", tr("closing"),
                                tr("A run is going on. Closing ends it; what was captured is kept. Is the unit back as "
                                   "it must be?"));
    auto* close_now = button("closeNow", tr("End the run and close"));
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
        help_box_ = make_help();
    }
    help_box_->show();
    help_box_->raise();
}

QMessageBox* MainWindow::make_help()
{
    auto* box = new QMessageBox(
        QMessageBox::Information, tr("Help"),
        tr("Choose the work order, the instrument and its port, then begin. The run moves on by what the pressure "
           "does.\n\n"
           "Space: done, go on, where that is allowed\nEscape: give the unit back now, at every step\n"
           "S: leave a step out, with a reason\nC: checklist and air in the room\n"
           "Plus, minus, arrows, Home, End: zoom and move the trace\nU: uncertainty beside the result\n"
           "Ctrl+Enter: begin the run\n\nThe guide is installed with the program, in its documentation folder."),
        QMessageBox::Close, this);
    named(box, "helpBox", tr("Help"));
    box->setModal(false);
    connect(box, &QDialog::finished, this, [this] {
        activateWindow();
        if (auto* page = bench_->currentWidget(); bench_->running()) {
            page->setFocus(); // Space and Escape mean the run again
        }
    });
    return box;
}

void MainWindow::changeEvent(QEvent* event)
{
    if (event->type() == QEvent::ApplicationPaletteChange) {
        setPalette(readable_when_disabled(QGuiApplication::palette()));
    }
    QMainWindow::changeEvent(event);
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    if (bench_->running() && !may_close_) {
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
