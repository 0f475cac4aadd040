#include "gui/session/shown_number.hpp"

#include <QLocale>

#include <cmath>

namespace zeroline::session {

namespace {

constexpr int kMostDecimals = 4;

double rounded(double value, int decimals)
{
    const double scale = std::pow(10.0, decimals);
    return std::round(value * scale) / scale + 0.0;
}

int decimals_of(double value)
{
    int decimals = 0;
    while (decimals < kMostDecimals && std::fabs(rounded(value, decimals) - value) > 1e-9) {
        ++decimals;
    }
    return decimals;
}

} // namespace

QString shown(double value, int decimals)
{
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    const double plain = rounded(value, decimals);
    return locale.toString(plain == 0.0 ? 0.0 : plain, 'f', decimals);
}

QString shown_signed(double value, int decimals)
{
    return (rounded(value, decimals) > 0.0 ? QStringLiteral("+") : QString()) + shown(value, decimals);
}

QString shown_short(double value) { return shown(value, decimals_of(value)); }

QString shown_short_signed(double value) { return shown_signed(value, decimals_of(value)); }

} // namespace zeroline::session
