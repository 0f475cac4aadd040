#include "analysis/verification/criticals.hpp"

#include "analysis/verification/figures.hpp"
#include "analysis/verification/findings/breath.hpp"
#include "analysis/verification/response.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace zeroline::verification {

namespace {

using signal::Phase;
using signal::PhaseKind;

/// Farther from zero than its limits allow.
bool over(const std::string& name, double plateau, const Preset& nominal, const Evidence& evidence)
{
    if (std::abs(plateau) >= kBeyondAnyUnit_cmH2O) {
        return false;
    }
    const auto limits = limits_of(name, nominal, *evidence.order, evidence.house);
    return name == measurand::insufflation_pressure ? limits.upper && plateau > *limits.upper
                                                    : limits.lower && plateau < *limits.lower;
}

bool in_the_way(const std::vector<Hindrance>& hindrances, const std::string& code)
{
    return std::any_of(hindrances.begin(), hindrances.end(),
                       [&](const Hindrance& hindrance) { return hindrance.reason.code == code; });
}

/// How a possible critical begins and ends. A reading that may be in another unit of pressure is believed until the
/// instrument is cleared: a unit's own display is no witness, it is often the transducer that steers it.
void word_possible(std::string& text, const std::vector<Hindrance>& hindrances, bool within_u)
{
    text = (within_u ? "Possible, beyond its limit by no more than its uncertainty: "
                     : "Possible, but the evidence does not allow to say so: ") +
           text;
    if (in_the_way(hindrances, "soft-hose-end") || in_the_way(hindrances, "breathing"))
        text = "Is someone connected? Take the hose off the person. " + text;
    text += in_the_way(hindrances, "unit-mismatch")
                ? ": keep this unit out of use until the instrument is checked against a second gauge or the run is "
                  "repeated with another instrument."
                : ": keep this unit out of use until the run is repeated.";
}

bool within(const std::string& name, double plateau, const Preset& nominal, const Evidence& evidence)
{
    return metrology::margin(plateau, limits_of(name, nominal, *evidence.order, evidence.house)) >= 0.0;
}

double median_of_three(double a, double b, double c) { return std::max(std::min(a, b), std::min(std::max(a, b), c)); }

/// Longest time the pressure of a phase stayed beyond `limit`; a single sample that dips or rises alone does not count.
double longest_beyond_s(const signal::Samples& samples, const Phase& phase, double limit)
{
    const auto& time = samples.time_s;
    const auto magnitude = [&](std::size_t i) { return std::abs(samples.pressure_cmH2O[i]); };
    double longest = 0.0;
    double since = 0.0;
    bool beyond = false;
    const std::size_t last = std::min(phase.last, samples.size());
    for (std::size_t i = std::max<std::size_t>(phase.first, 1); i + 1 < last; ++i) {
        const bool now = median_of_three(magnitude(i - 1), magnitude(i), magnitude(i + 1)) > limit;
        since = now && !beyond ? time[i] : since;
        longest = now ? std::max(longest, time[i] - since) : longest;
        beyond = now;
    }
    return longest;
}

class Watch {
public:
    Watch(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& hindrances)
        : measured_trace_(measured_trace), evidence_(*measured_trace.evidence), hindrances_(hindrances)
    {
    }

    std::vector<Critical> all()
    {
        for (const auto& cycle : measured_trace_.cycles) {
            look_at(cycle);
        }
        for (const auto& measured : measured_trace_.spans) {
            look_at_order(measured);
            look_at_signs(measured);
        }
        return std::move(found_);
    }

private:
    void look_at(const Cycle& cycle)
    {
        // A reading that stuck may have stuck on a ring: what it shows is not a plateau.
        if (cycle.why_not_judged == "stuck-reading") {
            return;
        }
        for (const auto* phase : {&cycle.insufflation, &cycle.exsufflation}) {
            if (*phase) {
                look_at_plateau(cycle, **phase);
                look_at_peak(cycle, **phase);
            }
        }
    }

    void look_at_plateau(const Cycle& cycle, const Phase& phase)
    {
        // What has been seen of a cut phase may be its overshoot only.
        if (phase.cut()) {
            return;
        }
        const auto& name = name_of(phase.kind);
        const auto it = cycle.quantities.find(name);
        if (it == cycle.quantities.end()) {
            return;
        }
        const auto& measured = span_of(measured_trace_, cycle);
        const bool ladder = measured.span.what == SpanKind::ladder;
        const double plateau = it->second.value;
        const auto& nominal = ladder ? measured.set : *measured.prescribed;
        if (!over(name, plateau, nominal, evidence_)) {
            return;
        }
        const auto limits = limits_of(name, nominal, *evidence_.order, evidence_.house);
        add({{"over-pressure", name + " (" + cycle.preset + "): " + figure(plateau) + " cmH2O in cycle " +
                                   std::to_string(cycle.index) + ", limits " + words_of(limits, "cmH2O")},
             name,
             cycle.preset,
             cycle.index,
             !ladder,
             !within(name, plateau, measured.set, evidence_),
             metrology::margin(plateau, limits) >= -it->second.expanded.expanded_uncertainty});
    }

    void look_at_peak(const Cycle& cycle, const Phase& phase)
    {
        const auto limit = peak_limit();
        if (!limit) {
            return;
        }
        const double held_s = longest_beyond_s(measured_trace_.samples, phase, *limit);
        const auto at = cycle.quantities.find(name_of(phase.kind));
        look_at_hidden_peak(cycle, phase, *limit, held_s);
        const double u = at == cycle.quantities.end() ? 0.0 : at->second.expanded.expanded_uncertainty;
        const bool sure = longest_beyond_s(measured_trace_.samples, phase, *limit + u) > evidence_.house.peak_hold_s;
        if (held_s > evidence_.house.peak_hold_s) {
            const bool ladder = span_of(measured_trace_, cycle).span.what == SpanKind::ladder;
            add({{"peak-held", "The pressure stayed beyond " + figure(*limit) + " cmH2O for " + figure(held_s) +
                                   " s in cycle " + std::to_string(cycle.index)},
                 name_of(phase.kind),
                 cycle.preset,
                 cycle.index,
                 !ladder,
                 true,
                 !sure});
        }
    }

    /// Behind a slow sensor or a long sensing line a peak may have been held that the readings do not show.
    void look_at_hidden_peak(const Cycle& cycle, const Phase& phase, double limit, double held_s)
    {
        const auto& name = name_of(phase.kind);
        const auto at =
            cycle.quantities.find(phase.kind == PhaseKind::insufflation ? "insufflation-peak" : "exsufflation-peak");
        if (at == cycle.quantities.end() || held_s > evidence_.house.peak_hold_s)
            return;
        const double most = std::abs(at->second.value) + response_share(at->second);
        const double lag = lag_s(*evidence_.instrument->response_ms);
        if (most > limit && lag > 0.5 * evidence_.house.peak_hold_s)
            add({{"peak-held", "The pressure may have stayed beyond " + figure(limit) +
                                   " cmH2O: behind a sensor this slow "
                                   "it may have reached " +
                                   figure(most) + " cmH2O in cycle " + std::to_string(cycle.index)},
                 name,
                 cycle.preset,
                 cycle.index,
                 span_of(measured_trace_, cycle).span.what != SpanKind::ladder,
                 true,
                 true});
    }

    /// Half-width of what the response may hide.
    [[nodiscard]] static double response_share(const Cycle::Quantity& peak)
    {
        const auto at = std::find_if(peak.budget.begin(), peak.budget.end(),
                                     [](const auto& entry) { return entry.name == "response"; });
        return at == peak.budget.end() ? 0.0 : at->value;
    }

    [[nodiscard]] std::optional<double> peak_limit() const
    {
        const auto& own = evidence_.order->tolerances.peak_limit_cmH2O;
        return own ? own : evidence_.house.tolerances.peak_limit_cmH2O;
    }

    void look_at_order(const MeasuredSpan& measured)
    {
        if (measured.reversed) {
            const bool automatic = measured.span.what == SpanKind::automatic;
            add({{"reversed-order",
                  "The unit began with the wrong phase in most cycles of preset " + measured.span.preset},
                 measurand::exsufflation_pressure,
                 measured.span.preset,
                 0,
                 automatic,
                 true});
        }
    }

    /// A hand may miss a toggle: only where as many phases came as were asked for can they be told apart.
    void look_at_signs(const MeasuredSpan& measured)
    {
        const auto seen = seen_signs(measured);
        const auto& asked = measured.span.asked;
        if (asked.empty() || seen.size() != asked.size()) {
            return;
        }
        // What stays so far below is no sign of the unit: somebody may breathe where a hold was asked for.
        if (nothing_comes_near(measured_trace_, measured)) {
            return;
        }
        for (std::size_t i = 0; i < asked.size(); ++i) {
            const bool wanted_insufflation = asked[i] == Step::insufflation;
            if ((seen[i] == PhaseKind::insufflation) != wanted_insufflation) {
                add({{"manual-sign", "Asked for " + word_of(asked[i]) + " by hand, the unit did the opposite (toggle " +
                                         std::to_string(i + 1) + " of preset " + measured.span.preset + ")"},
                     name_of(seen[i]),
                     measured.span.preset,
                     0,
                     true,
                     true});
                return;
            }
        }
    }

    [[nodiscard]] static std::vector<PhaseKind> seen_signs(const MeasuredSpan& measured)
    {
        std::vector<PhaseKind> seen;
        for (const auto& phase : measured.phases) {
            if (measured.span.what == SpanKind::manual && phase.kind != PhaseKind::pause) {
                seen.push_back(phase.kind);
            }
        }
        return seen;
    }

    static const std::string& name_of(PhaseKind kind)
    {
        return kind == PhaseKind::insufflation ? measurand::insufflation_pressure : measurand::exsufflation_pressure;
    }

    /// Evidence is missing, or the set-up may be the cause. That the unit was not run automatically does not excuse
    /// what it did by hand: a run is stopped there.
    [[nodiscard]] bool is_doubted(const Critical& critical) const
    {
        return std::any_of(hindrances_.begin(), hindrances_.end(), [&](const Hindrance& hindrance) {
            return hindrance.reason.code != "no-automatic-span" && hindrance.stops(critical.measurand, critical.preset);
        });
    }

    void add(Critical critical)
    {
        const bool doubted = is_doubted(critical);
        critical.possible = doubted || critical.within_u;
        critical.explained = doubted && in_the_way(hindrances_, "absolute-sensor");
        auto& [code, text] = critical.reason;
        if (critical.possible) {
            code = "possible-" + code;
            word_possible(text, hindrances_, !doubted);
        } else {
            text += ": keep this unit out of use.";
        }
        found_.push_back(std::move(critical));
    }

    const MeasuredTrace& measured_trace_;
    const Evidence& evidence_;
    const std::vector<Hindrance>& hindrances_;
    std::vector<Critical> found_;
};

} // namespace

std::vector<Critical> criticals(const MeasuredTrace& measured_trace, const std::vector<Hindrance>& hindrances)
{
    return Watch(measured_trace, hindrances).all();
}

} // namespace zeroline::verification
