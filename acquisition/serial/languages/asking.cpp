#include "acquisition/serial/languages/asking.hpp"

#include <algorithm>

namespace zeroline::serial {

void Asking::restart()
{
    asked_s_.clear();
    began_ = false;
    an_answer_may_come_late_ = false;
    quiet_until_s_ = 0.0;
    last_heard_s_ = -plan_.silence_s;
    tries_ = 0;
}

bool Asking::due(double now_s) const { return asked_s_.size() < plan_.most_waiting && now_s >= due_s(); }

void Asking::ask(double now_s, bool counts)
{
    asked_s_.push_back(now_s);
    if (!counts || tries_ > 0) {
        return;
    }
    // A rhythm that was missed by more than a beat is taken up anew: no burst of requests makes up for it.
    const bool in_rhythm = began_ && now_s - next_reading_s_ < plan_.period_s;
    next_reading_s_ = (in_rhythm ? next_reading_s_ : now_s) + plan_.period_s;
    began_ = true;
}

bool Asking::overdue(double now_s) const { return waiting() && now_s >= overdue_s(); }

bool Asking::give_up(double now_s)
{
    unanswered_ += asked_s_.size();
    asked_s_.clear();
    an_answer_may_come_late_ = true;
    quiet_until_s_ = now_s;
    if (tries_ < plan_.retries) {
        ++tries_;
        return true;
    }
    tries_ = 0;
    return false;
}

std::optional<double> Asking::answered(double arrival_s)
{
    if (asked_s_.empty()) {
        return std::nullopt;
    }
    const double mid_s = 0.5 * (asked_s_.front() + arrival_s);
    latest_delay_s_ = arrival_s - asked_s_.front();
    asked_s_.pop_front();
    tries_ = 0;
    // This may have been the answer to a request given up before; the other one is let pass before the next request,
    // or every answer from here on would be taken for the next one's.
    if (an_answer_may_come_late_) {
        an_answer_may_come_late_ = false;
        quiet_until_s_ = arrival_s + plan_.timeout_s;
    }
    return mid_s;
}

void Asking::trust() { usual_delay_s_ = std::max(latest_delay_s_, 0.9 * usual_delay_s_.value_or(0.0)); }

void Asking::distrust(double now_s)
{
    quiet_until_s_ = now_s + std::min(plan_.timeout_s, 2.0 * usual_delay_s_.value_or(plan_.timeout_s));
}

double Asking::next_s() const
{
    if (asked_s_.size() >= plan_.most_waiting) {
        return overdue_s();
    }
    return waiting() ? std::min(due_s(), overdue_s()) : due_s();
}

double Asking::due_s() const
{
    const double free_s = std::max(quiet_until_s_, last_heard_s_ + plan_.silence_s);
    return began_ && tries_ == 0 ? std::max(free_s, next_reading_s_) : free_s;
}

double Asking::overdue_s() const { return asked_s_.front() + plan_.request_s + plan_.timeout_s; }

} // namespace zeroline::serial
