#include "gui/charts/trace_chart.hpp"

#include "tests/gui/charts/offscreen_application.hpp"

#include <QChart>
#include <QChartView>
#include <QPushButton>
#include <QTemporaryDir>
#include <QtTest/QTest>
#include <QValueAxis>
#include <QWheelEvent>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::charts {
namespace {

class TraceChartTest : public testing::Test {
protected:
    void SetUp() override
    {
        application();
        for (int i = 0; i < 6000; ++i) {
            const session::LiveSample sample{i / 100.0, i % 2 == 0 ? 40.0 : 41.0};
            history_.append({&sample, 1});
        }
        chart_ = std::make_unique<TraceChart>();
        chart_->resize(900, 400);
    }
    void show(bool live)
    {
        chart_->show_trace(&history_, live);
        chart_->show();
        QCoreApplication::processEvents();
    }
    QChartView* view() const { return chart_->findChild<QChartView*>(); }
    QValueAxis* across() const { return qobject_cast<QValueAxis*>(view()->chart()->axes(Qt::Horizontal).front()); }

    session::TraceHistory history_{100.0};
    std::unique_ptr<TraceChart> chart_;
};

TEST_F(TraceChartTest, ZoomsMovesAndComesBackToLiveByKeysAndSaysWhatIsUnderThePointer)
{
    show(true);
    EXPECT_TRUE(chart_->live());
    EXPECT_EQ(across()->max(), TraceChart::kAhead_s);
    QTest::keyClick(chart_.get(), Qt::Key_Plus);
    EXPECT_FALSE(chart_->live());
    EXPECT_TRUE(chart_->findChild<QPushButton*>("backToLive")->isVisible());
    QTest::keyClick(chart_.get(), Qt::Key_Home);
    EXPECT_EQ(chart_->looked_at().from, 0.0);
    EXPECT_NEAR(across()->max(), history_.last_s(), 1e-9);
    QTest::keyClick(chart_.get(), Qt::Key_End);
    EXPECT_TRUE(chart_->live());
    QTest::keyClick(chart_.get(), Qt::Key_Home);
    chart_->point_at(30.0);
    EXPECT_EQ(chart_->under_pointer(), "30.00 s: +40.0 cmH2O");
    EXPECT_FALSE(chart_->grab().isNull());
    EXPECT_LE(chart_->points(), 2 * 900 + 2);
    EXPECT_GT(chart_->points(), 500);
}

TEST_F(TraceChartTest, StaysWithinTheTraceAndShowsNoLessThanItMay)
{
    show(false);
    for (int i = 0; i < 100; ++i)
        QTest::keyClick(chart_.get(), Qt::Key_Plus);
    auto part = chart_->looked_at();
    EXPECT_NEAR(part.to - part.from, 0.05, 1e-9);
    for (int i = 0; i < 40; ++i)
        QTest::keyClick(chart_.get(), Qt::Key_Minus);
    part = chart_->looked_at();
    EXPECT_GE(part.from, 0.0);
    EXPECT_LE(part.to, history_.last_s() + 1e-9);
    QTest::keyClick(chart_.get(), Qt::Key_Plus);
    for (int i = 0; i < 60; ++i)
        QTest::keyClick(chart_.get(), Qt::Key_Right);
    EXPECT_NEAR(chart_->looked_at().to, history_.last_s(), 1e-6);
}

TEST_F(TraceChartTest, ABoxThatIsDraggedZoomsToItAndADoubleClickStartsOver)
{
    show(false);
    const auto plane = view()->chart()->plotArea().toRect();
    auto* area = view()->viewport();
    const int y = plane.center().y();
    const QPoint from(plane.left() + plane.width() / 4, y), to(plane.left() + plane.width() / 2, y + 20);
    QTest::mousePress(area, Qt::LeftButton, {}, from);
    QTest::mouseMove(area, to);
    QTest::mouseRelease(area, Qt::LeftButton, {}, to);
    const auto part = chart_->looked_at();
    EXPECT_NEAR(part.from, 15.0, 0.5);
    EXPECT_NEAR(part.to, 30.0, 0.5);
    QTest::mouseDClick(area, Qt::LeftButton, {}, from);
    EXPECT_EQ(chart_->looked_at().from, 0.0);
    EXPECT_NEAR(chart_->looked_at().to, history_.last_s(), 1e-9);
}

TEST_F(TraceChartTest, TheWheelTurnsThePageUnlessTheChartHasTheFocus)
{
    show(false);
    chart_->activateWindow();
    const auto turn = [&] {
        const QPointF middle(view()->viewport()->rect().center());
        QWheelEvent event(middle, view()->viewport()->mapToGlobal(middle), {}, {0, 120}, Qt::NoButton, Qt::NoModifier,
                          Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(view()->viewport(), &event);
        return event.isAccepted();
    };
    chart_->clearFocus();
    EXPECT_FALSE(turn());
    EXPECT_NEAR(chart_->looked_at().to, history_.last_s(), 1e-9);
    chart_->setFocus();
    ASSERT_TRUE(chart_->hasFocus());
    EXPECT_TRUE(turn());
    EXPECT_LT(chart_->looked_at().to - chart_->looked_at().from, 0.9 * history_.last_s());
}

TEST_F(TraceChartTest, WhileZeroIsReadTheAxisGoesToOneUnitEachWay)
{
    session::TraceHistory quiet(100.0);
    for (int i = 0; i < 2000; ++i) {
        const session::LiveSample sample{i / 100.0, 0.2};
        quiet.append({&sample, 1});
    }
    chart_->show_close_to_zero(true);
    chart_->show_trace(&quiet, true);
    EXPECT_EQ(chart_->shown().up.high, 1.0);
    const session::LiveSample far{20.01, 1.7};
    quiet.append({&far, 1});
    chart_->refresh();
    EXPECT_EQ(chart_->shown().up.high, 2.0) << "a reading that is off stays in sight";
    chart_->show_close_to_zero(false);
    chart_->refresh();
    EXPECT_EQ(chart_->shown().up.high, 50.0);
}

TEST_F(TraceChartTest, IsSavedAsAPictureOfItsSize)
{
    show(false);
    const QTemporaryDir folder;
    const auto file = folder.filePath("trace.png");
    ASSERT_TRUE(chart_->save_png(file));
    const QImage saved(file);
    EXPECT_EQ(saved.size(), view()->size());
    EXPECT_FALSE(chart_->save_png(folder.filePath("no/such/folder.png")));
}

TEST_F(TraceChartTest, ShowsNothingAndDoesNotFallOverWithoutATrace)
{
    chart_->show_trace(nullptr, true);
    chart_->show();
    chart_->refresh();
    EXPECT_EQ(chart_->points(), 0);
    QTest::keyClick(chart_.get(), Qt::Key_Plus);
    QTest::keyClick(chart_.get(), Qt::Key_Home);
    EXPECT_FALSE(chart_->grab().isNull());
}

} // namespace
} // namespace zeroline::charts
