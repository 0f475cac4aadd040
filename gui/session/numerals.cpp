#include "gui/session/numerals.hpp"

#include "gui/session/number_text.hpp"

#include <QLocale>

#include <cmath>
#include <utility>

namespace zeroline::session {

namespace {

const QString kMinus = QString::fromUtf8("\u2212");
const QString kDash = QString::fromUtf8("\u2013");

} // namespace

Numerals::Numerals(QString mark, QString minus, QString nothing)
    : mark_(std::move(mark)), minus_(std::move(minus)), nothing_(std::move(nothing))
{
}

Numerals::Numerals(const std::string& language)
    : Numerals(language.starts_with("de") ? QStringLiteral(",") : QStringLiteral("."), kMinus, kDash)
{
}

Numerals Numerals::of_the_screen()
{
    const QLocale locale;
    return {locale.decimalPoint(), locale.negativeSign(), kDash};
}

Numerals Numerals::of_the_terminal() { return {QStringLiteral("."), QStringLiteral("-"), QStringLiteral("-")}; }

QString Numerals::in_words(const std::string& text) const
{
    // One pass: a mark may be what the other sign is made of.
    QString words;
    for (const char letter : text) {
        words += letter == '.' ? mark_ : letter == '-' ? minus_ : QString(QLatin1Char(letter));
    }
    return words;
}

QString Numerals::fixed(const std::optional<double>& value, int decimals) const
{
    return value ? in_words(fixed_text(*value, decimals)) : nothing_;
}

QString Numerals::signed_fixed(const std::optional<double>& value, int decimals) const
{
    return value ? in_words(signed_fixed_text(*value, decimals)) : nothing_;
}

QString Numerals::plain(const std::optional<double>& value) const
{
    return value ? in_words(number_text(*value)) : nothing_;
}

QString Numerals::signed_plain(const std::optional<double>& value) const
{
    return value ? in_words(signed_text(*value)) : nothing_;
}

QString Numerals::uncertainty(const std::optional<double>& value, int decimals) const
{
    constexpr int kMostDecimals = 6;
    int digits = decimals;
    for (double step = std::pow(10.0, -digits); value && *value > 0.0 && *value < 10.0 * step && digits < kMostDecimals;
         step /= 10.0) {
        ++digits;
    }
    return fixed(value, digits);
}

} // namespace zeroline::session
