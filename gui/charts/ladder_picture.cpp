#include "gui/charts/ladder_picture.hpp"

#include "gui/charts/limit_strips.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::charts {

namespace {

constexpr double kRoomBeside = 0.08; ///< beside the outermost points, as a share

void add_setting(Picture& picture, const session::LadderSetting& at)
{
    picture.curves << Curve{{{at.at, at.off - at.u}, {at.at, at.off + at.u}}, Pen::limit};
    picture.curves << Curve{{{at.at, at.off}}, pen_of(at.tone), {}, true};
}

} // namespace

Picture ladder_picture(const session::LadderView& ladder, const QString& set_title, const QString& error_title)
{
    double low = ladder.settings.front().at, high = low, most = 0.0;
    for (const auto& at : ladder.settings) {
        low = std::min(low, at.at);
        high = std::max(high, at.at);
        most = std::max(most, std::fabs(at.off) + at.u);
    }
    const double room = kRoomBeside * std::max(high - low, 1e-3);
    most = std::max(most * (1.0 + kRoomBeside), 1e-3);
    Picture picture;
    picture.across = {low - room, high + room, set_title};
    picture.up = {-most, most, error_title};
    const auto line = [&](double set) { return QPointF(set, (ladder.gain - 1.0) * set + ladder.offset); };
    picture.curves << Curve{{{low - room, 0.0}, {high + room, 0.0}}, Pen::target};
    picture.curves << Curve{{line(low), line(high)}, Pen::median};
    for (const auto& at : ladder.settings) {
        add_setting(picture, at);
    }
    return picture;
}

} // namespace zeroline::charts
