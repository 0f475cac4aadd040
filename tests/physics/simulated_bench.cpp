#include "tests/physics/simulated_bench.hpp"

#include "fixtures/physics/dice.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace zeroline::physics_study {

namespace {

using nlohmann::json;

constexpr double kOpen_s = 4.0, kRest_s = 2.5;
constexpr double kClock_ppm = 100.0, kCertificate_U_cmH2O = 0.2; // as the instrument file says

verification::WorkOrder order_for(const physics::Settings& set, const BenchPlan& plan)
{
    json preset{{"name", "day"},
                {"insufflation", {{"pressure", set.insufflation_cmH2O}, {"duration", set.insufflation_s}}},
                {"exsufflation", {{"pressure", -set.exsufflation_cmH2O}, {"duration", set.exsufflation_s}}},
                {"pause", {{"duration", set.pause_s}, {"pressure", 0}}},
                {"trigger", "off"}};
    if (plan.flow_named)
        preset["flow"] = plan.reduced_flow ? "reduced" : "full";
    return verification::parse_work_order(
        {{"schema", "zeroline/work-order/1"},
         {"work_order", "WO-PHYS"},
         {"occasion", "pre-delivery"},
         {"customer", "nobody"},
         {"contact", "nobody"},
         {"unit", {{"asset", "SIM-1"}, {"serial", "0001"}, {"model", "simulated unit"}, {"display_step", 1}}},
         {"prescription", {{"reference", "RX-1"}, {"ordered_on", "2026-11-02"}, {"presets", {preset}}}},
         {"cycles", plan.cycles},
         {"decision_rule", "simple"},
         {"lead_cycles", 1}});
}

trace::Instrument instrument_for(const Readout& readout)
{
    return trace::parse_instrument(
        {{"schema", "zeroline/instrument/1"},
         {"name", "simulated transducer"},
         {"serial", "SIM-2"},
         {"port", {{"baud", 115200}, {"data_bits", 8}, {"parity", "none"}, {"stop_bits", 1}}},
         {"language", {{"kind", "numeric-lines"}, {"field", 1}, {"separator", ","}, {"unit", "cmH2O"}}},
         {"range", {{"low", -100}, {"high", 100}, {"resolution", readout.resolution_cmH2O}, {"unit", "cmH2O"}}},
         {"rate", {{"nominal_hz", readout.rate_hz}, {"clock_ppm", kClock_ppm}}},
         {"calibration",
          {{"certificate", "CAL-1"},
           {"on", "2026-06-03"},
           {"due", "2036-06-03"},
           {"expanded_uncertainty", kCertificate_U_cmH2O},
           {"coverage_factor", 2.0},
           {"range", {{"low", -80}, {"high", 80}}}}}});
}

/// Readings at the instrument's own pace; the trace has the times that its nominal rate gives them.
trace::Trace read_out(const physics::Recording& clean, const Readout& readout, double until_s, std::uint64_t seed)
{
    physics::Dice dice(seed, 31);
    trace::Trace trace;
    trace.sampling.rate_hz = readout.rate_hz;
    const double phase = dice.unit();
    const double pace = 1.0 / (1.0 + 1e-6 * readout.clock_ppm);
    for (long k = 0;; ++k) {
        const double by_clock_s = (static_cast<double>(k) + phase) / readout.rate_hz;
        const double true_s = by_clock_s * pace;
        if (true_s >= until_s)
            break;
        const double indicated = (1.0 + readout.span_error) * clean.sensed_at(true_s) + readout.offset_cmH2O +
                                 readout.drift_cmH2O * true_s / until_s + readout.noise_cmH2O * dice.normal();
        trace.time_s.push_back(by_clock_s);
        trace.pressure_cmH2O.push_back(std::round(indicated / readout.resolution_cmH2O) * readout.resolution_cmH2O);
    }
    return trace;
}

verification::RunLog log_for(double plugged_s, double open_s, double until_s)
{
    using verification::Span;
    using verification::SpanKind;
    verification::RunLog log;
    log.run_operator = "simulated";
    log.began = "2026-11-25T09:12:04+01:00";
    Span before{SpanKind::zero_before, "", 0.1, plugged_s - 0.3, {}, {}, "", {}, {}};
    Span cycling{SpanKind::automatic, "day", plugged_s + 1.0, open_s - 0.3, {}, {}, "mains", {}, {}};
    Span after{SpanKind::zero_after, "", open_s + 0.4, until_s - 0.1, {}, {}, "", {}, {}};
    log.spans = {before, cycling, after};
    log.confirmed = {"no-patient-connected", "outlet-blocked", "trigger-off"};
    log.restored = true;
    log.origin = verification::Origin::simulated;
    return log;
}

verification::Displayed shown_by(const physics::Unit& unit)
{
    return {"day", std::round(unit.set.insufflation_cmH2O), -std::round(unit.set.exsufflation_cmH2O),
            verification::Shows::live};
}

} // namespace

verification::Evidence SimulatedBench::evidence() const
{
    verification::Evidence evidence;
    evidence.order = &order;
    evidence.trace = &trace;
    evidence.instrument = &instrument;
    evidence.run = &log;
    evidence.origin = verification::Origin::simulated;
    return evidence;
}

Readout drawn_readout(double rate_hz, double largest_cmH2O, std::uint64_t seed)
{
    physics::Dice dice(seed, 32);
    Readout readout;
    readout.rate_hz = rate_hz;
    readout.noise_cmH2O = dice.between(0.03, 0.12);
    readout.resolution_cmH2O = dice.chance(0.5) ? 0.01 : 0.05;
    readout.clock_ppm = kClock_ppm * dice.between(-1.0, 1.0);
    readout.offset_cmH2O = dice.between(-0.3, 0.3);
    readout.drift_cmH2O = dice.between(-0.1, 0.1);
    readout.span_error = 0.5 * kCertificate_U_cmH2O * dice.normal() / largest_cmH2O;
    return readout;
}

SimulatedBench simulated(const physics::Unit& unit, const physics::Settings& prescribed, const Readout& readout,
                         const BenchPlan& plan)
{
    SimulatedBench bench;
    bench.run = physics::run_cycles(unit, plan.cycles + 1, kOpen_s, kRest_s);
    const auto& recording = bench.run.recording;
    const double open_s = recording.time_s(recording.sensed_cmH2O.size());
    bench.order = order_for(prescribed, plan);
    bench.instrument = instrument_for(readout);
    bench.trace = read_out(recording, readout, open_s + kOpen_s, unit.circuit.seed);
    bench.log = log_for(kOpen_s, open_s, open_s + kOpen_s);
    bench.span_ends_s = open_s - 0.3;
    if (plan.displays)
        bench.log.displayed = {shown_by(unit)};
    return bench;
}

} // namespace zeroline::physics_study
