#include "gui/window/step_bar.hpp"

#include "gui/window/page_parts.hpp"

#include <QPainter>

namespace zeroline::window {

namespace {

constexpr int kPad_px = 8;
const QString kBetween = QStringLiteral("\u203A"); // a single angle: "goes on to"

QFont bold(QFont font)
{
    font.setBold(true);
    return font;
}

QFont struck_out(QFont font)
{
    font.setStrikeOut(true);
    return font;
}

} // namespace

StepBar::StepBar(QWidget* parent) : QWidget(parent)
{
    named(this, "steps", tr("steps of the run"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void StepBar::show_steps(const QList<StepPlace>& places, int current)
{
    places_ = places;
    current_ = current;
    setAccessibleDescription(spoken());
    update();
}

QString StepBar::spoken() const
{
    if (current_ < 0 || current_ >= places_.size()) {
        return {};
    }
    QStringList left_out;
    for (const auto& place : places_) {
        if (place.left_out) {
            left_out << place.name;
        }
    }
    const auto now = tr("step %1 of %2: %3").arg(current_ + 1).arg(places_.size()).arg(places_.at(current_).name);
    return left_out.isEmpty() ? now : now + u' ' + tr("(not done: %1)").arg(left_out.join(QStringLiteral(", ")));
}

QString StepBar::text_of(int index) const
{
    const auto& place = places_.at(index);
    const auto sign = place.done ? QStringLiteral("\u2713 ") : place.left_out ? QStringLiteral("\u2013 ") : QString();
    return index == current_ ? place.name : sign + place.name;
}

int StepBar::width_of_all() const
{
    const QFontMetrics metrics(bold(font()));
    int width = 0;
    for (int i = 0; i < places_.size(); ++i) {
        width += metrics.horizontalAdvance(text_of(i)) + 2 * kPad_px;
    }
    return width + static_cast<int>(places_.size()) * metrics.horizontalAdvance(kBetween);
}

QSize StepBar::sizeHint() const { return {400, fontMetrics().height() + 2 * kPad_px}; }
QSize StepBar::minimumSizeHint() const { return {200, sizeHint().height()}; }

void StepBar::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const bool all = width_of_all() <= width();
    int left = 0;
    for (int i = 0; i < places_.size(); ++i) {
        const bool now = i == current_;
        if (!all && !now) {
            continue;
        }
        const auto text = all ? text_of(i) : tr("%1 of %2: %3").arg(i + 1).arg(places_.size()).arg(places_.at(i).name);
        painter.setFont(now ? bold(font()) : places_.at(i).left_out ? struck_out(font()) : font());
        const QRect box(left, 0, painter.fontMetrics().horizontalAdvance(text) + 2 * kPad_px, height());
        if (now) {
            constexpr int beside = 3; // left free for the signs between the steps
            constexpr double corner = 6.0;
            painter.setBrush(palette().brush(QPalette::Highlight));
            painter.setPen(Qt::NoPen);
            painter.setRenderHint(QPainter::Antialiasing);
            painter.drawRoundedRect(box.adjusted(left > 0 ? beside : 0, 0, -beside, 0), corner, corner);
        }
        painter.setPen(palette().color(now ? QPalette::HighlightedText : QPalette::WindowText));
        painter.drawText(box, Qt::AlignCenter, text);
        left = box.right() + 1;
        if (all && i + 1 < places_.size()) {
            painter.setFont(font());
            painter.setPen(palette().color(QPalette::WindowText));
            const int between = painter.fontMetrics().horizontalAdvance(kBetween);
            painter.drawText(QRect(left, 0, between, height()), Qt::AlignCenter, kBetween);
            left += between;
        }
    }
}

} // namespace zeroline::window
