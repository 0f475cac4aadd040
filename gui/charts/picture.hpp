#pragma once

#include <QColor>
#include <QFont>
#include <QList>
#include <QLocale>
#include <QPointF>
#include <QString>

class QPalette;

namespace zeroline::charts {

/// Okabe and Ito, "Color Universal Design", 2008: a palette that the colour-blind can tell apart.
inline constexpr QRgb kBlue = 0xFF0072B2, kSkyBlue = 0xFF56B4E9, kGreen = 0xFF009E73, kOrange = 0xFFE69F00,
                      kVermilion = 0xFFD55E00;

/// One axis of a chart: from the lowest to the highest value that is shown.
struct Axis {
    double low = 0.0, high = 1.0;
    QString title;
    bool numbers = true;      ///< false: neither numbers nor a grid nor the axis itself
    QList<QString> rows = {}; ///< names that stand inside, right above 0, 1, 2, ..., from the bottom up
};

/// How an area looks and what it says.
enum class Ground {
    allowed,  ///< where a phase may lie
    now,      ///< the same of the phase that is going on
    expected, ///< the same of a phase that comes next
    zero,     ///< about the prescribed pause level
    missing,  ///< hatched: nothing is known here
    outside   ///< where a value may not lie
};

/// An area between two values of each axis; infinite: to the edge of the chart.
struct Area {
    double from = 0.0, to = 0.0, low = 0.0, high = 0.0;
    Ground ground = Ground::allowed;
    QString name = {}; ///< where it is not empty the legend shows it
};

/// How a line looks and what it is.
enum class Pen {
    trace,
    dense,    ///< a trace with many samples in each column of pixels: a hairline
    cycle,    ///< one of many
    unjudged, ///< one of many that counts for nothing
    median,
    earlier, ///< of an earlier visit
    target,  ///< what is prescribed
    limit,
    good, ///< thick, in the colour of a verdict
    doubtful,
    bad,
    pointer
};

/// A line, or points that are not joined. Where `name` is not empty the legend shows it.
struct Curve {
    QList<QPointF> points;
    Pen pen = Pen::trace;
    QString name = {};
    bool dots = false;
};

/// Words over a stretch, above the chart. Left out where they have no room; `tick`: a fine line where it begins.
struct Mark {
    double from = 0.0, to = 0.0;
    QString text;
    int row = 0; ///< 0 is next to the chart
    bool tick = true;
    bool faint = false;
};

/// What a chart shows, whoever draws it and on whatever.
struct Picture {
    Axis across, up;
    QList<Area> areas;
    QList<Curve> curves; ///< later ones lie over earlier ones
    QList<Mark> marks;
    QString said; ///< at the upper right: values under the pointer
    bool legend = false;
};

/// Colours and writing of a chart.
struct Look {
    QColor ground, ink, faint, trace;
    QColor good, doubtful, bad;
    QFont font;
    double line = 1.5; ///< width of a trace, in units of the chart
    bool dark = false;
    QLocale numbers = QLocale(); ///< how figures on the axes are written
};

/// On screen, on the ground of that palette; on dark ground the trace is the lighter blue.
[[nodiscard]] Look look_of(const QPalette& palette, const QFont& font);
/// On paper.
[[nodiscard]] Look look_of_paper(const QFont& font);

/// About `wanted` steps of 1, 2 or 5 times a power of ten fill that width.
[[nodiscard]] double round_step(double width, double wanted);

} // namespace zeroline::charts
