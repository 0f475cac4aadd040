#pragma once

#include "gui/session/judgement_model.hpp"

#include <QListView>

class QLabel;

namespace zeroline::window {

/// A card for each quantity of a run: what it is called, what was measured in large figures, what stands beside it, and
/// how it is judged. Read, not edited; one tab stop; Ctrl+C copies all of them as a table.
///
/// Cards stand beside each other where there is width for two. Where there is no height for all, what stands beside the
/// measured value gives way first; then the list scrolls, and says how many more there are. No word is cut: they go on
/// below.
class NumberCards : public QListView {
    Q_OBJECT
public:
    /// The model outlives the cards.
    NumberCards(const char* name, const QString& spoken, session::JudgementModel* model);

    /// The width in which they are read best: two abreast, or a line each with large letters.
    [[nodiscard]] int wanted_px() const;
    [[nodiscard]] QSize sizeHint() const override; ///< as high as all of them

protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void arrange();
    void lay_out(bool compact, bool scrolls);
    void say_how_many_more();
    [[nodiscard]] int content_px() const;

    session::JudgementModel* numbers_;
    int abreast_ = 1;
    QLabel* more_; ///< below the cards, where they go on
};

} // namespace zeroline::window
