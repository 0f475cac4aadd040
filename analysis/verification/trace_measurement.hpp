#pragma once

#include "analysis/verification/budgets.hpp"
#include "analysis/verification/cycles.hpp"
#include "analysis/verification/measured_trace.hpp"
#include "analysis/verification/phase_memory.hpp"
#include "analysis/verification/rates.hpp"

#include <map>
#include <vector>

namespace zeroline::verification {

/// Measures a trace and keeps what the result points into. The evidence must outlive it.
class TraceMeasurement {
public:
    /// Throws trace::InputError where a span lies outside the trace.
    /// `memory`: what earlier looks at a run that goes on have measured; none: everything is measured.
    explicit TraceMeasurement(const Evidence& evidence, PhaseMemory* memory = nullptr);
    TraceMeasurement(const TraceMeasurement&) = delete;
    TraceMeasurement& operator=(const TraceMeasurement&) = delete;

    [[nodiscard]] const MeasuredTrace& measured_trace() const noexcept { return measured_trace_; }

private:
    /// Where a cycle stands among the trace and its fellows, for deciding whether it is judged.
    struct Place {
        std::size_t span = 0; ///< into MeasuredTrace::spans
        Pair pair;
        double from_s = 0.0;
        double to_s = 0.0;
        bool lead = false;
        bool excluded = false;
    };

    void read_samples();
    [[nodiscard]] MeasuredSpan span_at(std::size_t index) const;
    void find_spans();
    void find_plateaus();
    void measure_span(MeasuredSpan& measured);
    [[nodiscard]] std::vector<signal::Phase> phases_from(const MeasuredSpan& measured, std::size_t from) const;
    void build_cycles();
    void add_cycle(std::size_t span_position, const Pair& pair, double since_s, bool lead);
    [[nodiscard]] double seen_until_s(std::size_t place) const;
    void exclude();
    void note_missing();
    void take_wander();
    void fill_quantities();
    void leave_out_unlike();
    void measure_strength();
    void fill_phase(Cycle& cycle, const signal::Phase& phase, const MeasuredSpan& measured);
    void fill_pause(Cycle& cycle, const MeasuredSpan& measured);
    /// From sample to sample within the window of a level.
    [[nodiscard]] double noise_within(const signal::Level& level) const;
    [[nodiscard]] signal::MeasureOptions options_for(const MeasuredSpan& measured) const;

    const Evidence& evidence_;
    PhaseMemory* memory_;
    std::vector<double> pressure_;
    std::vector<Span> spans_;
    std::map<std::string, double> plateaus_; ///< by preset; ladder spans have their own
    std::vector<Place> places_;              ///< one a cycle
    BudgetBasis basis_;
    MeasuredTrace measured_trace_;
};

} // namespace zeroline::verification
