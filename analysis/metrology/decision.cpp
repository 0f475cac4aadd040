#include "analysis/metrology/decision.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::metrology {

namespace {

Outcome guarded(double distance, double guard) noexcept
{
    if (distance >= guard)
        return Outcome::pass;
    if (distance >= 0.0)
        return Outcome::conditional_pass;
    return distance >= -guard ? Outcome::conditional_fail : Outcome::fail;
}

} // namespace

std::string_view word_of(Outcome outcome) noexcept
{
    switch (outcome) {
    case Outcome::not_judged:
        return "not-judged";
    case Outcome::pass:
        return "pass";
    case Outcome::conditional_pass:
        return "conditional-pass";
    case Outcome::incomplete:
        return "incomplete";
    case Outcome::conditional_fail:
        return "conditional-fail";
    case Outcome::fail:
        return "fail";
    }
    return "";
}

std::string_view word_of(Rule rule) noexcept { return rule == Rule::simple ? "simple" : "guarded"; }

Outcome worse(Outcome a, Outcome b) noexcept { return std::max(a, b); }

bool is_fail(Outcome outcome) noexcept { return outcome == Outcome::conditional_fail || outcome == Outcome::fail; }

double margin(double value, Limits limits) noexcept
{
    double smallest = std::numeric_limits<double>::infinity();
    if (limits.lower)
        smallest = std::min(smallest, value - *limits.lower);
    if (limits.upper)
        smallest = std::min(smallest, *limits.upper - value);
    return smallest;
}

Outcome decide(double value, double expanded_uncertainty, Limits limits, Rule rule) noexcept
{
    if (!limits.lower && !limits.upper)
        return Outcome::not_judged;
    return guarded(margin(value, limits), rule == Rule::guarded ? expanded_uncertainty : 0.0);
}

bool too_uncertain(double value, double expanded_uncertainty, Limits limits) noexcept
{
    const auto wide = ratio(limits, expanded_uncertainty);
    return wide && *wide < 1.0 && margin(value, limits) >= -expanded_uncertainty;
}

std::optional<double> ratio(Limits limits, double expanded_uncertainty) noexcept
{
    if (expanded_uncertainty <= 0.0 || (!limits.lower && !limits.upper))
        return std::nullopt;
    if (limits.lower && limits.upper)
        return (*limits.upper - *limits.lower) / (2.0 * expanded_uncertainty);
    return std::abs(limits.upper ? *limits.upper : *limits.lower) / expanded_uncertainty;
}

double probability_outside(double value, const RectangleSum& spread, Limits limits)
{
    if (spread.first <= 0.0 && spread.rest <= 0.0)
        return margin(value, limits) < 0.0 ? 1.0 : 0.0;
    double outside = 0.0;
    if (limits.lower)
        outside += spread.above(value - *limits.lower);
    if (limits.upper)
        outside += spread.above(*limits.upper - value);
    return std::min(outside, 1.0);
}

double probability_outside(double value, double standard_uncertainty, double dof, Limits limits)
{
    return probability_outside(value, RectangleSum{0.0, 0.0, standard_uncertainty, dof}, limits);
}

} // namespace zeroline::metrology
