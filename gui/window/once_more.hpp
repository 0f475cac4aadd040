#pragma once

#include <QWidget>

class QComboBox;
class QLineEdit;

namespace zeroline::window {

/// The same order once more, below a result: after an adjustment, or because the set-up was at fault. What has to be
/// said for each stands in front of its own button.
class OnceMore : public QWidget {
    Q_OBJECT
public:
    explicit OnceMore(QWidget* parent = nullptr);

    /// `agreed`: nobody looks for a fault in a set-up that did. `saved`: an as-left run needs an as-found record.
    void show_for(bool agreed, bool saved);

Q_SIGNALS:
    /// As ResultPage::wantsAgain().
    void wantsAgain(const QString& cause, const QString& said);
    void lacks(const QString& sentence); ///< what has to be said or done first

private:
    [[nodiscard]] QWidget* make_as_left();
    [[nodiscard]] QWidget* make_again();
    void ask_as_left();
    void ask_again();

    QLineEdit *done_, *evidence_;
    QComboBox* cause_;
    QWidget* at_fault_;
    bool saved_ = false;
};

} // namespace zeroline::window
