#pragma once

// A run as a person would see it on paper: levels held for a time, joined by S-shaped edges, a little noise. Nothing of
// the program's own measuring is in it, so that a rule of judgement can be tried with values known beforehand.

#include "acquisition/trace/instrument.hpp"
#include "acquisition/trace/trace.hpp"
#include "analysis/verification/assessment.hpp"
#include "analysis/verification/measured_trace.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

namespace zeroline::verification::synthetic {

/// One cycle as it is played; a duration of 0 leaves the phase out.
struct PlayedCycle {
    double insufflation_cmH2O = 40.0, insufflation_s = 1.5;
    double exsufflation_cmH2O = -40.0, exsufflation_s = 1.5;
    double pause_cmH2O = 0.0, pause_s = 2.0;
    bool exsufflation_first = false;
};

/// Draws levels into a trace. Time runs from 0.
class Pen {
public:
    explicit Pen(double rate_hz = 250.0, double noise_cmH2O = 0.03, unsigned seed = 1)
        : rate_hz_(rate_hz), noise_(0.0, noise_cmH2O), dice_(seed)
    {
    }

    [[nodiscard]] double now_s() const { return now_s_; }

    void hold(double level_cmH2O, double seconds)
    {
        if (seconds > 0.0) {
            begins_.push_back(now_s_);
            levels_.push_back(level_cmH2O);
            now_s_ += seconds;
        }
    }

    void play(const PlayedCycle& cycle)
    {
        if (cycle.exsufflation_first) {
            hold(cycle.exsufflation_cmH2O, cycle.exsufflation_s);
        }
        hold(cycle.insufflation_cmH2O, cycle.insufflation_s);
        if (!cycle.exsufflation_first) {
            hold(cycle.exsufflation_cmH2O, cycle.exsufflation_s);
        }
        hold(cycle.pause_cmH2O, cycle.pause_s);
    }

    [[nodiscard]] trace::Trace trace()
    {
        trace::Trace trace;
        const auto samples = static_cast<std::size_t>(now_s_ * rate_hz_);
        std::size_t at = 0;
        for (std::size_t i = 0; i < samples; ++i) {
            const double t = static_cast<double>(i) / rate_hz_;
            while (at + 1 < begins_.size() && t >= begins_[at + 1]) {
                ++at;
            }
            trace.time_s.push_back(t);
            trace.pressure_cmH2O.push_back(level_at(at, t) + noise_(dice_));
        }
        trace.sampling.rate_hz = rate_hz_;
        return trace;
    }

    static constexpr double kEdge_s = 0.08; ///< length of the S between two levels

private:
    [[nodiscard]] double level_at(std::size_t at, double t) const
    {
        const double since = t - begins_[at];
        if (at == 0 || since >= kEdge_s) {
            return levels_[at];
        }
        const double done = 0.5 * (1.0 - std::cos(std::numbers::pi * since / kEdge_s));
        return levels_[at - 1] + done * (levels_[at] - levels_[at - 1]);
    }

    double rate_hz_;
    std::normal_distribution<double> noise_;
    std::mt19937 dice_;
    double now_s_ = 0.0;
    std::vector<double> begins_, levels_;
};

inline WorkOrder order()
{
    return parse_work_order(nlohmann::json::parse(R"({
      "schema": "zeroline/work-order/1", "work_order": "W-1", "occasion": "pre-delivery", "customer": "ward",
      "unit": {"asset": "A-1", "serial": "S-1", "model": "paper unit"},
      "prescription": {"reference": "R-1", "presets": [
        {"name": "day", "insufflation": {"pressure": 40, "duration": 1.5},
         "exsufflation": {"pressure": -40, "duration": 1.5}, "pause": {"duration": 2.0}}]},
      "tolerances": {"basis": "paper manual", "approved_by": "nobody", "pressure": {"absolute": 2},
        "duration": {"absolute": 0.1}, "residual": {"absolute": 1}, "zero": {"absolute": 1, "within": 0.5},
        "display": {"absolute": 3}},
      "decision_rule": "simple", "cycles": 5, "lead_cycles": 1})"));
}

inline trace::Instrument instrument()
{
    trace::Instrument instrument;
    instrument.name = "paper transducer";
    instrument.serial = "P-1";
    instrument.range = {-100.0, 100.0, 0.01, trace::PressureUnit::cmH2O};
    instrument.nominal_hz = 250.0;
    instrument.clock_ppm = 100.0;
    instrument.response_ms = 0.0;
    instrument.calibration.certificate = "C-1";
    instrument.calibration.on = "2026-01-01";
    instrument.calibration.due = "2027-01-01";
    instrument.calibration.expanded_uncertainty = 0.2;
    instrument.calibration.low = -80.0;
    instrument.calibration.high = 80.0;
    return instrument;
}

/// Everything assess() wants, kept together; change what a test is about, then ask for result().
struct Bench {
    WorkOrder order = synthetic::order();
    trace::Instrument instrument = synthetic::instrument();
    trace::Trace trace;
    RunLog run;
    bool with_run = true;
    bool with_instrument = true;
    HouseProfile house = HouseProfile::standard();

    [[nodiscard]] Evidence evidence() const
    {
        Evidence evidence;
        evidence.order = &order;
        evidence.trace = &trace;
        evidence.instrument = with_instrument ? &instrument : nullptr;
        evidence.run = with_run ? &run : nullptr;
        evidence.house = house;
        return evidence;
    }
    [[nodiscard]] Assessment result() const { return assess(evidence()); }
};

/// What a run is made of. Whatever is left alone is healthy.
struct Plan {
    std::vector<PlayedCycle> cycles = std::vector<PlayedCycle>(7);
    std::vector<PlayedCycle> second_span; ///< a further automatic span
    std::vector<double> manual{40.0, -40.0, 40.0, -40.0};
    double zero_before_cmH2O = 0.0, zero_after_cmH2O = 0.0;
    double tail_s = 1.0; ///< at zero after the last cycle, inside the span
    double rate_hz = 250.0;
    double noise_cmH2O = 0.03;
    unsigned seed = 1;
};

namespace detail {

inline void add_automatic(Pen& pen, RunLog& run, const Plan& plan, const std::vector<PlayedCycle>& cycles)
{
    if (cycles.empty()) {
        return;
    }
    Span span;
    span.what = SpanKind::automatic;
    span.preset = "day";
    span.from_s = pen.now_s();
    pen.hold(0.0, 1.0);
    for (const auto& cycle : cycles) {
        pen.play(cycle);
    }
    pen.hold(0.0, plan.tail_s);
    span.to_s = pen.now_s();
    run.spans.push_back(span);
    pen.hold(0.0, 1.0);
}

inline void add_zero(Pen& pen, RunLog& run, SpanKind what, double level)
{
    Span span;
    span.what = what;
    span.from_s = pen.now_s();
    pen.hold(level, 5.0);
    span.to_s = pen.now_s() - 0.1;
    run.spans.push_back(span);
    pen.hold(0.0, 1.0);
}

inline void add_manual(Pen& pen, RunLog& run, const Plan& plan)
{
    Span span;
    span.what = SpanKind::manual;
    span.preset = "day";
    span.from_s = pen.now_s();
    pen.hold(0.0, 1.0);
    for (const double level : plan.manual) {
        pen.hold(level, 2.0);
        pen.hold(0.0, 1.5);
    }
    for (std::size_t i = 0; i < plan.manual.size(); ++i) {
        span.asked.push_back(i % 2 == 0 ? Step::insufflation : Step::exsufflation);
    }
    span.to_s = pen.now_s();
    if (!plan.manual.empty()) {
        run.spans.push_back(span);
    }
    pen.hold(0.0, 1.0);
}

} // namespace detail

inline Bench bench(const Plan& plan = {})
{
    Bench bench;
    Pen pen(plan.rate_hz, plan.noise_cmH2O, plan.seed);
    auto& run = bench.run;
    detail::add_zero(pen, run, SpanKind::zero_before, plan.zero_before_cmH2O);
    detail::add_manual(pen, run, plan);
    detail::add_automatic(pen, run, plan, plan.cycles);
    detail::add_automatic(pen, run, plan, plan.second_span);
    detail::add_zero(pen, run, SpanKind::zero_after, plan.zero_after_cmH2O);
    bench.trace = pen.trace();
    run.run_operator = "operator 3";
    run.began = "2026-11-25T09:12:04+01:00";
    run.confirmed = {"no-patient-connected", "outlet-blocked", "trigger-off"};
    run.displayed = std::vector<Displayed>{{"day", 40.0, -40.0, Shows::live}};
    run.restored = true;
    return bench;
}

inline const Judgement* find(const Assessment& assessment, const std::string& measurand,
                             const std::string& against = "prescribed")
{
    const auto it = std::find_if(assessment.judgements.begin(), assessment.judgements.end(), [&](const Judgement& j) {
        return j.measurand == measurand && j.against == against && !j.span;
    });
    return it == assessment.judgements.end() ? nullptr : &*it;
}

/// Reasons and findings, for the message of a test that fails.
inline std::string said(const Assessment& assessment)
{
    std::string out;
    for (const auto& reason : assessment.reasons) {
        out += reason.code + ": " + reason.text + "\n";
    }
    for (const auto& finding : assessment.findings) {
        out += "finding " + finding.code + ": " + finding.text + "\n";
    }
    return out;
}

inline bool has_reason(const Assessment& assessment, const std::string& code)
{
    return std::any_of(assessment.reasons.begin(), assessment.reasons.end(),
                       [&](const Reason& reason) { return reason.code == code; });
}

inline bool has_finding(const Assessment& assessment, const std::string& code)
{
    return std::any_of(assessment.findings.begin(), assessment.findings.end(),
                       [&](const Finding& finding) { return finding.code == code; });
}

} // namespace zeroline::verification::synthetic
