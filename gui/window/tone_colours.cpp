#include "gui/window/tone_colours.hpp"

#include "gui/charts/picture.hpp"

#include <QLabel>
#include <QPalette>

#include <cmath>

namespace zeroline::window {

using session::Tone;

namespace {

double luminance(const QColor& colour)
{
    const auto linear = [](double part) {
        return part <= 0.03928 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF());
}

} // namespace

bool is_dark(const QPalette& palette) { return palette.color(QPalette::Window).lightness() < 128; }

QColor fill_of(Tone tone)
{
    switch (tone) {
    case Tone::pass:
        return QColor(charts::kGreen);
    case Tone::conditional:
        return QColor(charts::kOrange);
    case Tone::fail:
        return QColor(charts::kVermilion);
    case Tone::critical:
        return Qt::black; // fail, inverted: its colour is the writing
    case Tone::none:
    case Tone::incomplete:
        break;
    }
    return {};
}

QColor ink_on(Tone tone, const QPalette& palette)
{
    switch (tone) {
    case Tone::pass:
    case Tone::conditional:
    case Tone::fail:
        return Qt::black;
    case Tone::critical:
        return QColor(charts::kVermilion).lighter(125);
    case Tone::none:
    case Tone::incomplete:
        break;
    }
    return palette.color(QPalette::WindowText);
}

void fill_with(QLabel* label, Tone tone)
{
    constexpr int air_px = 6;
    const auto fill = fill_of(tone);
    const auto shape = QStringLiteral("QLabel { border-radius: 6px; background: %1; color: %2; }");
    label->setStyleSheet(fill.isValid() ? shape.arg(fill.name(), ink_on(tone, label->palette()).name()) : QString());
    label->setMargin(air_px);
}

double contrast(const QColor& a, const QColor& b)
{
    const double first = luminance(a) + 0.05;
    const double second = luminance(b) + 0.05;
    return first > second ? first / second : second / first;
}

} // namespace zeroline::window
