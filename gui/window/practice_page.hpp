#pragma once

#include <QWidget>

class QListWidget;
class QPushButton;

namespace zeroline::window {

/// After a practice: what was it? Answered before anything of the result is shown.
class PracticePage : public QWidget {
    Q_OBJECT
public:
    explicit PracticePage(QWidget* parent = nullptr);

    /// For the next practice: nothing is chosen.
    void begin_anew();

Q_SIGNALS:
    void answered(const QString& code); ///< of a fault; empty: a healthy unit

private:
    void answer();

    QListWidget* answers_;
    QPushButton* that_is_it_;
};

} // namespace zeroline::window
