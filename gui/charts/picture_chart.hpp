#pragma once

#include "gui/charts/picture.hpp"

#include <QGraphicsItem>

class QAreaSeries;
class QChart;
class QGraphicsScene;
class QGraphicsSimpleTextItem;
class QGraphicsLineItem;
class QLineSeries;
class QScatterSeries;
class QCategoryAxis;
class QValueAxis;
class QXYSeries;

namespace zeroline::charts {

/// A QChart that is made to show one Picture after the other: series are kept and their points replaced.
class PictureChart {
public:
    PictureChart();
    PictureChart(const PictureChart&) = delete;
    PictureChart& operator=(const PictureChart&) = delete;

    /// Whoever shows the chart owns it: a view or a scene.
    [[nodiscard]] QChart* chart() const noexcept { return chart_; }
    [[nodiscard]] QValueAxis* across() const noexcept;

    void show(const Picture& picture, const Look& look);
    /// Marks have their place by the pixels of the plane: to be called when those have changed.
    void place_marks();

private:
    struct Words {
        QGraphicsSimpleTextItem* text;
        QGraphicsLineItem* tick;
    };

    void dress(const Look& look, const Picture& picture);
    void set_axes(const Picture& picture);
    void set_areas(const Picture& picture);
    void set_curves(const Picture& picture);
    void set_curve(QXYSeries* series, const Curve& curve);
    void set_marks(const Picture& picture);
    void set_legend(const Picture& picture);
    [[nodiscard]] QAreaSeries* area(qsizetype index);
    template <typename Series> [[nodiscard]] QXYSeries* points(QList<Series*>& pool, qsizetype index);
    void attach(QXYSeries* series);
    [[nodiscard]] Words& words(qsizetype index);
    [[nodiscard]] QPen pen_of(Pen pen) const;
    [[nodiscard]] QColor colour_of(Pen pen) const;
    [[nodiscard]] QBrush brush_of(Ground ground) const;

    QChart* chart_;
    QCategoryAxis *across_, *up_;
    QList<QAreaSeries*> areas_;
    QList<QLineSeries*> lines_;
    QList<QScatterSeries*> dots_;
    QList<Words> words_;
    QGraphicsSimpleTextItem* said_;
    QList<Mark> marks_;
    QList<QString> rows_;
    Look look_;
    bool dressed_ = false;
};

} // namespace zeroline::charts
