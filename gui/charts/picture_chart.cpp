#include "gui/charts/picture_chart.hpp"

#include <QAreaSeries>
#include <QCategoryAxis>
#include <QChart>
#include <QFontMetricsF>
#include <QGraphicsLayout>
#include <QGraphicsLineItem>
#include <QGraphicsSimpleTextItem>
#include <QLegendMarker>
#include <QLineSeries>
#include <QLocale>
#include <QPen>
#include <QScatterSeries>

#include <algorithm>
#include <cmath>

namespace zeroline::charts {

namespace {

constexpr double kLettersANumber = 8.0; ///< room of a number on the axis across, with air
constexpr double kLinesANumber = 2.2;   ///< of a number on the axis up
constexpr double kAir = 4.0;

double step_of(const Axis& wanted, double room, double a_number)
{
    return round_step(std::max(wanted.high - wanted.low, 1e-9), std::clamp(room / std::max(a_number, 1.0), 2.0, 12.0));
}

void show_axis(QCategoryAxis* axis, bool visible)
{
    axis->setLabelsVisible(visible);
    axis->setLineVisible(visible);
    axis->setGridLineVisible(visible);
}

/// Pressures have a sign, above zero too, times have none; numbers are written as the language does.
QList<std::pair<QString, double>> ticks_of(const Axis& wanted, double step, const QString& plus, const QLocale& locale)
{
    const int decimals = step >= 0.999 ? 0 : step >= 0.0999 && step != 0.25 ? 1 : 2;
    QList<std::pair<QString, double>> ticks;
    for (double count = std::ceil(wanted.low / step - 1e-6); count * step <= wanted.high + 1e-6 * step; count += 1.0) {
        const double value = count * step + 0.0; // no -0
        ticks << std::pair{(value > 0.0 ? plus : QString()) + locale.toString(value, 'f', decimals), value};
    }
    return ticks;
}

void set_axis(QCategoryAxis* axis, const Axis& wanted, double step, const QString& plus, const QLocale& locale)
{
    const auto ticks = ticks_of(wanted, step, plus, locale);
    QStringList labels;
    for (const auto& [label, value] : ticks) {
        labels << label;
    }
    if (labels != axis->categoriesLabels() || axis->startValue() != wanted.low) {
        for (const auto& label : axis->categoriesLabels()) {
            axis->remove(label);
        }
        axis->setStartValue(wanted.low);
        for (const auto& [label, value] : ticks) {
            axis->append(label, value);
        }
    }
    axis->setRange(wanted.low, wanted.high);
    show_axis(axis, wanted.numbers);
}

QCategoryAxis* numbered_axis()
{
    auto* axis = new QCategoryAxis;
    axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    axis->setTruncateLabels(false);
    return axis;
}

} // namespace

PictureChart::PictureChart() : chart_(new QChart), across_(numbered_axis()), up_(numbered_axis())
{
    chart_->addAxis(across_, Qt::AlignBottom);
    chart_->addAxis(up_, Qt::AlignLeft);
    chart_->setBackgroundRoundness(0.0);
    chart_->legend()->hide();
    said_ = new QGraphicsSimpleTextItem(chart_);
    chart_->setAcceptHoverEvents(false);
}

QValueAxis* PictureChart::across() const noexcept { return across_; }

void PictureChart::show(const Picture& picture, const Look& look)
{
    dress(look, picture);
    set_axes(picture);
    set_areas(picture);
    set_curves(picture);
    set_legend(picture);
    set_marks(picture);
}

void PictureChart::dress(const Look& look, const Picture& picture)
{
    const QFontMetricsF metrics(look.font);
    int rows = picture.said.isNull() ? 0 : 1;
    for (const auto& mark : picture.marks) {
        rows = std::max(rows, mark.row + 1);
    }
    const int top = static_cast<int>(rows * (metrics.height() + 1.0) + kAir);
    if (const QMargins wanted(2, top, static_cast<int>(metrics.averageCharWidth() * 2.0), 2);
        chart_->margins() != wanted) {
        chart_->setMargins(wanted);
    }
    if (dressed_ && look.font == look_.font && look.ink == look_.ink && look.ground == look_.ground) {
        return;
    }
    dressed_ = true;
    look_ = look;
    chart_->setTheme(look.dark ? QChart::ChartThemeDark : QChart::ChartThemeLight);
    chart_->setBackgroundBrush(look.ground.alpha() == 0 ? QBrush(Qt::NoBrush) : QBrush(look.ground));
    chart_->setBackgroundPen(Qt::NoPen);
    chart_->legend()->setFont(look.font);
    chart_->legend()->setMarkerShape(QLegend::MarkerShapeFromSeries); // dots and dashes tell what a colour does not
    chart_->legend()->setLabelColor(look.ink);
    chart_->layout()->setContentsMargins(0, 0, 0, 0);
    const double fine = look.line / 1.5;
    for (QAbstractAxis* axis : std::initializer_list<QAbstractAxis*>{across_, up_}) {
        axis->setLabelsFont(look.font);
        axis->setTitleFont(look.font);
        axis->setLabelsColor(look.ink);
        axis->setTitleBrush(look.ink);
        axis->setLinePen(QPen(look.ink, fine));
        axis->setGridLinePen(QPen(look.faint, fine));
    }
    said_->setFont(look.font);
    said_->setBrush(look.ink);
}

void PictureChart::set_axes(const Picture& picture)
{
    const QFontMetricsF metrics(look_.font);
    const auto room = chart_->plotArea().size();
    set_axis(across_, picture.across,
             step_of(picture.across, room.width(), kLettersANumber * metrics.averageCharWidth()), QString(),
             look_.numbers);
    across_->setTitleText(picture.across.title);
    set_axis(up_, picture.up, step_of(picture.up, room.height(), kLinesANumber * metrics.height()), QStringLiteral("+"),
             look_.numbers);
    up_->setTitleText(picture.up.title);
}

void PictureChart::attach(QXYSeries* series)
{
    chart_->addSeries(series);
    series->attachAxis(across_);
    series->attachAxis(up_);
}

QAreaSeries* PictureChart::area(qsizetype index)
{
    while (areas_.size() <= index) {
        auto* made = new QAreaSeries(new QLineSeries, new QLineSeries);
        made->upperSeries()->setParent(made);
        made->lowerSeries()->setParent(made);
        chart_->addSeries(made);
        made->attachAxis(across_);
        made->attachAxis(up_);
        made->setPen(Qt::NoPen);
        areas_ << made;
        // Later series lie over earlier ones, and areas belong under all lines.
        for (auto* line : lines_) {
            chart_->removeSeries(line);
            attach(line);
        }
    }
    return areas_[index];
}

template <typename Series> QXYSeries* PictureChart::points(QList<Series*>& pool, qsizetype index)
{
    while (pool.size() <= index) {
        pool << new Series;
        attach(pool.back());
    }
    return pool[index];
}

void PictureChart::set_areas(const Picture& picture)
{
    const auto& x = picture.across;
    const auto& y = picture.up;
    qsizetype used = 0;
    for (const auto& wanted : picture.areas) {
        const double from = std::max(wanted.from, x.low), to = std::min(wanted.to, x.high);
        const double low = std::max(wanted.low, y.low), high = std::min(wanted.high, y.high);
        if (!(to > from) || !(high > low)) {
            continue;
        }
        auto* series = area(used++);
        series->upperSeries()->replace({{from, high}, {to, high}});
        series->lowerSeries()->replace({{from, low}, {to, low}});
        series->setBrush(brush_of(wanted.ground));
        series->setName(wanted.name);
        series->setVisible(true);
    }
    for (; used < areas_.size(); ++used) {
        areas_[used]->setVisible(false);
    }
}

void PictureChart::set_curve(QXYSeries* series, const Curve& curve)
{
    if (const auto pen = pen_of(curve.pen); series->pen() != pen) {
        series->setPen(pen);
    }
    series->setName(curve.name);
    series->replace(curve.points);
    series->setVisible(true);
}

void PictureChart::set_curves(const Picture& picture)
{
    qsizetype lines = 0, dots = 0;
    for (const auto& curve : picture.curves) {
        if (!curve.dots) {
            set_curve(points(lines_, lines++), curve);
            continue;
        }
        auto* series = static_cast<QScatterSeries*>(points(dots_, dots++));
        set_curve(series, curve);
        series->setMarkerSize(look_.line * (curve.pen == Pen::median ? 4.0 : 7.0));
        series->setColor(colour_of(curve.pen));
        series->setPen(QPen(look_.ground.alpha() == 0 ? QColor(Qt::white) : look_.ground, look_.line / 1.5));
    }
    for (; lines < lines_.size(); ++lines) {
        lines_[lines]->setVisible(false);
    }
    for (; dots < dots_.size(); ++dots) {
        dots_[dots]->setVisible(false);
    }
}

void PictureChart::set_legend(const Picture& picture)
{
    chart_->legend()->setVisible(picture.legend);
    if (!picture.legend) {
        return;
    }
    chart_->legend()->setAlignment(Qt::AlignBottom);
    for (auto* marker : chart_->legend()->markers()) {
        const auto* series = marker->series();
        marker->setVisible(series->isVisible() && !series->name().isEmpty());
        marker->setLabelBrush(look_.ink);
        if (const auto* band = qobject_cast<const QAreaSeries*>(series)) {
            marker->setBrush(band->brush());
            marker->setPen(Qt::NoPen);
        }
    }
}

PictureChart::Words& PictureChart::words(qsizetype index)
{
    while (words_.size() <= index) {
        words_ << Words{new QGraphicsSimpleTextItem(chart_), new QGraphicsLineItem(chart_)};
    }
    return words_[index];
}

void PictureChart::set_marks(const Picture& picture)
{
    marks_ = picture.marks;
    rows_ = picture.up.rows;
    if (said_->text() != picture.said) {
        said_->setText(picture.said);
    }
    place_marks();
}

void PictureChart::place_marks()
{
    const auto plane = chart_->plotArea();
    const QFontMetricsF metrics(look_.font);
    const double low = across_->min(), per_value = plane.width() / std::max(across_->max() - low, 1e-12);
    QList<double> free_from(8, plane.left());
    const auto said = said_->boundingRect();
    const double right_of_row_0 = said_->text().isEmpty() ? plane.right() : plane.right() - said.width() - 2.0 * kAir;
    said_->setPos(plane.right() - said.width(), plane.top() - metrics.height() - kAir);
    qsizetype used = 0;
    for (const auto& mark : marks_) {
        const double left = plane.left() + (mark.from - low) * per_value;
        const double middle = plane.left() + (0.5 * (mark.from + mark.to) - low) * per_value;
        const double half = 0.5 * metrics.horizontalAdvance(mark.text);
        auto& free = free_from[std::min<qsizetype>(mark.row, free_from.size() - 1)];
        // What is said of the whole chart may be wider than the plane.
        const double from = mark.tick ? free : 0.0;
        const double to = !mark.tick ? chart_->size().width() : mark.row == 0 ? right_of_row_0 : plane.right();
        if (middle - half < from || middle + half > to) {
            continue;
        }
        free = middle + half + 2.0 * kAir;
        auto& shown = words(used++);
        const double top = plane.top() - (mark.row + 1) * (metrics.height() + 1.0) - kAir;
        shown.text->setFont(look_.font);
        shown.text->setText(mark.text);
        shown.text->setBrush(look_.ink);
        shown.text->setOpacity(mark.faint ? 0.7 : 1.0);
        shown.text->setPos(middle - half, top);
        shown.text->setVisible(true);
        shown.tick->setPen(QPen(look_.ink, look_.line / 1.5));
        shown.tick->setLine(left, mark.row == 0 ? plane.top() - kAir : top + 2.0, left, plane.top());
        shown.tick->setVisible(mark.tick && left >= plane.left());
    }
    const double per_row = plane.height() / std::max(up_->max() - up_->min(), 1e-12);
    for (qsizetype i = 0; i < rows_.size(); ++i) {
        auto& shown = words(used++);
        shown.text->setFont(look_.font);
        shown.text->setText(rows_[i]);
        shown.text->setBrush(look_.ink);
        shown.text->setOpacity(1.0);
        shown.text->setPos(plane.left(),
                           plane.bottom() - (static_cast<double>(i) - up_->min()) * per_row - metrics.height());
        shown.text->setVisible(true);
        shown.tick->setVisible(false);
    }
    for (; used < words_.size(); ++used) {
        words_[used].text->setVisible(false);
        words_[used].tick->setVisible(false);
    }
}

QColor PictureChart::colour_of(Pen pen) const
{
    switch (pen) {
    case Pen::good:
        return look_.good;
    case Pen::doubtful:
        return look_.doubtful;
    case Pen::bad:
        return look_.bad;
    case Pen::median:
    case Pen::target:
    case Pen::limit:
    case Pen::pointer:
        return look_.ink;
    case Pen::earlier:
        return look_.doubtful;
    case Pen::trace:
    case Pen::dense:
    case Pen::cycle:
    case Pen::unjudged:
        break;
    }
    return look_.trace;
}

QPen PictureChart::pen_of(Pen pen) const
{
    auto colour = colour_of(pen);
    switch (pen) {
    case Pen::dense:
        return QPen(colour, 0.0);
    case Pen::cycle:
    case Pen::unjudged:
        colour.setAlphaF(0.72F); // three to one on its ground, at least
        return QPen(colour, look_.line / 1.5, pen == Pen::cycle ? Qt::SolidLine : Qt::DotLine);
    case Pen::median:
    case Pen::earlier:
        return QPen(colour, 1.4 * look_.line, pen == Pen::median ? Qt::SolidLine : Qt::DashLine);
    case Pen::target:
    case Pen::pointer:
        return QPen(colour, look_.line / 1.5, Qt::DashLine);
    case Pen::limit:
        return QPen(colour, look_.line / 1.5);
    case Pen::good:
    case Pen::doubtful:
    case Pen::bad:
        return QPen(colour, 3.0 * look_.line);
    case Pen::trace:
        break;
    }
    return QPen(colour, look_.line);
}

QBrush PictureChart::brush_of(Ground ground) const
{
    // On black the same share of a colour is hardly seen.
    const auto thinned = [stronger = look_.dark ? 1.7F : 1.0F](QColor colour, float alpha) {
        colour.setAlphaF(alpha * stronger);
        return QBrush(colour);
    };
    switch (ground) {
    case Ground::allowed:
        return thinned(look_.good, 0.25F);
    case Ground::now:
        return thinned(look_.good, 0.45F);
    case Ground::expected:
        return thinned(look_.good, 0.13F);
    case Ground::zero:
        return thinned(look_.ink, 0.08F);
    case Ground::outside:
        return thinned(look_.bad, 0.12F);
    case Ground::missing:
        break;
    }
    auto hatch = thinned(look_.ink, 0.45F);
    hatch.setStyle(Qt::BDiagPattern);
    return hatch;
}

} // namespace zeroline::charts
