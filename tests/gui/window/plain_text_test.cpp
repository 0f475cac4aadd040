// What a file says is shown as it is written: no label, message or tool tip takes it for markup.

#include "tests/gui/window/driven_window.hpp"

#include <QMessageBox>
#include <QToolTip>

namespace zeroline::window {
namespace {

const auto kMarkup = QStringLiteral("<b style='color:green'>PASS</b><img src='file:///nowhere.png'>");

class PlainText : public DrivenWindow {
protected:
    static void expect_plain(const QWidget& within)
    {
        for (const auto* label : within.findChildren<QLabel*>()) {
            if (label->isVisible()) {
                EXPECT_EQ(label->textFormat(), Qt::PlainText) << label->text().toStdString();
            }
        }
    }
};

TEST_F(PlainText, EveryLabelOfAPageIsPlain)
{
    expect_plain(*window_);
    choose_the_demonstration();
    press("orderEdit");
    expect_plain(*window_);
}

TEST_F(PlainText, ALabelThatComesLaterIsPlainWhenItIsFirstSeen)
{
    QLabel label(kMarkup);
    label.show();
    EXPECT_EQ(label.textFormat(), Qt::PlainText);
    EXPECT_EQ(label.text(), kMarkup);
}

TEST_F(PlainText, AMessageIsPlain)
{
    QMessageBox box(QMessageBox::Warning, QString(), kMarkup, QMessageBox::Close);
    box.setInformativeText(kMarkup);
    box.show();
    expect_plain(box);
}

TEST_F(PlainText, AToolTipIsPlain)
{
    QToolTip::showText(QPoint(10, 10), kMarkup);
    const QLabel* tip = nullptr;
    for (const auto* widget : QApplication::topLevelWidgets())
        if (widget->inherits("QTipLabel"))
            tip = qobject_cast<const QLabel*>(widget);
    ASSERT_NE(tip, nullptr);
    EXPECT_EQ(tip->textFormat(), Qt::PlainText);
    QToolTip::hideText();
}

} // namespace
} // namespace zeroline::window
