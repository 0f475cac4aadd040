#include "gui/window/wiring_view.hpp"

#include "gui/charts/picture.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QEvent>
#include <QFontInfo>
#include <QGraphicsPathItem>
#include <QGraphicsScene>
#include <QGraphicsSimpleTextItem>

#include <algorithm>

namespace zeroline::window {

using session::Deed;
using session::StepKind;

namespace {

const QPointF kTee(200.0, 34.0);
constexpr double kWidest = 2.4;  ///< the drawing is drawn out to so many times its height
constexpr double kHose_px = 5.0; ///< how thick it is drawn
constexpr int kSmallestWords_px = 9;

std::set<WiringPart> touched(Deed deed)
{
    switch (deed) {
    case Deed::hose_off:
        return {WiringPart::hose};
    case Deed::open_line:
        return {WiringPart::sensing_line};
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
    case WiringPart::hose:
        return WiringView::tr("hose");
    case WiringPart::tee:
        return WiringView::tr("tee");
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
    } else if (view.deed == Deed::open_line && view.place == "Zero again") {
        wiring.touch.insert({WiringPart::unit, WiringPart::plug}); // off and out first
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
    if (drawn_) {
        draw();
    }
}

/// As wide as there is room, where it is low: the words keep the size of those around the drawing.
void WiringView::fit()
{
    const double down = viewport()->height() / whole_.height();
    const double across = std::min(viewport()->width() / whole_.width(), kWidest * down);
    across_ = across;
    setTransform(QTransform::fromScale(across, std::min(down, across)));
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
    QPen made(now ? QColor(accent) : palette().color(QPalette::WindowText), now ? 2.0 * width : width, Qt::SolidLine,
              Qt::RoundCap, Qt::RoundJoin);
    made.setCosmetic(true);
    return made;
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

/// As large as the words around the drawing; smaller where they are wider than their room.
void WiringView::words_at(const QPointF& middle, const QString& words, bool strong, double room)
{
    auto* item = scene_->addSimpleText(words);
    auto small = font();
    small.setBold(strong);
    const double room_px = room * across_;
    for (int size_px = QFontInfo(font()).pixelSize(); size_px >= kSmallestWords_px; --size_px) {
        small.setPixelSize(size_px);
        item->setFont(small);
        if (item->boundingRect().width() <= room_px) {
            break;
        }
    }
    item->setBrush(palette().color(QPalette::WindowText));
    item->setFlag(QGraphicsItem::ItemIgnoresTransformations);
    item->setPos(middle);
    const auto size = item->boundingRect().size();
    item->setTransform(QTransform::fromTranslate(-size.width() / 2.0, -size.height() / 2.0));
}

/// Round however the drawing is drawn out.
void WiringView::dot(WiringPart part, const QPointF& middle, double radius_px)
{
    auto* made = scene_->addEllipse(-radius_px, -radius_px, 2.0 * radius_px, 2.0 * radius_px, pen(part), brush(part));
    made->setFlag(QGraphicsItem::ItemIgnoresTransformations);
    made->setPos(middle);
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
    outline(WiringPart::unit, {8.0, 4.0, 92.0, 76.0});
    words_at({46.0, 16.0}, name_of(WiringPart::unit), wiring_.touch.contains(WiringPart::unit), 60.0);
    for (int key = 0; key < 3; ++key) {
        dot(WiringPart::panel, {22.0 + 12.0 * key, 62.0}, 4.0);
    }
    const QPointF foot(80.0, 62.0);
    scene_->addLine({foot, foot + QPointF(10.0 * wiring_.toggle, -24.0)}, pen(WiringPart::toggle, 2.5));
    dot(WiringPart::toggle, foot, 4.0);
    if (wiring_.toggle != 0) {
        words_at(foot + QPointF(0.0, -34.0), wiring_.toggle > 0 ? QStringLiteral("+") : QStringLiteral("\u2212"), true);
    }
}

void WiringView::draw_hose_end()
{
    auto hose = pen(WiringPart::hose);
    hose.setWidthF(kHose_px);
    hose.setCapStyle(Qt::FlatCap);
    scene_->addLine(100.0, kTee.y(), kTee.x() + 22.0, kTee.y(), hose);
    words_at({142.0, kTee.y() - 18.0}, name_of(WiringPart::hose), wiring_.touch.contains(WiringPart::hose), 60.0);
    outline(WiringPart::tee, {kTee.x() - 9.0, kTee.y() - 8.0, 18.0, 16.0});
    words_at({kTee.x(), kTee.y() - 18.0}, name_of(WiringPart::tee), false, 46.0);
    const double at = wiring_.plugged ? kTee.x() + 22.0 : kTee.x() + 50.0;
    QPainterPath plug;
    plug.addRoundedRect({at, kTee.y() - 9.0, 14.0, 18.0}, 3.0, 3.0);
    scene_->addPath(plug, pen(WiringPart::plug), brush(WiringPart::plug));
    words_at({at + 24.0, kTee.y() - 18.0}, name_of(WiringPart::plug), wiring_.touch.contains(WiringPart::plug), 54.0);
}

void WiringView::draw_line_and_transducer()
{
    const QPointF port(175.0, 88.0);
    QPainterPath line(port);
    if (wiring_.line_on) {
        line.cubicTo(port + QPointF(0.0, -22.0), kTee + QPointF(0.0, 34.0), kTee + QPointF(0.0, 8.0));
    } else {
        line.cubicTo(port + QPointF(0.0, -22.0), port + QPointF(30.0, -32.0), port + QPointF(48.0, -22.0));
    }
    scene_->addPath(line, pen(WiringPart::sensing_line, 2.2));
    // Beside the line where it is on the tee, else beyond its open end.
    words_at(wiring_.line_on ? QPointF(140.0, 62.0) : QPointF(262.0, 68.0), name_of(WiringPart::sensing_line),
             wiring_.touch.contains(WiringPart::sensing_line), 70.0);
    box(WiringPart::transducer, {126.0, 88.0, 112.0, 28.0}, name_of(WiringPart::transducer));
    scene_->addLine(108.0, 102.0, 126.0, 102.0, pen(WiringPart::computer));
    box(WiringPart::computer, {8.0, 88.0, 100.0, 28.0}, name_of(WiringPart::computer));
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
    fit();
    scene_->clear();
    draw_unit();
    draw_hose_end();
    draw_line_and_transducer();
    say_what_to_touch();
}

} // namespace zeroline::window
