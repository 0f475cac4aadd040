#include "gui/charts/picture.hpp"

#include <QPalette>

#include <algorithm>
#include <cmath>

namespace zeroline::charts {

namespace {

Look coloured(const QColor& ground, const QColor& ink, bool dark, const QFont& font)
{
    auto faint = ink;
    faint.setAlphaF(0.15F);
    return {ground,
            ink,
            faint,
            QColor(dark ? kSkyBlue : kBlue),
            QColor(kGreen),
            QColor(kOrange),
            QColor(kVermilion),
            font,
            1.5,
            dark,
            QLocale()};
}

} // namespace

Look look_of(const QPalette& palette, const QFont& font)
{
    const bool dark = palette.color(QPalette::Window).lightness() < 128;
    return coloured(palette.color(QPalette::Base), palette.color(QPalette::WindowText), dark, font);
}

Look look_of_paper(const QFont& font)
{
    auto look = coloured(Qt::transparent, QColor(0x30, 0x30, 0x30), false, font);
    look.line = 0.9;
    look.numbers = QLocale::c(); // a record page is in one language
    return look;
}

double round_step(double width, double wanted)
{
    const double rough = width / std::max(wanted, 1.0);
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    const double share = rough / power;
    return power * (share < 1.5 ? 1.0 : share < 3.5 ? 2.0 : share < 7.5 ? 5.0 : 10.0);
}

} // namespace zeroline::charts
