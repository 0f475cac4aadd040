#include "gui/charts/paint_picture.hpp"

#include "tests/gui/charts/offscreen_application.hpp"

#include <QBuffer>
#include <QHashFunctions>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::charts {
namespace {

Picture made_picture()
{
    Picture picture;
    picture.across = {0.0, 10.0, "s"};
    picture.up = {-50.0, 50.0, "cmH2O"};
    picture.areas << Area{1.0, 2.5, 38.0, 42.0, Ground::allowed}
                  << Area{4.0, 5.0, -INFINITY, INFINITY, Ground::missing};
    Curve curve;
    for (int i = 0; i <= 1000; ++i)
        curve.points << QPointF(i / 100.0, 40.0 * std::sin(i / 80.0));
    picture.curves << curve;
    picture.marks << Mark{1.0, 5.0, "1"};
    return picture;
}

QByteArray pdf_of(const Picture& picture)
{
    application();
    QHashSeed::setDeterministicGlobalSeed();
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setResolution(2540);
        writer.setPageSize(QPageSize(QSizeF(100, 60), QPageSize::Millimeter));
        QPainter painter(&writer);
        QFont font("DejaVu Sans");
        font.setPixelSize(10);
        paint(picture, look_of_paper(font), painter, {500.0, 500.0, 8000.0, 4000.0}, 20.0);
    }
    QHashSeed::resetRandomGlobalSeed();
    auto bytes = buffer.data();
    const auto date = bytes.indexOf("/CreationDate");
    return bytes.remove(date, bytes.indexOf('\n', date) - date);
}

TEST(Paper, DrawsLinesAndLettersAndTheSameBytesTwice)
{
    const auto first = pdf_of(made_picture());
    EXPECT_GT(first.size(), 2000);
    EXPECT_EQ(first.count("/Subtype /Image"), 0) << "a picture made of dots";
    EXPECT_EQ(first, pdf_of(made_picture()));
}

TEST(Paper, DrawsWhatThePictureHolds)
{
    auto other = made_picture();
    other.curves[0].points[500].ry() += 5.0;
    EXPECT_NE(pdf_of(made_picture()), pdf_of(other));
}

} // namespace
} // namespace zeroline::charts
