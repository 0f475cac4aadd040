#pragma once

#include <QList>
#include <QString>
#include <QWidget>

namespace zeroline::window {

/// One place of a run, as the bar shows it.
struct StepPlace {
    QString name;
    bool done = false;
    bool left_out = false; ///< passed by without being done
};

/// Where the run is: Order > Instrument > Zero > ... > Result. What is done carries a tick, what was left out or
/// broken off a dash and a line through it; what is going on stands in bold on a filled ground. Where there is no room
/// for all, the step in progress and its number are shown.
class StepBar : public QWidget {
    Q_OBJECT
public:
    explicit StepBar(QWidget* parent = nullptr);

    /// The places in order, and the one that the run is at (by index).
    void show_steps(const QList<StepPlace>& places, int current);
    [[nodiscard]] int current() const noexcept { return current_; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QString text_of(int index) const; ///< with its sign
    [[nodiscard]] QString spoken() const;
    [[nodiscard]] int width_of_all() const;

    QList<StepPlace> places_;
    int current_ = 0;
};

} // namespace zeroline::window
