#include "gui/charts/limit_strips.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <limits>

namespace zeroline::charts {

namespace {

constexpr double kHalf = 0.17;  ///< of a strip's height, of the distance between two
constexpr double kBelow = 0.25; ///< of its middle, below its name
constexpr double kLeast = -0.5, kMost = 1.5;
constexpr double kFarthest = 6.0; ///< a value that is off by more limits' widths stands at the edge

struct LimitStrips {
    Q_DECLARE_TR_FUNCTIONS(LimitStrips)
};

struct Strip {
    const session::ResultRow* row;
    StripScale scale;
};

std::vector<Strip> strips_of(const std::vector<session::ResultRow>& rows)
{
    std::vector<Strip> strips;
    for (const auto& row : rows) {
        if (const auto scale = row.is.worst ? StripScale::of(row.is) : std::nullopt) {
            strips.push_back({&row, *scale});
        }
    }
    std::reverse(strips.begin(), strips.end());
    return strips;
}

/// What the strip is of, and the figure that counts.
QString name_of(const session::ResultRow& row, bool several_presets)
{
    const auto preset = several_presets ? row.is.preset + QStringLiteral(": ") : QString();
    return preset + row.name + QStringLiteral("  ") + row.worst + u' ' + row.is.unit + u' ' + row.sign;
}

void add(Picture& picture, const Strip& strip, double height)
{
    const auto& is = strip.row->is;
    constexpr double open = std::numeric_limits<double>::infinity();
    const auto pen = pen_of(strip.row->tone);
    const auto place = [&](double value) { return std::clamp(strip.scale.at(value), -kFarthest, 1.0 + kFarthest); };
    picture.areas << Area{strip.scale.open_below ? -open : 0.0, strip.scale.open_above ? open : 1.0, height - kHalf,
                          height + kHalf, Ground::allowed};
    if (is.prescribed) {
        const double at = place(*is.prescribed);
        picture.curves << Curve{{{at, height - kHalf}, {at, height + kHalf}}, Pen::target};
    }
    if (is.mean) {
        picture.curves << Curve{{{place(*is.mean), height}}, Pen::median, {}, true};
    }
    const double worst = place(*is.worst);
    if (worst < 0.0 || worst > 1.0) { // what lies far outside still belongs to its strip
        picture.curves << Curve{{{std::clamp(worst, 0.0, 1.0), height}, {worst, height}}, Pen::limit};
    }
    if (is.expanded_uncertainty) {
        picture.curves << Curve{{{place(*is.worst - *is.expanded_uncertainty), height},
                                 {place(*is.worst + *is.expanded_uncertainty), height}},
                                pen};
    }
    picture.curves << Curve{{{worst, height}}, pen, {}, true};
    picture.across.low = std::min(picture.across.low, worst - 0.2);
    picture.across.high = std::max(picture.across.high, worst + 0.2);
}

} // namespace

Pen pen_of(session::Tone tone)
{
    switch (tone) {
    case session::Tone::pass:
        return Pen::good;
    case session::Tone::fail:
    case session::Tone::critical:
        return Pen::bad;
    case session::Tone::conditional:
    case session::Tone::incomplete:
    case session::Tone::none:
        break;
    }
    return Pen::doubtful;
}

std::optional<StripScale> StripScale::of(const session::JudgementRow& row)
{
    if (!row.has_limits()) {
        return std::nullopt;
    }
    StripScale scale;
    scale.open_below = !row.lower;
    scale.open_above = !row.upper;
    const double middle = row.prescribed.value_or(0.0);
    scale.lower = row.lower ? *row.lower : middle - std::fabs(*row.upper - middle);
    scale.upper = row.upper ? *row.upper : middle + std::fabs(middle - *row.lower);
    if (scale.open_below && !row.known().has_sign() && *row.upper > 0.0) {
        scale.lower = 0.0;
        scale.open_below = false;
    }
    return scale.upper > scale.lower ? std::optional(scale) : std::nullopt;
}

Picture limit_strips(const std::vector<session::ResultRow>& rows)
{
    const auto strips = strips_of(rows);
    const bool several = std::any_of(strips.begin(), strips.end(), [&](const Strip& strip) {
        return strip.row->is.preset != strips.front().row->is.preset;
    });
    Picture picture;
    picture.across = {kLeast, kMost, {}, false};
    picture.up = {-0.5, static_cast<double>(strips.size()) - 0.4, {}, false};
    for (std::size_t i = 0; i < strips.size(); ++i) {
        picture.up.rows << name_of(*strips[i].row, several);
        add(picture, strips[i], static_cast<double>(i) - kBelow);
    }
    if (strips.empty()) {
        picture.up = {0.0, 1.0, {}, false};
    } else {
        picture.marks << Mark{picture.across.low,
                              picture.across.high,
                              LimitStrips::tr("worst value against its limits, with U"),
                              0,
                              false,
                              true};
    }
    return picture;
}

} // namespace zeroline::charts
