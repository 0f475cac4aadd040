#include "gui/print/verdict_cell.hpp"

namespace zeroline::print {

using session::Tone;

namespace {

const QColor kPassGround(0x00, 0x9E, 0x73);
const QColor kConditionalGround(0xE6, 0x9F, 0x00);
const QColor kFailGround(0xD5, 0x5E, 0x00);
const QColor kUnseenGround(0xDD, 0xDD, 0xDD);
const QColor kCriticalGround(0x7D, 0x37, 0x00);

} // namespace

Colours colours_of(Tone tone)
{
    switch (tone) {
    case Tone::none:
        return {Qt::white, Qt::black};
    case Tone::pass:
        return {kPassGround, Qt::black};
    case Tone::conditional:
        return {kConditionalGround, Qt::black};
    case Tone::incomplete:
        return {kUnseenGround, Qt::black};
    case Tone::fail:
        return {kFailGround, Qt::black};
    case Tone::critical:
        break;
    }
    return {kCriticalGround, Qt::white};
}

Cell verdict_cell(const QString& sign, const QString& word, Tone tone)
{
    const auto colours = colours_of(tone);
    return {.text = word,
            .bold = tone != Tone::none && tone != Tone::pass,
            .sign = sign,
            .ground = colours.ground,
            .sign_colour = colours.ink};
}

} // namespace zeroline::print
