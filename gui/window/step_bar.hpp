#pragma once

#include <QStringList>
#include <QWidget>

namespace zeroline::window {

/// Where the run is: Order > Instrument > Zero > ... > Result. What is done carries a tick, what is going on stands in
/// bold on a filled ground. Where there is no room for all, the step in progress and its number are shown.
class StepBar : public QWidget {
    Q_OBJECT
public:
    explicit StepBar(QWidget* parent = nullptr);

    /// The places in order, and the one that the run is at (by index).
    void show_steps(const QStringList& places, int current);
    [[nodiscard]] int current() const noexcept { return current_; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QString text_of(int index) const;
    [[nodiscard]] int width_of_all() const;

    QStringList places_;
    int current_ = 0;
};

} // namespace zeroline::window
