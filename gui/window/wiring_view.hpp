#pragma once

#include "gui/session/bench_run.hpp"

#include <QGraphicsView>

#include <set>

namespace zeroline::window {

/// Parts of the set-up at the bench that a hand touches.
enum class WiringPart { unit, panel, toggle, hose, tee, plug, sensing_line, transducer, computer };

/// How the set-up is to look during a step, and what to touch now.
struct Wiring {
    bool plugged = false;            ///< the hose end is shut
    bool line_on = false;            ///< the sensing line is on the tee; else it is open to the air
    int toggle = 0;                  ///< held towards insufflation: 1, exsufflation: -1
    std::set<WiringPart> touch = {}; ///< in colour
};
[[nodiscard]] Wiring wiring_of(const session::RunView& view);

/// The wiring as a drawing: unit, hose, tee, plug, sensing line, transducer, computer.
class WiringView : public QGraphicsView {
    Q_OBJECT
public:
    explicit WiringView(QWidget* parent = nullptr);

    void show_wiring(const Wiring& wiring);
    [[nodiscard]] const Wiring& shown() const noexcept { return wiring_; }

    /// It takes what others leave.
    [[nodiscard]] QSize sizeHint() const override { return minimumSizeHint(); }
    [[nodiscard]] QSize minimumSizeHint() const override { return {160, 84}; }

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    static constexpr double kWholeWidth = 300.0;
    const QRectF whole_{0.0, 0.0, kWholeWidth, 120.0};

    void draw();
    void fit();
    [[nodiscard]] QPen pen(WiringPart part, double width = 1.6) const;
    [[nodiscard]] QBrush brush(WiringPart part) const;
    void outline(WiringPart part, const QRectF& where);
    void box(WiringPart part, const QRectF& where, const QString& words);
    void words_at(const QPointF& middle, const QString& words, bool strong, double room = kWholeWidth);
    void dot(WiringPart part, const QPointF& middle, double radius_px);
    void draw_unit();
    void draw_hose_end();
    void draw_line_and_transducer();
    void say_what_to_touch();

    QGraphicsScene* scene_;
    Wiring wiring_;
    bool drawn_ = false;
    double across_ = 1.0; ///< pixels of a unit of width
};

} // namespace zeroline::window
