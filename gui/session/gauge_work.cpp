#include "gui/session/gauge_work.hpp"

#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

namespace zeroline::session {

bool GaugeWork::take(const LiveSample& sample, PressureWatch& /*watch*/)
{
    check_.push(sample);
    return false;
}

bool GaugeWork::answer(double value, double last_digit)
{
    if (check_.done()) {
        return false;
    }
    if (const auto trouble = check_.take(value, last_digit); !trouble.empty()) {
        desk().say(News::Kind::caution, trouble);
        return false;
    }
    const auto& point = check_.check().points.back();
    desk().say(News::Kind::seen,
               said(Run::tr("second gauge %1, instrument %2, error %3 cmH2O (U %4)")
                        .arg(shown_signed(point.gauge_cmH2O, 2), shown_signed(point.reading_cmH2O, 2),
                             shown_signed(point.error_cmH2O(), 2), shown(point.uncertainty_cmH2O, 2))));
    if (check_.done()) {
        desk().keep(check_.check());
    }
    return check_.done();
}

void GaugeWork::show(RunView& view) const
{
    view.holds = check_.taken();
    if (check_.done()) {
        return;
    }
    view.press_cmH2O = check_.wanted_cmH2O();
    view.sentence = check_.question();
    view.expects = check_.unit();
    view.progress = check_.share_done();
}

} // namespace zeroline::session
