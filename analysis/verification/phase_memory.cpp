#include "analysis/verification/phase_memory.hpp"

#include <algorithm>
#include <utility>

namespace zeroline::verification {

using signal::Phase;

namespace {

/// The last phase is still going on, and the one before it is measured up to a level that is still coming in. One more
/// is measured again so that what is kept lies between phases that were whole.
constexpr std::size_t kMeasuredAgain = 3;

double middle_of(const Phase& phase) { return 0.5 * static_cast<double>(phase.first + phase.last); }

} // namespace

PhaseMemory::Known PhaseMemory::known(const MeasuredSpan& measured) const
{
    const auto found = kept_.find(measured.index);
    if (found == kept_.end() || found->second.from_s != measured.span.from_s) {
        return {{}, measured.first, false};
    }
    const auto& kept = found->second;
    if (kept.last == measured.last) {
        return {kept.phases, measured.last, true};
    }
    if (kept.phases.size() <= kMeasuredAgain) {
        return {{}, measured.first, false};
    }
    const auto end = kept.phases.end() - static_cast<std::ptrdiff_t>(kMeasuredAgain);
    // The last one that is kept is seen once more, so that what follows has its entering edge.
    return {{kept.phases.begin(), end}, std::prev(end)->first, false};
}

std::vector<Phase> PhaseMemory::joined(const MeasuredSpan& measured, const Known& known, std::vector<Phase> fresh)
{
    samples_measured_ += measured.last - std::min(known.from, measured.last);
    auto phases = known.phases;
    const auto end = phases.empty() ? 0.0 : static_cast<double>(phases.back().last);
    for (auto& phase : fresh) {
        if (phases.empty() || middle_of(phase) > end) {
            phases.push_back(std::move(phase));
        }
    }
    kept_[measured.index] = {measured.span.from_s, measured.last, phases};
    return phases;
}

} // namespace zeroline::verification
