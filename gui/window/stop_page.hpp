#pragma once

#include <QWidget>

class QLabel;
class QPushButton;

namespace zeroline::window {

/// Fills the window when something critical was seen: what it is, and the one thing to do.
class StopPage : public QWidget {
    Q_OBJECT
public:
    explicit StopPage(QWidget* parent = nullptr);

    /// `next`: what is done once this has been understood; it stands on the button.
    void show_sentence(const QString& headline, const QString& sentence, const QString& contact, const QString& next);

Q_SIGNALS:
    void understood();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    QLabel *headline_, *sentence_, *contact_;
    QPushButton* understood_;
};

} // namespace zeroline::window
