// What must not change a verdict, and what may change it in one direction only, on runs drawn at random.

#include "acquisition/trace/calibration.hpp"
#include "analysis/record/difference.hpp"
#include "analysis/record/record.hpp"
#include "tests/analysis/verification/synthetic.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using synthetic::bench;
using synthetic::Plan;
using synthetic::PlayedCycle;

double drawn(int low_tenths, int high_tenths) { return *rc::gen::inRange(low_tenths, high_tenths) / 10.0; }

/// A run whose levels and durations lie anywhere near their limits.
Plan any_plan()
{
    Plan plan;
    plan.seed = static_cast<unsigned>(*rc::gen::inRange(1, 1000));
    plan.cycles.clear();
    const int cycles = *rc::gen::inRange(5, 8);
    for (int i = 0; i < cycles; ++i) {
        PlayedCycle cycle;
        cycle.insufflation_cmH2O = drawn(370, 430);
        cycle.exsufflation_cmH2O = -drawn(370, 430);
        cycle.insufflation_s = 1.5 + drawn(-2, 3);
        cycle.pause_cmH2O = drawn(-8, 12);
        cycle.exsufflation_s = i > 1 && *rc::gen::inRange(0, 12) == 0 ? 0.0 : 1.5;
        plan.cycles.push_back(cycle);
    }
    return plan;
}

/// A value this near to a limit may fall on either side of it by rounding.
bool on_a_limit(const Assessment& assessment)
{
    return std::any_of(assessment.judgements.begin(), assessment.judgements.end(), [](const Judgement& judgement) {
        return judgement.worst && std::abs(metrology::margin(*judgement.worst, judgement.limits)) < 1e-9;
    });
}

std::vector<Outcome> verdicts(const Assessment& assessment)
{
    std::vector<Outcome> all{assessment.verdict, assessment.unit_accuracy};
    for (const auto& judgement : assessment.judgements) {
        all.push_back(judgement.verdict);
    }
    return all;
}

RC_GTEST_PROP(Verdicts, do_not_depend_on_when_the_trace_began, ())
{
    auto subject = bench(any_plan());
    const auto before = subject.result();
    const double shift_s = *rc::gen::inRange(-40, 4000) / 4.0;
    for (auto& t : subject.trace.time_s) {
        t += shift_s;
    }
    for (auto& span : subject.run.spans) {
        span.from_s += shift_s;
        span.to_s += shift_s;
    }
    RC_PRE(!on_a_limit(before));
    RC_ASSERT(verdicts(before) == verdicts(subject.result()));
}

RC_GTEST_PROP(Verdicts, do_not_depend_on_an_offset_that_the_open_port_shows_too, ())
{
    auto subject = bench(any_plan());
    const auto before = subject.result();
    RC_PRE(!on_a_limit(before));
    RC_PRE(std::abs(*before.zero.before) < 0.01);
    const double offset = *rc::gen::inRange(-48, 49) / 100.0;
    for (auto& pressure : subject.trace.pressure_cmH2O) {
        pressure += offset;
    }
    RC_ASSERT(verdicts(before) == verdicts(subject.result()));
}

RC_GTEST_PROP(Verdicts, do_not_depend_on_the_unit_in_which_the_trace_is_stored, ())
{
    auto subject = bench(any_plan());
    const auto before = subject.result();
    RC_PRE(!on_a_limit(before));
    const auto units = trace::all_pressure_units();
    const auto unit = units[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(units.size())))];
    trace::RawTrace raw;
    raw.unit = unit;
    raw.moment_s = subject.trace.time_s;
    for (const double pressure : subject.trace.pressure_cmH2O) {
        raw.pressure.push_back(trace::from_cmH2O(pressure, unit));
    }
    subject.trace = trace::derive(std::move(raw), nullptr);
    RC_ASSERT(verdicts(before) == verdicts(subject.result()));
}

/// What a verdict is made from, besides the samples themselves.
std::vector<double> figures_of(const signal::Phase& phase)
{
    return {static_cast<double>(phase.last - phase.first),       phase.duration_s().value_or(-1.0),
            phase.mid_level_duration_s().value_or(-1.0),         phase.plateau ? phase.plateau->value_cmH2O : -1.0,
            phase.plateau ? phase.plateau->noise_u_cmH2O : -1.0, phase.peak_cmH2O.value_or(-1.0)};
}

// Live, a cycle that has ended is measured from its own samples: an inner phase comes out as from the whole trace. Not
// to the last bit: levels place edges, edges bound levels, so that a cut three phases away still has a say, in
// microseconds.
RC_GTEST_PROP(Phases, are_the_same_from_the_samples_of_their_neighbourhood_as_from_the_whole_trace, ())
{
    const auto subject = bench(any_plan());
    const signal::Samples samples{subject.trace.time_s, subject.trace.pressure_cmH2O};
    signal::MeasureOptions options;
    options.noise_cmH2O = 0.03;
    options.larger_plateau_cmH2O = signal::larger_plateau(samples);
    options.rest_cmH2O = 0.0;
    const auto whole = signal::measure(samples, options);
    RC_ASSERT(whole.size() > 7U);
    const auto k = static_cast<std::size_t>(*rc::gen::inRange(3, static_cast<int>(whole.size()) - 3));
    const auto near = signal::measure(samples.part(whole[k - 3].first, whole[k + 3].last), options);
    const auto same = std::find_if(near.begin(), near.end(), [&](const signal::Phase& phase) {
        return phase.first + whole[k - 3].first == whole[k].first;
    });
    RC_ASSERT(same != near.end());
    const auto own = figures_of(*same);
    const auto of_all = figures_of(whole[k]);
    for (std::size_t i = 0; i < own.size(); ++i) {
        RC_ASSERT(std::abs(own[i] - of_all[i]) < 1e-3);
    }
}

void widen(std::optional<Tolerance>& tolerance, double by)
{
    if (tolerance && tolerance->absolute) {
        *tolerance->absolute *= by;
    }
}

RC_GTEST_PROP(Verdicts, of_wider_tolerances_are_never_worse, ())
{
    auto subject = bench(any_plan());
    const auto before = subject.result();
    const double by = 1.0 + drawn(1, 30);
    auto& tolerances = subject.order.tolerances;
    for (auto* tolerance : {&tolerances.pressure, &tolerances.duration, &tolerances.residual, &tolerances.display}) {
        widen(*tolerance, by);
    }
    const auto after = subject.result();
    RC_ASSERT(after.verdict <= before.verdict);
    RC_ASSERT(after.judgements.size() == before.judgements.size());
    // Where only one cycle is left outside, it is taken for touched: all judgements then wait for more cycles.
    const bool waits = std::any_of(after.findings.begin(), after.findings.end(),
                                   [](const auto& found) { return found.code == "one-cycle-unlike"; });
    for (std::size_t i = 0; i < after.judgements.size(); ++i) {
        RC_LOG() << after.judgements[i].measurand << ": " << static_cast<int>(before.judgements[i].verdict) << ", wider "
                 << static_cast<int>(after.judgements[i].verdict) << '\n';
        RC_ASSERT(after.judgements[i].verdict <= before.judgements[i].verdict ||
                  (waits && after.judgements[i].verdict == Outcome::incomplete));
    }
    RC_ASSERT(before.critical || !after.critical);
}

RC_GTEST_PROP(Verdicts, are_the_same_record_to_the_last_bit_each_time, ())
{
    const auto subject = bench(any_plan());
    const auto record = [&] { return record::to_json(subject.evidence(), subject.result(), {"0", "0"}); };
    RC_ASSERT(record::differences(record(), record(), record::Alike::exactly).empty());
}

RC_GTEST_PROP(Verdicts, never_pass_without_one_of_the_confirmations, ())
{
    auto subject = bench(any_plan());
    subject.run.confirmed.erase(subject.run.confirmed.begin() + *rc::gen::inRange(0, 3));
    const auto result = subject.result();
    RC_ASSERT(result.verdict == Outcome::incomplete);
    RC_ASSERT(result.unit_accuracy == Outcome::incomplete);
}

} // namespace
} // namespace zeroline::verification
