#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "analysis/record/record.hpp"
#include "analysis/verification/assessment.hpp"
#include "tests/fuzz/input_bytes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string_view>

// A whole assessment: a trace file is read, its sample times derived, the run judged and its record written. Six bytes
// of options; then the text of a trace file, or stretches of four bytes that say what the hose did and which spans the
// operator marked.

namespace {

using namespace zeroline;
using verification::SpanKind;
using zeroline::fuzz::Bytes;
using zeroline::fuzz::require;

struct Options {
    explicit Options(Bytes& bytes)
        : rate(bytes.next()), evidence(bytes.next()), preset(bytes.next()), log(bytes.next()), zero_s(bytes.next()),
          tail_s(bytes.next())
    {
    }
    std::uint8_t rate, evidence, preset, log, zero_s, tail_s;

    [[nodiscard]] double rate_hz() const { return std::array{250.0, 100.0, 50.0, 20.0, 10.0, 1000.0}[rate % 6U]; }
    [[nodiscard]] bool text() const { return (rate & 0x80U) != 0; }
    [[nodiscard]] bool arrivals() const { return (rate & 0x40U) != 0; }
    [[nodiscard]] bool has(unsigned bit) const { return (evidence >> bit & 1U) == 0; } ///< all there unless said
};

verification::WorkOrder order_of(const Options& options)
{
    verification::WorkOrder order;
    order.work_order = "W";
    order.cycles = 1 + options.preset % 4;
    order.lead_cycles = options.preset >> 2U & 1U;
    order.decision_rule = (options.preset & 8U) != 0 ? metrology::Rule::guarded : metrology::Rule::simple;
    verification::Preset preset;
    preset.name = "day";
    preset.insufflation = {40.0, 1.0};
    preset.exsufflation = {-40.0, 1.0};
    preset.pause = {0.0, (options.preset & 16U) != 0 ? 0.0 : 1.0};
    if ((options.preset & 32U) != 0) {
        preset.oscillation = verification::OscillationSetting{10.0, 5.0, verification::During::both};
    }
    if ((options.preset & 64U) != 0) {
        preset.series = verification::Series{2, 2, 3.0};
    }
    if ((options.preset & 128U) != 0) {
        using verification::Step;
        preset.sequence = {Step::insufflation, Step::insufflation, Step::exsufflation, Step::pause};
    }
    order.presets.push_back(preset);
    return order;
}

trace::Instrument instrument_of(const Options& options)
{
    trace::Instrument instrument;
    instrument.name = "T";
    instrument.range = {-100.0, 100.0, 0.01, trace::PressureUnit::cmH2O};
    instrument.nominal_hz = options.rate_hz();
    instrument.clock_ppm = 100.0;
    instrument.calibration.certificate = "C";
    instrument.calibration.on = "2026-01-01";
    instrument.calibration.due = "2027-01-01";
    instrument.calibration.expanded_uncertainty = 0.2;
    instrument.calibration.low = -60.0;
    instrument.calibration.high = 60.0;
    return instrument;
}

verification::RunLog log_of(const Options& options)
{
    verification::RunLog run;
    run.began = "2026-11-25T09:12:04+01:00";
    run.confirmed = {"no-patient-connected", "outlet-blocked", "trigger-off"};
    run.displayed =
        std::vector<verification::Displayed>{{"day", 40.0, -40.0, static_cast<verification::Shows>(options.log % 5U)}};
    run.restored = (options.log & 128U) == 0;
    return run;
}

/// What the hose did, written row by row.
class Bench {
public:
    Bench(Bytes& bytes, const Options& options, verification::RunLog& run)
        : bytes_(bytes), step_s_(1.0 / options.rate_hz()), run_(run)
    {
        raw_.from_arrivals = options.arrivals();
        while (bytes_.size >= 4 && raw_.moment_s.size() < kMostRows) {
            const unsigned what = bytes_.next();
            const auto level = static_cast<std::int8_t>(bytes_.next());
            const unsigned length = bytes_.next();
            stretch(what, level, length, bytes_.next());
        }
        end_span();
    }

    [[nodiscard]] std::string csv() const { return trace::to_csv(raw_); }

private:
    static constexpr std::size_t kMostRows = 8000;
    static constexpr double kLevel_cmH2O = 0.5, kLength_s = 0.02, kEdge_s = 0.004;

    void stretch(unsigned what, std::int8_t level, unsigned length, unsigned detail)
    {
        switch (what % 12U) {
        case 8:
            now_s_ += kLength_s * length;
            break;
        case 9:
            row(2.0 * level, trace::NoteKind::other);
            break;
        case 10:
            row(std::numeric_limits<double>::quiet_NaN(), trace::NoteKind::overrange);
            break;
        case 11:
            end_span();
            begin_span(length);
            break;
        default:
            dwell(kLevel_cmH2O * level, kLength_s * length, kEdge_s * (detail & 31U), 0.25 * (detail >> 5U));
        }
    }

    void dwell(double level, double length_s, double edge_s, double swing)
    {
        const double from = level_, begin_s = now_s_;
        while (now_s_ < begin_s + length_s && raw_.moment_s.size() < kMostRows) {
            const double since_s = now_s_ - begin_s;
            const double done = edge_s > 0.0 ? 1.0 - std::exp(-since_s / edge_s) : 1.0;
            noise_ = noise_ * 1664525U + 1013904223U;
            const double noise = 0.1 * (static_cast<double>(noise_ >> 16U) / 65536.0 - 0.5);
            row(from + done * (level - from) + swing * swing * std::sin(63.0 * since_s) + noise,
                trace::NoteKind::other);
        }
        level_ = level;
    }

    void row(double pressure, trace::NoteKind note)
    {
        if (note == trace::NoteKind::overrange) {
            raw_.notes.push_back({raw_.moment_s.size(), note, "overrange"});
        }
        raw_.moment_s.push_back(now_s_);
        raw_.pressure.push_back(std::round(pressure * 100.0) / 100.0);
        now_s_ += step_s_;
    }

    void begin_span(unsigned what)
    {
        constexpr std::array kKinds{SpanKind::automatic, SpanKind::zero_before, SpanKind::zero_after,
                                    SpanKind::manual,    SpanKind::ladder,      SpanKind::leak_test};
        verification::Span span;
        span.what = kKinds[what % kKinds.size()];
        span.preset = verification::is_cycling(span.what) ? "day" : "";
        span.from_s = now_s_;
        if (span.what == SpanKind::manual) {
            span.asked = {verification::Step::insufflation, verification::Step::exsufflation};
        }
        run_.spans.push_back(span);
        open_ = true;
    }

    void end_span()
    {
        if (open_) {
            run_.spans.back().to_s = now_s_ - step_s_;
        }
        if (open_ && run_.spans.back().to_s <= run_.spans.back().from_s) {
            run_.spans.pop_back();
        }
        open_ = false;
    }

    Bytes& bytes_;
    double step_s_;
    verification::RunLog& run_;
    trace::RawTrace raw_;
    double now_s_ = 0.0, level_ = 0.0;
    std::uint32_t noise_ = 1;
    bool open_ = false;
};

/// Zero at both ends, cycling between them.
void mark_spans(verification::RunLog& run, const trace::Trace& trace, const Options& options)
{
    if (trace.size() < 2) {
        return;
    }
    const double first = trace.time_s.front(), last = trace.time_s.back();
    const double before = std::min(last, first + 0.05 * options.zero_s);
    const double after = std::max(before, last - 0.05 * options.tail_s);
    const auto add = [&](SpanKind what, double from_s, double to_s) {
        verification::Span span;
        span.what = what;
        span.preset = verification::is_cycling(what) ? "day" : "";
        span.from_s = from_s;
        span.to_s = to_s;
        if (to_s > from_s) {
            run.spans.push_back(span);
        }
    };
    add(SpanKind::zero_before, first, before);
    add(SpanKind::automatic, before, after);
    add(SpanKind::zero_after, after, last);
}

void require_sound(const verification::Judgement& judgement)
{
    using metrology::Outcome;
    require(!judgement.expanded_uncertainty || *judgement.expanded_uncertainty >= 0.0); // no NaN either
    require(!judgement.worst || std::isfinite(*judgement.worst));
    require(!judgement.probability_outside ||
            (*judgement.probability_outside >= 0.0 && *judgement.probability_outside <= 1.0 + 1e-12));
    if (judgement.verdict == Outcome::pass) {
        require(judgement.worst && metrology::margin(*judgement.worst, judgement.limits) >= 0.0);
    }
}

/// What could not be seen does not pass, and every figure is one.
void require_sound(const verification::Evidence& evidence, const verification::Assessment& result)
{
    using metrology::Outcome;
    for (const auto& judgement : result.judgements) {
        require_sound(judgement);
        const bool seen = evidence.run != nullptr && evidence.instrument != nullptr && result.zero.before;
        require(seen || judgement.verdict == Outcome::incomplete || judgement.verdict == Outcome::not_judged);
    }
    for (const auto& cycle : result.cycles) {
        for (const auto& [name, quantity] : cycle.quantities) {
            require(std::isfinite(quantity.value) && quantity.expanded.expanded_uncertainty >= 0.0);
        }
    }
    const auto text = record::to_json(evidence, result, {"0", "0"}).dump();
    require(!text.empty());
    (void)record::budgets_to_json(result).dump();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    Bytes bytes{data, size};
    const Options options(bytes);
    const auto order = order_of(options);
    const auto instrument = instrument_of(options);
    auto run = log_of(options);
    try {
        const auto raw = options.text()
                             ? trace::parse_trace_csv({reinterpret_cast<const char*>(bytes.data), bytes.size})
                             : trace::parse_trace_csv(Bench(bytes, options, run).csv());
        const auto trace = trace::derive(raw, options.has(0) ? &instrument : nullptr);
        if (options.text()) {
            mark_spans(run, trace, options);
        }
        verification::Evidence evidence;
        evidence.order = &order;
        evidence.trace = &trace;
        evidence.instrument = options.has(0) ? &instrument : nullptr;
        evidence.run = options.has(1) ? &run : nullptr;
        require_sound(evidence, verification::assess(evidence));
    } catch (const trace::InputError&) {
    }
    return 0;
}
