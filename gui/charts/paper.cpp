#include "gui/charts/paper.hpp"

#include "gui/charts/canvas.hpp"

#include <QChart>
#include <QGraphicsLayout>
#include <QGraphicsScene>
#include <QLocale>

namespace zeroline::charts {

void paint(const Picture& picture, const Look& look, QPainter& painter, const QRectF& target, double unit)
{
    QGraphicsScene scene;
    Canvas canvas;
    scene.addItem(canvas.chart());
    canvas.chart()->setLocale(QLocale::c());
    const QRectF whole(QPointF(0, 0), target.size() / unit);
    canvas.chart()->setGeometry(whole);
    // Once for the room that axes and titles take, once more for ticks that suit what is left.
    for (int round = 0; round < 2; ++round) {
        canvas.show(picture, look);
        canvas.chart()->layout()->invalidate();
        canvas.chart()->layout()->activate();
    }
    canvas.place_marks();
    scene.render(&painter, target, whole, Qt::IgnoreAspectRatio);
}

} // namespace zeroline::charts
