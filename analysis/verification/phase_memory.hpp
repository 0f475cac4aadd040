#pragma once

#include "analysis/verification/measured_trace.hpp"

#include <map>
#include <vector>

namespace zeroline::verification {

/// What was measured of a run that goes on. Of a span that has grown only the phases near its end are measured again,
/// from their own samples: what a look costs does not grow with the length of the run. One run, one thread.
///
/// For provisional results: a record is measured whole (docs/method.md).
class PhaseMemory {
public:
    /// What is known of a span before it is measured.
    struct Known {
        std::vector<signal::Phase> phases; ///< whole, in order; sample indices count from the trace's first sample
        std::size_t from = 0;              ///< sample at which measuring takes up again
        bool all = false;                  ///< nothing came since: `phases` is everything
    };
    [[nodiscard]] Known known(const MeasuredSpan& measured) const;

    /// Puts what was measured from sample `from` on behind what was known: the phases of the span as they are now.
    [[nodiscard]] std::vector<signal::Phase> joined(const MeasuredSpan& measured, const Known& known,
                                                    std::vector<signal::Phase> fresh);

    /// How many samples have been handed to the measuring, over all looks.
    [[nodiscard]] std::size_t samples_measured() const noexcept { return samples_measured_; }

private:
    struct Kept {
        double from_s = 0.0; ///< of the span
        std::size_t last = 0;
        std::vector<signal::Phase> phases;
    };
    std::map<std::size_t, Kept> kept_; ///< by the span's index in the run log
    std::size_t samples_measured_ = 0;
};

/// As assess(evidence), with what earlier looks at the same run have measured; remembers what this one does.
[[nodiscard]] Assessment assess(const Evidence& evidence, PhaseMemory& memory);

} // namespace zeroline::verification
