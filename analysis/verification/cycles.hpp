#pragma once

#include "analysis/signal/phases.hpp"
#include "analysis/verification/run_log.hpp"
#include "analysis/verification/work_order.hpp"

#include <optional>
#include <vector>

namespace zeroline::verification {

/// Phases of one span that belong together (docs/method.md, the signal). Positions count in the span's phases.
struct Pair {
    std::optional<std::size_t> insufflation, exsufflation, pause;
    /// A phase that should be here and is not; the pair is then a half cycle.
    std::optional<signal::PhaseKind> lacks;
    bool lacks_pause = false; ///< went on to the next phase without the pause that the sequence has
    bool rest_follows = false;
    bool spare = false; ///< a half that the sequence has without a partner

    [[nodiscard]] bool half() const noexcept { return !insufflation || !exsufflation; }
};

struct Pairing {
    std::vector<Pair> pairs; ///< in time order
    bool reversed = false;   ///< most runs of phases begin with what the sequence has second
};

/// Pairs the phases of a span as the preset's sequence says. Manual spans are paired too, but nothing is missing there
/// and nothing is reversed: a hand may do anything. A pause that follows exactly `series.breaths` cycles since the
/// start or the last rest is a rest.
[[nodiscard]] Pairing pair_cycles(const std::vector<signal::Phase>& phases, const Preset& preset, SpanKind what);

} // namespace zeroline::verification
