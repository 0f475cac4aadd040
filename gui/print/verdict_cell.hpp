#pragma once

#include "gui/print/table.hpp"
#include "gui/session/result_words.hpp"

namespace zeroline::print {

/// The colours of a tone (Okabe and Ito's palette, safe for the colour-blind); sign and word stand beside them, each
/// alone is enough.
struct Colours {
    QColor ground, ink;
};
[[nodiscard]] Colours colours_of(session::Tone tone);
[[nodiscard]] Cell verdict_cell(const QString& sign, const QString& word, session::Tone tone);

} // namespace zeroline::print
