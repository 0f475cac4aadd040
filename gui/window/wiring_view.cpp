#include "gui/window/wiring_view.hpp"

#include "gui/charts/picture.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QEvent>
#include <QGraphicsPathItem>
#include <QGraphicsScene>
#include <QGraphicsSimpleTextItem>

namespace zeroline::window {

using session::Deed;
using session::StepKind;

namespace {

const QPointF kTee(205.0, 45.0);

std::set<WiringPart> touched(Deed deed)
{
    switch (deed) {
    case Deed::open_line:
        return {WiringPart::plug, WiringPart::sensing_line};
    case Deed::plug_and_hold:
        return {WiringPart::plug, WiringPart::sensing_line, WiringPart::toggle};
    case Deed::insufflate:
    case Deed::exsufflate:
    case Deed::let_go:
        return {WiringPart::toggle};
    case Deed::start_automatic:
    case Deed::stop_unit:
    case Deed::select_preset:
    case Deed::dial:
    case Deed::dial_back:
        return {WiringPart::panel};
    case Deed::press_syringe:
    case Deed::fit_orifice:
    case Deed::put_plug_back:
        return {WiringPart::plug};
    case Deed::make_safe:
        return {WiringPart::panel, WiringPart::plug, WiringPart::sensing_line};
    case Deed::nothing:
        break;
    }
    return {};
}

QString name_of(WiringPart part)
{
    switch (part) {
    case WiringPart::unit:
        return WiringView::tr("unit");
    case WiringPart::panel:
        return WiringView::tr("keys of the unit");
    case WiringPart::toggle:
        return WiringView::tr("lever");
    case WiringPart::plug:
        return WiringView::tr("plug");
    case WiringPart::sensing_line:
        return WiringView::tr("sensing line");
    case WiringPart::transducer:
        return WiringView::tr("transducer");
    case WiringPart::computer:
        return WiringView::tr("computer");
    }
    return {};
}

} // namespace

Wiring wiring_of(const session::RunView& view)
{
    Wiring wiring;
    wiring.touch = touched(view.deed);
    const bool open = view.step == StepKind::zero_before || view.step == StepKind::zero_after ||
                      view.step == StepKind::hand_back || view.step == StepKind::confirm;
    wiring.plugged = wiring.line_on = !open;
    wiring.toggle = view.deed == Deed::insufflate ? 1 : view.deed == Deed::exsufflate ? -1 : 0;
    if (view.line_lost) {
        wiring.touch = {WiringPart::transducer, WiringPart::computer};
    } else if (wiring.touch.empty() && view.step == StepKind::zero_before) {
        wiring.touch = {WiringPart::sensing_line};
    } else if (wiring.touch.empty() && view.step == StepKind::confirm) {
        wiring.touch = {WiringPart::unit};
    }
    return wiring;
}

WiringView::WiringView(QWidget* parent) : QGraphicsView(parent), scene_(new QGraphicsScene(this))
{
    named(this, "wiring", tr("the wiring, and what to touch now"));
    setScene(scene_);
    setSceneRect(whole_);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    viewport()->setFocusPolicy(Qt::NoFocus);
    setInteractive(false);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setRenderHint(QPainter::Antialiasing);
    setBackgroundRole(QPalette::Base);
}

void WiringView::show_wiring(const Wiring& wiring)
{
    const bool same = drawn_ && wiring.plugged == wiring_.plugged && wiring.line_on == wiring_.line_on &&
                      wiring.toggle == wiring_.toggle && wiring.touch == wiring_.touch;
    wiring_ = wiring;
    if (!same) {
        draw();
    }
}

void WiringView::resizeEvent(QResizeEvent* event)
{
    QGraphicsView::resizeEvent(event);
    fitInView(whole_, Qt::KeepAspectRatio);
}

void WiringView::changeEvent(QEvent* event)
{
    QGraphicsView::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && drawn_) {
        draw();
    }
}

QPen WiringView::pen(WiringPart part, double width) const
{
    const bool now = wiring_.touch.contains(part);
    const auto accent = is_dark(palette()) ? charts::kSkyBlue : charts::kBlue;
    return QPen(now ? QColor(accent) : palette().color(QPalette::WindowText), now ? 2.0 * width : width, Qt::SolidLine,
                Qt::RoundCap, Qt::RoundJoin);
}

QBrush WiringView::brush(WiringPart part) const
{
    if (!wiring_.touch.contains(part)) {
        return Qt::NoBrush;
    }
    QColor fill(is_dark(palette()) ? charts::kSkyBlue : charts::kBlue);
    fill.setAlphaF(0.25F);
    return fill;
}

/// Smaller where they are wider than their room.
void WiringView::words_at(const QPointF& middle, const QString& words, bool strong, double room)
{
    constexpr int usual_px = 11, least_px = 7;
    auto* item = scene_->addSimpleText(words);
    auto small = font();
    small.setBold(strong);
    for (int size_px = usual_px; size_px >= least_px; --size_px) {
        small.setPixelSize(size_px);
        item->setFont(small);
        if (item->boundingRect().width() <= room) {
            break;
        }
    }
    item->setBrush(palette().color(QPalette::WindowText));
    const auto size = item->boundingRect().size();
    item->setPos(middle - QPointF(size.width() / 2.0, size.height() / 2.0));
}

void WiringView::outline(WiringPart part, const QRectF& where)
{
    QPainterPath path;
    path.addRoundedRect(where, 6.0, 6.0);
    scene_->addPath(path, pen(part), brush(part));
}

void WiringView::box(WiringPart part, const QRectF& where, const QString& words)
{
    outline(part, where);
    words_at(where.center(), words, wiring_.touch.contains(part), where.width() - 2.0 * kAir_px);
}

/// The unit with its keys, and the lever that is pushed towards insufflation or pulled towards exsufflation.
void WiringView::draw_unit()
{
    outline(WiringPart::unit, {8.0, 15.0, 92.0, 88.0});
    words_at({54.0, 28.0}, name_of(WiringPart::unit), wiring_.touch.contains(WiringPart::unit));
    for (int key = 0; key < 3; ++key) {
        scene_->addEllipse(20.0 + 13.0 * key, 78.0, 9.0, 9.0, pen(WiringPart::panel), brush(WiringPart::panel));
    }
    const QPointF foot(78.0, 70.0);
    scene_->addLine({foot, foot + QPointF(14.0 * wiring_.toggle, -22.0)}, pen(WiringPart::toggle, 2.5));
    scene_->addEllipse(foot.x() - 4.0, foot.y() - 4.0, 8.0, 8.0, pen(WiringPart::toggle), brush(WiringPart::toggle));
    if (wiring_.toggle != 0) {
        words_at(foot + QPointF(0.0, -32.0), wiring_.toggle > 0 ? QStringLiteral("+") : QStringLiteral("\u2212"), true);
    }
}

void WiringView::draw_hose_end()
{
    QPen hose(palette().color(QPalette::WindowText), 6.0, Qt::SolidLine, Qt::FlatCap);
    scene_->addLine(100.0, kTee.y(), kTee.x() + 12.0, kTee.y(), hose);
    const double at = wiring_.plugged ? kTee.x() + 12.0 : kTee.x() + 38.0;
    QPainterPath plug;
    plug.addRoundedRect({at, kTee.y() - 9.0, 16.0, 18.0}, 3.0, 3.0);
    scene_->addPath(plug, pen(WiringPart::plug), brush(WiringPart::plug));
    words_at({at + 12.0, kTee.y() - 20.0}, name_of(WiringPart::plug), wiring_.touch.contains(WiringPart::plug));
}

void WiringView::draw_line_and_transducer()
{
    const QPointF port(175.0, 112.0);
    QPainterPath line(port);
    if (wiring_.line_on) {
        line.cubicTo(port + QPointF(0.0, -30.0), kTee + QPointF(0.0, 40.0), kTee + QPointF(0.0, 4.0));
    } else {
        line.cubicTo(port + QPointF(0.0, -26.0), port + QPointF(34.0, -40.0), port + QPointF(52.0, -28.0));
    }
    scene_->addPath(line, pen(WiringPart::sensing_line, 2.2));
    // Beside the line where it is on the tee, else below its open end.
    words_at(wiring_.line_on ? QPointF(138.0, 84.0) : QPointF(258.0, 100.0), name_of(WiringPart::sensing_line),
             wiring_.touch.contains(WiringPart::sensing_line));
    box(WiringPart::transducer, {126.0, 112.0, 98.0, 28.0}, name_of(WiringPart::transducer));
    scene_->addLine(108.0, 126.0, 126.0, 126.0, pen(WiringPart::computer));
    box(WiringPart::computer, {22.0, 112.0, 86.0, 28.0}, name_of(WiringPart::computer));
}

void WiringView::say_what_to_touch()
{
    QStringList names;
    for (const auto part : wiring_.touch) {
        names << name_of(part);
    }
    setAccessibleDescription(names.isEmpty() ? QString()
                                             : tr("To touch now: %1").arg(names.join(QStringLiteral(", "))));
    setToolTip(accessibleDescription());
}

void WiringView::draw()
{
    drawn_ = true;
    scene_->clear();
    draw_unit();
    draw_hose_end();
    draw_line_and_transducer();
    say_what_to_touch();
    fitInView(whole_, Qt::KeepAspectRatio);
}

} // namespace zeroline::window
