#include "tests/analysis/verification/coverage_study.hpp"

#include "analysis/signal/statistics.hpp"
#include "analysis/verification/trace_measurement.hpp"
#include "tests/analysis/signal/analytic.hpp"
#include "tests/analysis/verification/synthetic.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace zeroline::verification {

namespace {

using signal::analytic::CleanPressure;
using signal::analytic::CycleForm;
using signal::analytic::Shape;
using signal::analytic::Truth;

constexpr double kZero_s = 5.0;     // open port before and after
constexpr double kBetween_s = 0.5;  // between open port and cycling
constexpr double kBand_cmH2O = 2.0; // as the house profile has it
constexpr int kLead = 1, kCycles = 3;

class Draw {
public:
    explicit Draw(std::uint64_t seed) : random_(seed) {}
    double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
    double normal() { return std::normal_distribution<double>()(random_); }
    template <class T, std::size_t N> T one_of(const std::array<T, N>& all)
    {
        return all[std::uniform_int_distribution<std::size_t>(0, N - 1)(random_)];
    }
    std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_); }

private:
    std::mt19937_64 random_;
};

Shape draw_shape(Draw& draw, const std::string& wanted)
{
    constexpr std::array kAll{Shape::exponential,   Shape::ramp,      Shape::second_order,
                              Shape::raised_cosine, Shape::two_poles, Shape::gaussian};
    const auto drawn = draw.one_of(kAll);
    const auto it =
        std::find_if(kAll.begin(), kAll.end(), [&](Shape s) { return signal::analytic::name_of(s) == wanted; });
    return it == kAll.end() ? drawn : *it;
}

CycleForm draw_form(Draw& draw, const CoverageStudy& study)
{
    CycleForm form;
    form.form.shape = draw_shape(draw, study.shape);
    form.form.edge_s = draw.between(0.05, study.slowest_edge_s);
    form.form.damping = draw.between(0.6, 0.9);
    form.insufflation_cmH2O = draw.between(15.0, 70.0);
    form.exsufflation_cmH2O = -draw.between(15.0, 70.0);
    form.rest_cmH2O = draw.between(-0.8, 0.8);
    form.insufflation_s = draw.between(1.0, 3.0);
    form.exsufflation_s = draw.between(1.0, 3.0);
    form.pause_s = draw.between(1.0, 3.0);
    form.cycles = kLead + kCycles;
    if (study.oscillation) {
        form.oscillation_hz = draw.between(4.0, 20.0);
        form.oscillation_cmH2O = draw.between(2.0, 8.0);
    }
    return form;
}

trace::Instrument draw_instrument(Draw& draw)
{
    auto instrument = synthetic::instrument();
    instrument.range = {-100.0, 100.0, draw.one_of(std::array{0.001, 0.01, 0.1}), trace::PressureUnit::cmH2O};
    instrument.calibration.expanded_uncertainty = draw.between(0.05, 0.4);
    instrument.calibration.coverage_factor = 2.0;
    instrument.clock_ppm = draw.one_of(std::array{20.0, 100.0, 500.0});
    return instrument;
}

/// What this one transducer does on this day, drawn from what its file and its zero readings say.
struct Errors {
    double calibration_cmH2O, zero_cmH2O, drift_cmH2O, clock, noise_cmH2O;
};

Errors draw_errors(Draw& draw, const trace::Instrument& instrument)
{
    Errors errors{};
    const auto& calibration = instrument.calibration;
    errors.calibration_cmH2O = draw.normal() * calibration.expanded_uncertainty / calibration.coverage_factor;
    errors.drift_cmH2O = draw.between(-0.3, 0.3);
    errors.zero_cmH2O = std::abs(errors.drift_cmH2O) * draw.between(-1.0, 1.0);
    errors.clock = 1e-6 * instrument.clock_ppm * draw.between(-1.0, 1.0);
    errors.noise_cmH2O = draw.between(0.02, 0.15);
    return errors;
}

/// Writes the readings of a run: open port, cycling, open port.
class Recorder {
public:
    Recorder(Draw& draw, const trace::Instrument& instrument, const Errors& errors, double rate_hz)
        : draw_(draw), step_(instrument.range.resolution), errors_(errors), rate_hz_(rate_hz)
    {
    }

    void open_port(double offset_cmH2O, double seconds, RunLog& run, SpanKind what)
    {
        const double from_s = now_s_;
        read_until(from_s + seconds, [&](double) { return offset_cmH2O; });
        add_span(run, what, from_s);
        now_s_ += kBetween_s;
    }

    /// Returns the true time at which the pressure begins.
    double cycling(const CleanPressure& pressure, RunLog& run)
    {
        const double from_s = now_s_ + draw_.between(0.0, 1.0 / rate_hz_);
        now_s_ = from_s;
        const double off = errors_.calibration_cmH2O + errors_.zero_cmH2O;
        read_until(from_s + pressure.end_s(), [&](double t) { return pressure.at(t - from_s) + off; });
        add_span(run, SpanKind::automatic, from_s);
        now_s_ += kBetween_s;
        return from_s;
    }

    trace::Trace trace()
    {
        trace_.sampling.rate_hz = rate_hz_;
        return std::move(trace_);
    }

private:
    // The samples stand on one raster of the transducer's own clock, which the trace takes for the true one.
    template <class Pressure> void read_until(double end_s, Pressure pressure)
    {
        for (; true_s(count_) < now_s_; ++count_) {
        }
        for (; true_s(count_) < end_s; ++count_) {
            const double reading = pressure(true_s(count_)) + errors_.noise_cmH2O * draw_.normal();
            trace_.time_s.push_back(static_cast<double>(count_) / rate_hz_);
            trace_.pressure_cmH2O.push_back(std::round(reading / step_) * step_);
        }
        now_s_ = end_s;
    }

    [[nodiscard]] double true_s(std::size_t count) const
    {
        return static_cast<double>(count) / rate_hz_ / (1.0 + errors_.clock);
    }

    void add_span(RunLog& run, SpanKind what, double from_s)
    {
        Span span;
        span.what = what;
        span.from_s = from_s * (1.0 + errors_.clock);
        span.to_s = trace_.time_s.back();
        if (what == SpanKind::automatic) {
            span.preset = "day";
        }
        run.spans.push_back(span);
    }

    Draw& draw_;
    double step_;
    Errors errors_;
    double rate_hz_;
    double now_s_ = 0.0;
    std::size_t count_ = 0;
    trace::Trace trace_;
};

WorkOrder order_for(const CycleForm& form)
{
    auto order = synthetic::order();
    auto& preset = order.presets.front();
    preset.insufflation = {form.insufflation_cmH2O, form.insufflation_s};
    preset.exsufflation = {form.exsufflation_cmH2O, form.exsufflation_s};
    preset.pause = {0.0, form.pause_s};
    order.tolerances.zero->absolute = kBand_cmH2O;
    if (form.oscillation_cmH2O > 0.0) {
        preset.oscillation = OscillationSetting{form.oscillation_hz, form.oscillation_cmH2O, During::both};
    }
    return order;
}

/// True values of one cycle by the names that its quantities have.
std::map<std::string, double> truths(const CleanPressure& pressure, const CycleForm& form, std::size_t cycle)
{
    const auto truth = signal::analytic::truth_of(pressure);
    const std::size_t k = 1 + 3 * cycle; // a rest leads in
    const auto duration = [&](std::size_t i) { return truth[i + 1].onset_s - truth[i].onset_s; };
    const auto mid_level = [&](std::size_t i) { return truth[i + 1].mid_s - truth[i].mid_s; };
    std::map<std::string, double> all{
        {"insufflation-pressure", truth[k].level_cmH2O},   {"exsufflation-pressure", truth[k + 1].level_cmH2O},
        {"pause-residual", truth[k + 2].level_cmH2O},      {"insufflation-duration", duration(k)},
        {"exsufflation-duration", duration(k + 1)},        {"pause-duration", duration(k + 2)},
        {"insufflation-duration-mid-level", mid_level(k)}, {"exsufflation-duration-mid-level", mid_level(k + 1)},
        {"pause-duration-mid-level", mid_level(k + 2)},    {"rise-time", truth[k].time_10_90_s},
        {"swing-time", truth[k + 1].time_10_90_s},         {"release-time", truth[k + 2].time_10_90_s}};
    all["return-to-zero"] =
        signal::analytic::true_band_entry(pressure, truth[k + 2].onset_s, truth[k + 3].onset_s, 0.0, kBand_cmH2O) -
        truth[k + 2].onset_s;
    for (const auto* phase : {"insufflation", "exsufflation"}) {
        all[std::string(phase) + "-oscillation-frequency"] = form.oscillation_hz;
        all[std::string(phase) + "-oscillation-amplitude"] = form.oscillation_cmH2O;
    }
    return all;
}

void add(CoverageTable& table, const Cycle& cycle, const std::map<std::string, double>& truth)
{
    for (const auto& [name, quantity] : cycle.quantities) {
        const auto it = truth.find(name);
        if (it == truth.end()) {
            continue;
        }
        auto& row = table[name];
        const double error = quantity.value - it->second;
        const double uncertainty = quantity.expanded.expanded_uncertainty;
        ++row.traces;
        row.covered += std::abs(error) <= uncertainty ? 1 : 0;
        row.errors.push_back(error);
        row.uncertainties.push_back(uncertainty);
    }
}

void add_trace(CoverageTable& table, const CoverageStudy& study, std::uint64_t seed)
{
    Draw draw(seed);
    const auto form = draw_form(draw, study);
    const auto pressure = signal::analytic::cycling(form);
    const auto instrument = draw_instrument(draw);
    const auto errors = draw_errors(draw, instrument);
    const double drawn_hz = draw.one_of(std::array{100.0, 250.0, 1000.0});
    RunLog run;
    Recorder recorder(draw, instrument, errors, study.rate_hz > 0.0 ? study.rate_hz : drawn_hz);
    recorder.open_port(0.0, kZero_s, run, SpanKind::zero_before);
    recorder.cycling(pressure, run);
    recorder.open_port(errors.drift_cmH2O, kZero_s, run, SpanKind::zero_after);
    const auto trace = recorder.trace();
    const auto order = order_for(form);
    Evidence evidence;
    evidence.order = &order;
    evidence.trace = &trace;
    evidence.instrument = &instrument;
    evidence.run = &run;
    const TraceMeasurement built(evidence);
    const auto& cycles = built.measured_trace().cycles;
    // The last cycle has no pause of its own that is seen whole.
    const std::size_t chosen = kLead + draw.below(kCycles - 1);
    if (cycles.size() != static_cast<std::size_t>(form.cycles) || !cycles[chosen].judged) {
        ++table["(cycle not judged)"].traces;
        return;
    }
    add(table, cycles[chosen], truths(pressure, form, chosen));
}

} // namespace

double Coverage::share() const { return traces > 0 ? static_cast<double>(covered) / traces : 0.0; }

double Coverage::rms_error() const
{
    double sum = 0.0;
    for (const double error : errors) {
        sum += error * error;
    }
    return errors.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(errors.size()));
}

double Coverage::median_uncertainty() const { return signal::median(uncertainties).value_or(0.0); }

double Coverage::size() const { return errors.empty() ? 0.0 : median_uncertainty() / (2.0 * rms_error()); }

CoverageTable cover(const CoverageStudy& study)
{
    CoverageTable table;
    for (int i = 0; i < study.traces; ++i) {
        add_trace(table, study, study.first_seed + static_cast<std::uint64_t>(i));
    }
    return table;
}

} // namespace zeroline::verification
