#pragma once

#include <QColor>
#include <QPalette>
#include <QString>

class QApplication;

namespace zeroline::window {

enum class Scheme { light, dark, high_contrast };

/// Every colour of the window that says nothing about a unit. Writing stands on `ground` and on `card` alike.
struct Colours {
    QColor ground;    ///< behind the cards
    QColor card;      ///< cards, fields, tables
    QColor ink;       ///< writing
    QColor quiet;     ///< writing of less weight
    QColor line;      ///< outline of what can be used
    QColor edge;      ///< outline of cards, grids: parts nothing from nothing that matters
    QColor under;     ///< a button with the pointer over it
    QColor accent;    ///< the one thing to do, what is chosen, the focus
    QColor on_accent; ///< writing on it
};

[[nodiscard]] Colours colours_of(Scheme scheme);
[[nodiscard]] QPalette palette_of(const Colours& colours);

/// What a desktop with that palette asks for: dark where its ground is, high contrast where ink and ground are black
/// and white with nothing between them.
[[nodiscard]] Scheme scheme_for(const QPalette& desktop);

/// "light", "dark", "contrast"; anything else is what the desktop asks for.
[[nodiscard]] Scheme scheme_of(const QString& word, const QPalette& desktop);

/// Gives the whole program that look: Fusion, palette, shapes of buttons, fields and cards. Fonts stay as they are.
void dress(QApplication& application, Scheme scheme);

} // namespace zeroline::window
