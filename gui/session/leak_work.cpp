#include "gui/session/leak_work.hpp"

#include "gui/session/run_words.hpp"
#include "gui/session/shown_number.hpp"

#include <iterator>

namespace zeroline::session {

bool LeakWork::take(const LiveSample& sample, PressureWatch& watch)
{
    if (leaks_) {
        return false;
    }
    const auto rate = reading_.push({sample.time_s, watch.pressure_cmH2O()});
    if (reading_.follows()) {
        desk().progress();
    }
    if (!rate) {
        return false;
    }
    verification::Span span;
    span.what = verification::SpanKind::leak_test;
    span.from_s = reading_.from_s();
    span.to_s = sample.time_s;
    desk().keep(std::move(span));
    leaks_ = rate->loss_cmH2O_s > limit_cmH2O_s_;
    desk().say(leaks_ ? News::Kind::caution : News::Kind::seen, leak_told(*rate, limit_cmH2O_s_));
    return !leaks_ && next_side();
}

void LeakWork::confirm()
{
    if (leaks_) {
        leaks_ = false;
        ++tries_;
        reading_ = LeakReading(target_cmH2O(), 0.0);
        desk().progress();
    }
}

bool LeakWork::go_on() { return leaks_ && next_side(); }

bool LeakWork::next_side()
{
    leaks_ = false;
    desk().progress();
    if (++side_ == std::size(kLeakTargets_cmH2O)) {
        side_ = 0;
        return true;
    }
    reading_ = LeakReading(target_cmH2O(), 0.0);
    return false;
}

void LeakWork::show(RunView& view) const
{
    view.holds = side_ + tries_;
    view.can_confirm = view.can_go_on = leaks_;
    if (leaks_) {
        view.sentence = said(Run::tr("The set-up leaks: look at plug, tee, hose and sensing line, one after the other; "
                                     "then once more. Or go on: the record will say so."));
        view.waits_for = said(Run::tr("your word: once more, or go on with this leak (the record will be incomplete)"));
        return;
    }
    view.press_cmH2O = target_cmH2O();
    view.sentence =
        reading_.follows() ? said(Run::tr("Hands off: the pressure is followed.")) : leak_asked(target_cmH2O());
    view.progress = reading_.progress();
}

} // namespace zeroline::session
