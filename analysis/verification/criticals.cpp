#include "analysis/verification/criticals.hpp"

#include "analysis/verification/figures.hpp"
#include "analysis/verification/findings/breath.hpp"

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

/// The readings are known to be in another unit, or against vacuum: a pressure they seem to show was never there. A
/// unit of pressure turns no sign round, though.
bool explains(const std::vector<Obstacle>& obstacles, const Critical& critical)
{
    return std::any_of(obstacles.begin(), obstacles.end(), [&](const Obstacle& obstacle) {
        const auto& code = obstacle.reason.code;
        return code == "absolute-sensor" || (code == "unit-mismatch" && critical.cycle > 0);
    });
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
    Watch(const Scene& scene, const std::vector<Obstacle>& obstacles)
        : scene_(scene), evidence_(*scene.evidence), obstacles_(obstacles)
    {
    }

    std::vector<Critical> all()
    {
        for (const auto& cycle : scene_.cycles) {
            look_at(cycle);
        }
        for (const auto& measured : scene_.spans) {
            look_at_order(measured);
            look_at_signs(measured);
        }
        return std::move(found_);
    }

private:
    [[nodiscard]] const MeasuredSpan& span_of(const Cycle& cycle) const
    {
        return *std::find_if(scene_.spans.begin(), scene_.spans.end(),
                             [&](const MeasuredSpan& measured) { return measured.index == cycle.span; });
    }

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
        const auto& measured = span_of(cycle);
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
             !within(name, plateau, measured.set, evidence_)});
    }

    void look_at_peak(const Cycle& cycle, const Phase& phase)
    {
        const auto limit = peak_limit();
        if (!limit) {
            return;
        }
        const double held_s = longest_beyond_s(scene_.samples, phase, *limit);
        if (held_s > evidence_.house.peak_hold_s) {
            const bool ladder = span_of(cycle).span.what == SpanKind::ladder;
            add({{"peak-held", "The pressure stayed beyond " + figure(*limit) + " cmH2O for " + figure(held_s) +
                                   " s in cycle " + std::to_string(cycle.index)},
                 name_of(phase.kind),
                 cycle.preset,
                 cycle.index,
                 !ladder,
                 true});
        }
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
        if (nothing_comes_near(scene_, measured)) {
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
        return std::any_of(obstacles_.begin(), obstacles_.end(), [&](const Obstacle& obstacle) {
            return obstacle.reason.code != "no-automatic-span" && obstacle.stops(critical.measurand, critical.preset);
        });
    }

    void add(Critical critical)
    {
        critical.possible = is_doubted(critical);
        critical.explained = critical.possible && explains(obstacles_, critical);
        auto& [code, text] = critical.reason;
        if (critical.possible) {
            code = "possible-" + code;
            text = "Possible, but the evidence does not allow to say so: " + text;
        }
        text += critical.possible ? ": keep this unit out of use until the run is repeated."
                                  : ": keep this unit out of use.";
        found_.push_back(std::move(critical));
    }

    const Scene& scene_;
    const Evidence& evidence_;
    const std::vector<Obstacle>& obstacles_;
    std::vector<Critical> found_;
};

} // namespace

std::vector<Critical> criticals(const Scene& scene, const std::vector<Obstacle>& obstacles)
{
    return Watch(scene, obstacles).all();
}

} // namespace zeroline::verification
