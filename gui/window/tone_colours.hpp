#pragma once

#include "gui/session/result_words.hpp"

#include <QColor>

class QLabel;
class QPalette;

namespace zeroline::window {

[[nodiscard]] bool is_dark(const QPalette& palette);

/// What a tone is filled with, of Okabe and Ito's palette; invalid where it has no colour.
[[nodiscard]] QColor fill_of(session::Tone tone);
/// Text that stands on that fill with a contrast of 4.5:1 or more.
[[nodiscard]] QColor ink_on(session::Tone tone, const QPalette& palette);
/// A label on the ground of a tone, in an ink that stands on it.
void fill_with(QLabel* label, session::Tone tone);
/// Contrast of two colours after WCAG 2.1, 1.4.3: 1 to 21.
[[nodiscard]] double contrast(const QColor& a, const QColor& b);

} // namespace zeroline::window
