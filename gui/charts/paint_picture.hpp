#pragma once

#include "gui/charts/picture.hpp"

#include <QRectF>

class QPainter;

namespace zeroline::charts {

/// Draws a picture into `target`, as lines and letters; `unit` is the size of a unit of the look (its font is in pixels
/// of that size, its lines too) in units of the painter. The same picture gives the same strokes,
/// with numbers as in English. Needs a QApplication.
void paint(const Picture& picture, const Look& look, QPainter& painter, const QRectF& target, double unit);

} // namespace zeroline::charts
