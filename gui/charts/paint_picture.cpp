#include "gui/charts/paint_picture.hpp"

#include "gui/charts/picture_chart.hpp"

#include <QChart>
#include <QGraphicsLayout>
#include <QGraphicsScene>
#include <QLocale>

namespace zeroline::charts {

void paint(const Picture& picture, const Look& look, QPainter& painter, const QRectF& target, double unit)
{
    QGraphicsScene scene;
    PictureChart chart;
    scene.addItem(chart.chart());
    chart.chart()->setLocale(QLocale::c());
    const QRectF whole(QPointF(0, 0), target.size() / unit);
    chart.chart()->setGeometry(whole);
    // Once for the room that axes and titles take, once more for ticks that suit what is left.
    for (int round = 0; round < 2; ++round) {
        chart.show(picture, look);
        chart.chart()->layout()->invalidate();
        chart.chart()->layout()->activate();
    }
    chart.place_marks();
    scene.render(&painter, target, whole, Qt::IgnoreAspectRatio);
}

} // namespace zeroline::charts
