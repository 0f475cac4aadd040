#include "gui/session/provisional_judge.hpp"

#include "acquisition/trace/calibration.hpp"
#include "analysis/verification/phase_memory.hpp"

#include <algorithm>
#include <memory>

namespace zeroline::session {

namespace {

// The live clock and the fitted one differ a little; only while the run goes on may a span be cut to fit.
void keep_inside(verification::RunLog& log, const trace::Trace& trace)
{
    if (trace.size() == 0) {
        log.spans.clear();
        return;
    }
    for (auto& span : log.spans) {
        span.from_s = std::clamp(span.from_s, trace.time_s.front(), trace.time_s.back());
        span.to_s = std::clamp(span.to_s, span.from_s, trace.time_s.back());
    }
}

} // namespace

Judge provisional_judge(const trace::RawTrace& raw, const verification::WorkOrder& order,
                        const trace::Instrument& instrument, const verification::HouseProfile& house)
{
    const auto memory = std::make_shared<verification::PhaseMemory>();
    return [&raw, &order, &instrument, &house, memory](verification::RunLog log) {
        const auto trace = trace::derive(raw, &instrument);
        keep_inside(log, trace);
        verification::Evidence evidence;
        evidence.order = &order;
        evidence.trace = &trace;
        evidence.instrument = &instrument;
        evidence.run = &log;
        evidence.house = house;
        evidence.origin = log.origin.value_or(verification::Origin::imported);
        return verification::assess(evidence, *memory);
    };
}

} // namespace zeroline::session
