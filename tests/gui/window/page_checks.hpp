#pragma once

#include "gui/window/page_parts.hpp"

#include <QAbstractButton>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabBar>
#include <QtTest/QTest>

#include <gmock/gmock.h>

#include <set>
#include <string>
#include <vector>

// What has to hold for whatever page a window shows.

namespace zeroline::window {

inline bool is_inner(const QWidget* widget)
{
    const auto* parent = widget->parentWidget();
    return qobject_cast<const QAbstractSpinBox*>(parent) != nullptr ||
           qobject_cast<const QComboBox*>(parent) != nullptr || widget->objectName().startsWith(QLatin1String("qt_")) ||
           qobject_cast<const QTabBar*>(parent) != nullptr;
}

inline bool can_be_used(const QWidget* widget)
{
    const bool field =
        qobject_cast<const QAbstractButton*>(widget) != nullptr || qobject_cast<const QLineEdit*>(widget) != nullptr ||
        qobject_cast<const QComboBox*>(widget) != nullptr || qobject_cast<const QAbstractSpinBox*>(widget) != nullptr;
    return field && widget->isVisible() && widget->isEnabled() && !is_inner(widget);
}

inline std::string name_of(const QWidget* widget)
{
    return std::string(widget->metaObject()->className()) + " '" + widget->objectName().toStdString() + "'";
}

/// Presses Tab until it comes round; what was never reached is named.
inline std::vector<std::string> not_reached_by_tab(QWidget& window)
{
    std::set<const QWidget*> reached;
    for (int i = 0; i < 400; ++i) {
        auto* focus = QApplication::focusWidget();
        if (focus == nullptr) {
            window.setFocus();
            focus = &window;
        }
        if (!reached.insert(focus).second && i > 100)
            break;
        QTest::keyClick(focus, Qt::Key_Tab);
    }
    std::vector<std::string> missing;
    for (const auto* widget : window.findChildren<QWidget*>())
        if (can_be_used(widget) && reached.count(widget) == 0)
            missing.push_back(name_of(widget));
    return missing;
}

inline std::vector<std::string> without_a_name(QWidget& window)
{
    std::vector<std::string> nameless;
    for (auto* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || is_inner(widget) || (!can_be_used(widget) && widget->focusPolicy() == Qt::NoFocus))
            continue;
        auto* accessible = QAccessible::queryAccessibleInterface(widget);
        if (accessible == nullptr || accessible->text(QAccessible::Name).isEmpty())
            nameless.push_back(name_of(widget));
    }
    return nameless;
}

inline std::vector<std::string> too_small(QWidget& window)
{
    std::vector<std::string> small;
    for (const auto* widget : window.findChildren<QWidget*>())
        if (can_be_used(widget) && widget->height() < kTarget_px)
            small.push_back(name_of(widget));
    return small;
}

/// What stands on the page at the size of the window, and its parent gives less room than it needs.
inline std::vector<std::string> cut_off(const QWidget& page)
{
    std::vector<std::string> cut;
    for (const auto* widget : page.findChildren<QWidget*>()) {
        if (!widget->isVisible() || is_inner(widget))
            continue;
        const auto* label = qobject_cast<const QLabel*>(widget);
        const int height = label != nullptr && label->wordWrap() && !label->text().isEmpty()
                               ? label->heightForWidth(label->width())
                               : widget->minimumSizeHint().height();
        const bool narrow = widget->width() < widget->minimumSizeHint().width();
        if ((label != nullptr || qobject_cast<const QAbstractButton*>(widget) != nullptr) &&
            (narrow || widget->height() < height))
            cut.push_back(name_of(widget) + " " + std::to_string(widget->width()) + " x " +
                          std::to_string(widget->height()) + ", needs " +
                          std::to_string(widget->minimumSizeHint().width()) + " x " + std::to_string(height));
    }
    return cut;
}

/// Buttons that look like the one thing to do.
inline std::vector<std::string> primary_buttons(const QWidget& window)
{
    std::vector<std::string> all;
    for (const auto* button : window.findChildren<QPushButton*>())
        if (button->isVisible() && button->property("primary").toBool())
            all.push_back(button->objectName().toStdString());
    return all;
}

/// Reached by Tab, named for those who do not see it, large enough for a glove.
inline void check_page(QWidget& window)
{
    EXPECT_THAT(not_reached_by_tab(window), testing::IsEmpty());
    EXPECT_THAT(without_a_name(window), testing::IsEmpty());
    EXPECT_THAT(too_small(window), testing::IsEmpty());
    EXPECT_LE(primary_buttons(window).size(), 1U) << testing::PrintToString(primary_buttons(window));
}

} // namespace zeroline::window
