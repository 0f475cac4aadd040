#include "gui/session/trace_viewport.hpp"

#include <algorithm>

namespace zeroline::session {

void TraceViewport::set_extent(double first_s, double last_s)
{
    first_s_ = first_s;
    last_s_ = last_s;
    if (live_) {
        follow();
    }
}

void TraceViewport::follow()
{
    width_s_ = live_s_;
    from_s_ = last_s_ - live_s_;
}

void TraceViewport::show_all()
{
    live_ = false;
    from_s_ = first_s_;
    width_s_ = std::max(kShortest_s, last_s_ - first_s_);
}

void TraceViewport::back_to_live()
{
    live_ = true;
    follow();
}

void TraceViewport::zoom(double factor, double share)
{
    const double fixed_s = at(share);
    const double longest_s = std::max(live_s_, last_s_ - first_s_);
    width_s_ = std::clamp(width_s_ * factor, kShortest_s, std::max(kShortest_s, longest_s));
    from_s_ = fixed_s - share * width_s_;
    live_ = false;
    keep_inside();
}

void TraceViewport::pan(double share)
{
    from_s_ += share * width_s_;
    live_ = false;
    keep_inside();
}

void TraceViewport::keep_inside()
{
    const double latest_s = std::max(first_s_, last_s_ - width_s_);
    from_s_ = std::clamp(from_s_, first_s_, latest_s);
}

} // namespace zeroline::session
