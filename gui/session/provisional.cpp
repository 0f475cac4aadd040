#include "gui/session/provisional.hpp"

#include "acquisition/trace/calibration.hpp"

namespace zeroline::session {

Judge provisional_judge(const trace::RawTrace& raw, const verification::WorkOrder& order,
                        const trace::Instrument& instrument, const verification::HouseProfile& house)
{
    return [&raw, &order, &instrument, &house](const verification::RunLog& log) {
        const auto trace = trace::derive(raw, &instrument);
        verification::Evidence evidence;
        evidence.order = &order;
        evidence.trace = &trace;
        evidence.instrument = &instrument;
        evidence.run = &log;
        evidence.house = house;
        evidence.origin = log.origin.value_or(verification::Origin::imported);
        return verification::assess(evidence);
    };
}

} // namespace zeroline::session
