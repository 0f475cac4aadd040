#include "gui/charts/plot_view.hpp"

#include "gui/charts/picture_chart.hpp"

#include <QChart>
#include <QChartView>
#include <QContextMenuEvent>
#include <QFileDialog>
#include <QKeyEvent>
#include <QMenu>
#include <QScopedValueRollback>
#include <QStandardPaths>
#include <QValueAxis>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace zeroline::charts {

namespace {

constexpr double kZoomStep = 1.25;
constexpr double kMoveStep = 0.1;
constexpr double kWheelNotch = 120.0;
constexpr double kShortest = 0.05;
constexpr int kFocusRing_px = 2;
constexpr int kLinesForWords = 13; ///< height of a chart with room for titles and legend

} // namespace

struct PlotView::Parts {
    PictureChart chart;
    QChartView* view = nullptr;
    Picture shown;
    Reach part;
    std::optional<double> pointer; ///< none: the pointer is elsewhere
    bool drawing = false;          ///< the axes change because of us
    bool looked = false;           ///< `part` was set
};

PlotView::PlotView(QWidget* parent) : QWidget(parent), parts_(std::make_unique<Parts>())
{
    setFocusPolicy(Qt::StrongFocus);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    auto* view = parts_->view = new QChartView(parts_->chart.chart(), this);
    view->setFocusPolicy(Qt::NoFocus);
    view->setFrameShape(QFrame::NoFrame);
    view->setRubberBand(QChartView::HorizontalRubberBand);
    view->setRenderHint(QPainter::Antialiasing);
    view->setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    view->setContextMenuPolicy(Qt::NoContextMenu);
    view->viewport()->setFocusPolicy(Qt::NoFocus);
    view->viewport()->setMouseTracking(true);
    view->viewport()->installEventFilter(this);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kFocusRing_px, kFocusRing_px, kFocusRing_px, kFocusRing_px);
    layout->addWidget(view);
    connect(parts_->chart.across(), &QValueAxis::rangeChanged, this, &PlotView::axis_changed);
    // Ticks, columns and marks suit the plane that is there, which Qt lays out later.
    connect(parts_->chart.chart(), &QChart::plotAreaChanged, this, &PlotView::redraw, Qt::QueuedConnection);
}

PlotView::~PlotView()
{
    parts_->drawing = true; // what the chart says while it goes is of no interest
    delete parts_->view;
}

const Picture& PlotView::shown() const { return parts_->shown; }

Reach PlotView::looked_at() const { return parts_->part; }

QSize PlotView::least(int lines) const
{
    constexpr int frame_px = 40;
    return {frame_px + 20 * fontMetrics().averageCharWidth(), frame_px + lines * fontMetrics().height()};
}

std::optional<PlotView::Pointed> PlotView::pointed(double /*across*/) const { return std::nullopt; }

void PlotView::point_at(double across)
{
    parts_->pointer = across;
    redraw();
}

QString PlotView::under_pointer() const
{
    const auto there = parts_->pointer ? pointed(*parts_->pointer) : std::nullopt;
    return there ? there->words : QString();
}

void PlotView::redraw()
{
    if (parts_->drawing) {
        return;
    }
    const QScopedValueRollback drawing(parts_->drawing, true);
    if (!parts_->looked) {
        parts_->part = all();
    }
    const auto plane = parts_->chart.chart()->plotArea();
    auto made = picture(parts_->part, std::max(1, static_cast<int>(plane.width())));
    made.said = QStringLiteral("");
    // Where there is little height the curve comes before the words about it.
    if (height() < kLinesForWords * fontMetrics().height()) {
        made.legend = false;
        made.across.title.clear();
        made.up.title.clear();
    }
    if (const auto there = parts_->pointer ? pointed(*parts_->pointer) : std::nullopt) {
        const QPointF at = there->point - QPointF(origin(), 0.0);
        made.said = there->words;
        made.curves << Curve{{{at.x(), made.up.low}, {at.x(), made.up.high}}, Pen::pointer};
        made.curves << Curve{{at}, Pen::median, {}, true};
    }
    const bool dense =
        std::any_of(made.curves.begin(), made.curves.end(), [](const Curve& curve) { return curve.pen == Pen::dense; });
    // Where many samples fall into a column the line is a dense zigzag: stroking it softly takes seconds, and a plain
    // hairline fills the same columns.
    parts_->view->setRenderHint(QPainter::Antialiasing, !dense);
    parts_->shown = std::move(made);
    parts_->chart.show(parts_->shown, look_of(palette(), font()));
}

void PlotView::look_at(const Reach& part)
{
    parts_->part = part;
    parts_->looked = true;
    redraw();
}

void PlotView::start_over()
{
    look_at(all());
    looked_elsewhere();
}

/// The chart was zoomed or moved by its own means: only what there is stays in sight.
void PlotView::axis_changed(double low, double high)
{
    if (parts_->drawing) {
        return;
    }
    const auto whole = all();
    const double width = std::clamp(high - low, kShortest, std::max(kShortest, whole.to - whole.from));
    const double from = std::clamp(low + origin() + 0.5 * (high - low - width), whole.from, whole.to - width);
    parts_->part = {from, from + width};
    parts_->looked = true;
    looked_elsewhere();
    redraw();
}

void PlotView::zoom(double factor, double share)
{
    auto* axis = parts_->chart.across();
    const double width = (axis->max() - axis->min()) * factor;
    const double from = axis->min() + share * (axis->max() - axis->min() - width);
    axis->setRange(from, from + width);
}

void PlotView::move(double share)
{
    auto* axis = parts_->chart.across();
    const double step = share * (axis->max() - axis->min());
    axis->setRange(axis->min() + step, axis->max() + step);
}

void PlotView::keyPressEvent(QKeyEvent* event)
{
    switch (event->key()) {
    case Qt::Key_Plus:
        return zoom(1.0 / kZoomStep, fixed_share());
    case Qt::Key_Minus:
        return zoom(kZoomStep, 0.5);
    case Qt::Key_Left:
        return move(-kMoveStep);
    case Qt::Key_Right:
        return move(kMoveStep);
    case Qt::Key_Home:
        look_at(all());
        return looked_elsewhere();
    default:
        QWidget::keyPressEvent(event);
    }
}

void PlotView::take_pointer(const QPointF& at)
{
    auto* chart = parts_->chart.chart();
    const auto place = chart->mapFromScene(parts_->view->mapToScene(at.toPoint()));
    const auto plane = chart->plotArea();
    if (!plane.contains(place)) {
        parts_->pointer.reset();
        return redraw();
    }
    const auto* axis = parts_->chart.across();
    point_at(origin() + axis->min() + (place.x() - plane.left()) / plane.width() * (axis->max() - axis->min()));
}

bool PlotView::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::MouseMove) {
        take_pointer(static_cast<QMouseEvent*>(event)->position());
    } else if (event->type() == QEvent::Leave) {
        parts_->pointer.reset();
        redraw();
    } else if (event->type() == QEvent::MouseButtonDblClick) {
        start_over();
        return true;
    } else if (event->type() == QEvent::MouseButtonPress) {
        setFocus(Qt::MouseFocusReason);
        // The right button asks for the menu; the chart would zoom out by it.
        return static_cast<QMouseEvent*>(event)->button() == Qt::RightButton;
    } else if (event->type() == QEvent::MouseButtonRelease) {
        return static_cast<QMouseEvent*>(event)->button() == Qt::RightButton;
    } else if (event->type() == QEvent::Wheel) {
        const auto* wheel = static_cast<QWheelEvent*>(event);
        if (hasFocus()) {
            const auto plane = parts_->chart.chart()->plotArea();
            const double share = std::clamp((wheel->position().x() - plane.left()) / plane.width(), 0.0, 1.0);
            zoom(std::pow(kZoomStep, -wheel->angleDelta().y() / kWheelNotch), share);
        }
        event->setAccepted(hasFocus()); // without the focus it turns the page
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void PlotView::contextMenuEvent(QContextMenuEvent* event)
{
    QMenu menu(this);
    menu.addAction(tr("Show all"), this, [this] {
        look_at(all());
        looked_elsewhere();
    });
    menu.addAction(tr("Save as a picture..."), this, &PlotView::ask_for_file);
    menu.exec(event->globalPos());
}

void PlotView::ask_for_file()
{
    const auto folder = QStandardPaths::writableLocation(QStandardPaths::PicturesLocation);
    const auto file =
        QFileDialog::getSaveFileName(this, tr("Save as a picture"),
                                     folder + u'/' + objectName() + QStringLiteral(".png"), tr("PNG pictures (*.png)"));
    if (!file.isEmpty()) {
        save_png(file);
    }
}

bool PlotView::save_png(const QString& file) const { return parts_->view->grab().save(file, "PNG"); }

void PlotView::changeEvent(QEvent* event)
{
    QWidget::changeEvent(event);
    // While it is made, and until it is shown, there is nothing to draw.
    const bool looks = event->type() == QEvent::FontChange || event->type() == QEvent::PaletteChange;
    if (looks && isVisible()) {
        redraw();
    }
}

void PlotView::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    redraw();
}

void PlotView::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    redraw();
}

void PlotView::paintEvent(QPaintEvent* event)
{
    QWidget::paintEvent(event);
    if (hasFocus()) {
        QPainter painter(this);
        painter.setPen(QPen(palette().color(QPalette::Highlight), kFocusRing_px));
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void PlotView::focusInEvent(QFocusEvent* event)
{
    QWidget::focusInEvent(event);
    update();
}

void PlotView::focusOutEvent(QFocusEvent* event)
{
    QWidget::focusOutEvent(event);
    update();
}

} // namespace zeroline::charts
