#pragma once

#include <QPushButton>
#include <QString>

#include <limits>

class QBoxLayout;
class QLabel;
class QWidget;

namespace zeroline::window {

/// A finger in a glove has to hit it.
inline constexpr int kTarget_px = 40;
/// Air: within a thing, between things that belong together, between groups, around a page.
inline constexpr int kAir_px = 4, kGap_px = 8, kCard_px = 12, kPage_px = 16;

/// Gives a widget its name for tests and for assistive technology.
template <typename Widget> Widget* named(Widget* widget, const char* name, const QString& spoken)
{
    widget->setObjectName(QLatin1String(name));
    widget->setAccessibleName(spoken);
    return widget;
}

[[nodiscard]] QPushButton* button(const char* name, const QString& text);
/// The one thing to do on a page: filled with the accent.
QPushButton* primary(QPushButton* button);
/// The same while a page is shown, and back.
void make_primary(QPushButton* button, bool is);
/// Without an outline: beside the work, not part of it.
QPushButton* quiet(QPushButton* button);
/// A line of text; wraps.
[[nodiscard]] QLabel* text_label(const char* name, const QString& spoken, const QString& text = {});
/// The same, larger than the font of the system, in points.
[[nodiscard]] QLabel* large_label(const char* name, const QString& spoken, double points, bool bold = false);
[[nodiscard]] QLabel* heading(const QString& text);
/// Takes the widgets over into a row without margins, which goes on below where there is no room (FlowLayout).
[[nodiscard]] QWidget* row_of(std::initializer_list<QWidget*> widgets);
/// The part of a row_of() that takes the room that is left, or its share of it.
void let_grow(QWidget* row, int index, int share = 1);
/// In a row_of(), room that is left goes in front of the part at `index`; behind all where there is none.
void put_gap(QWidget* row, int index = std::numeric_limits<int>::max());
/// What stands in the layouts stands side by side where `page` is wider than so many letters, else one below the other.
void stand_abreast(const QWidget& page, int letters, std::initializer_list<QBoxLayout*> layouts);
/// Takes the widgets over into a column without margins.
[[nodiscard]] QWidget* column_of(std::initializer_list<QWidget*> widgets);
/// The same on a card of its own, with air around it.
[[nodiscard]] QWidget* card_of(std::initializer_list<QWidget*> widgets);

} // namespace zeroline::window
