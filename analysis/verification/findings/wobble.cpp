#include "analysis/verification/findings/every_finding.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/findings/phase_shapes.hpp"
#include "analysis/verification/findings/wording.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

constexpr double kBlock_s = 0.05;     // what two blocks side by side share is slower than 5 Hz: no ripple, no hum
constexpr double kFromShare = 0.5;    // of the phase: edges and rings are over
constexpr double kBeforeEnd_s = 0.05; // the next edge has not begun
constexpr std::size_t kFewestBlocks = 8, kFewestPhases = 3;
constexpr double kWobble_cmH2O = 0.15; // healthy units repeat so slow a shape within 0.1
constexpr double kSwing_cmH2O = 0.5, kFrequenciesAlike = 0.1, kMostPhases = 0.6;
constexpr double kWobbleShare = 0.006; // of the plateau: a seat that leaks a little is no hand

/// Most phases swing at one frequency: that is a unit. What swings otherwise each time is a hand.
bool oscillates(const MeasuredSpan& span, signal::PhaseKind kind)
{
    std::vector<double> frequencies;
    std::size_t phases = 0;
    for (const auto& phase : span.phases) {
        phases += phase.kind == kind ? 1 : 0;
        if (phase.kind == kind && phase.oscillation && phase.oscillation->amplitude_cmH2O > kSwing_cmH2O)
            frequencies.push_back(phase.oscillation->frequency_hz);
    }
    const auto usual = signal::median(frequencies);
    const auto agree = std::count_if(frequencies.begin(), frequencies.end(),
                                     [&](double f) { return std::abs(f / *usual - 1.0) < kFrequenciesAlike; });
    return static_cast<double>(agree) > kMostPhases * static_cast<double>(phases);
}

/// Rms of what each plateau does slowly and by itself, its own level and the shape common to all taken off: what two
/// blocks side by side have in common. A blower's ripple moves them apart, or each its own way.
double own_movement_cmH2O(const PhaseShapes& shapes)
{
    const auto n = static_cast<double>(shapes.phases()), m = static_cast<double>(shapes.blocks());
    double products = 0.0;
    for (const auto& row : without({true, true, false}, shapes.pressure))
        for (std::size_t i = 1; i < row.size(); ++i)
            products += row[i - 1] * row[i];
    return std::sqrt(std::max(0.0, products) / ((n - 1.0) * (m - 1.0)));
}

} // namespace

Findings wobble(const FindingBasis& basis)
{
    Findings all;
    for (const auto& group : basis.groups) {
        double largest = 0.0;
        for (const auto* span : group.spans)
            for (const auto kind : {kInsufflation, kExsufflation}) {
                const double from_s = kFromShare * setting_of(group.set, kind).duration_s;
                const auto shapes = shapes_of(basis, *span, kind, from_s, kBeforeEnd_s, kBlock_s);
                if (shapes.phases() < kFewestPhases || shapes.blocks() < kFewestBlocks || oscillates(*span, kind))
                    continue;
                const double floor = kWobbleShare * std::abs(setting_of(group.set, kind).pressure_cmH2O);
                const double moved = own_movement_cmH2O(shapes);
                if (moved > std::max(kWobble_cmH2O, floor))
                    largest = std::max(largest, moved);
            }
        if (largest == 0.0)
            continue;
        all.push_back(finding(basis, group, "wobble", Severity::caution,
                              {"a hand, or something soft, that serves as plug",
                               "the plateaus wander by " + in_words(largest) + " cmH2O, each in its own way",
                               "an airtight plug that nobody holds, and the run again"},
                              {{"rms_cmH2O", largest}}));
    }
    return all;
}

} // namespace zeroline::verification
