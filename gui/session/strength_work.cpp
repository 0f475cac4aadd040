#include "gui/session/strength_work.hpp"

#include "gui/session/run_words.hpp"

#include <algorithm>

namespace zeroline::session {

namespace {

constexpr double kBeforePressure_s = 1.5; ///< the span begins so long before pressure was recognised

} // namespace

bool StrengthWork::take(const LiveSample& sample, PressureWatch& watch)
{
    const auto dwells = watch.take();
    if (!from_s_) {
        begin(sample.time_s, watch);
        return false;
    }
    for (const auto& dwell : dwells) {
        desk().progress();
        if (dwell.kind == signal::PhaseKind::exsufflation && ++seen_ <= cycles_) {
            desk().say(News::Kind::seen, said(Run::tr("cycle %1 of %2 with the orifice").arg(seen_).arg(cycles_)));
        }
    }
    // The last exsufflation is measured once the level after it is there.
    if (seen_ >= cycles_ && (watch.still_for_s() > pause_s_ || watch.pressing())) {
        keep(sample.time_s);
        return true;
    }
    if (watch.still_for_s() > stall_s_) {
        desk().say(News::Kind::caution,
                   said(Run::tr("The unit has stopped: start automatic mode again, trigger off.")));
        from_s_.reset();
        seen_ = 0;
    }
    return false;
}

/// The unit was stopped, so that the plug could be changed for the orifice; then it cycles again.
void StrengthWork::begin(double at_s, const PressureWatch& watch)
{
    if (!stopped_at_s_ && watch.still_for_s() > pause_s_) {
        stopped_at_s_ = at_s;
    } else if (stopped_at_s_ && watch.pressing()) {
        from_s_ = std::max(*stopped_at_s_, at_s - kBeforePressure_s);
        desk().progress();
    }
}

void StrengthWork::keep(double to_s)
{
    verification::Span span;
    span.what = verification::SpanKind::strength;
    span.from_s = *from_s_;
    span.to_s = to_s;
    span.orifice = orifice_;
    desk().keep(std::move(span));
}

void StrengthWork::show(RunView& view) const
{
    view.progress = std::min(1.0, static_cast<double>(seen_) / cycles_);
    view.deed = from_s_ ? Deed::nothing : Deed::fit_orifice;
    if (from_s_) {
        view.sentence = said(Run::tr("Automatic with the orifice: hands off the hose end."));
    }
}

} // namespace zeroline::session
