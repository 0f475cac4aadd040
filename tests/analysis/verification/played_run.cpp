#include "tests/analysis/verification/played_run.hpp"

#include "acquisition/trace/calibration.hpp"
#include "fixtures/virtual_bench/simulation.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>

namespace zeroline::verification {

namespace {

using nlohmann::json;
using virtual_bench::Delivery;
using virtual_bench::Simulation;

constexpr double kMargin_s = 0.5; // a person is no stopwatch

json demonstration_file(const std::string& name)
{
    std::ifstream in(std::string(ZEROLINE_SOURCE_DIR) + "/fixtures/demonstration/" + name);
    return json::parse(in);
}

/// What was going on at one reading, as a person beside the bench sees it.
enum class Doing { open, idle, toggling, cycling };

Doing doing_now(const Simulation& life, bool toggled_before)
{
    if (!life.plugged())
        return Doing::open;
    if (life.command().automatic)
        return Doing::cycling;
    if (life.command().kind != virtual_bench::PhaseKind::rest)
        return Doing::toggling;
    return toggled_before ? Doing::toggling : Doing::idle;
}

/// Keeps the run log while the bench goes through its script.
class Diary {
public:
    explicit Diary(const WorkOrder& order) : order_(order) {}

    void see(double now_s, const Simulation& life)
    {
        const bool resting_long =
            life.command().kind == virtual_bench::PhaseKind::rest && now_s - life.command().start_s > 2.5;
        const auto doing = doing_now(life, doing_ == Doing::toggling && !resting_long);
        if (doing != doing_ || (doing == Doing::cycling && life.command().preset != preset_)) {
            close(now_s);
            doing_ = doing;
            since_s_ = now_s;
            preset_ = life.command().preset;
            asked_.clear();
        }
        if (doing == Doing::toggling)
            note_toggle(life.command());
        last_s_ = now_s;
    }

    std::vector<Span> spans()
    {
        close(last_s_);
        return std::move(spans_);
    }

private:
    void note_toggle(const virtual_bench::PhaseCommand& command)
    {
        if (command.kind == virtual_bench::PhaseKind::rest || command.start_s == toggled_s_)
            return;
        toggled_s_ = command.start_s;
        asked_.push_back(command.kind == virtual_bench::PhaseKind::insufflation ? Step::insufflation
                                                                                : Step::exsufflation);
    }

    void close(double now_s)
    {
        Span span;
        span.from_s = since_s_;
        span.to_s = now_s;
        switch (doing_) {
        case Doing::idle:
            return;
        case Doing::open:
            span.what = spans_.empty() ? SpanKind::zero_before : SpanKind::zero_after;
            span.from_s += spans_.empty() ? 0.0 : 2.0 * kMargin_s;
            span.to_s -= 2.0 * kMargin_s;
            break;
        case Doing::toggling:
            span.what = SpanKind::manual;
            span.asked = asked_;
            span.from_s -= kMargin_s;
            break;
        case Doing::cycling:
            span.what = SpanKind::automatic;
            span.power = "mains";
            span.from_s -= kMargin_s;
            span.to_s += kMargin_s;
            break;
        }
        if (span.what == SpanKind::manual || span.what == SpanKind::automatic)
            span.preset = order_.presets[preset_].name;
        if (span.to_s > span.from_s)
            spans_.push_back(span);
    }

    const WorkOrder& order_;
    std::vector<Span> spans_;
    std::vector<Step> asked_;
    Doing doing_ = Doing::open;
    double since_s_ = 0.0, last_s_ = 0.0, toggled_s_ = -1.0;
    std::size_t preset_ = 0;
};

void append_event(trace::RawTrace& raw, double arrival_s, trace::NoteKind kind, const std::string& text)
{
    raw.notes.push_back({raw.moment_s.size(), kind, text});
    raw.moment_s.push_back(arrival_s);
    raw.pressure.push_back(std::nan(""));
    raw.count.push_back(-1);
}

/// Writes readings as a capture does.
class Scribe {
public:
    explicit Scribe(trace::PressureUnit unit)
    {
        raw_.unit = unit;
        raw_.from_arrivals = true;
    }

    void write(const Delivery& delivery)
    {
        const auto& reading = delivery.reading;
        if (delivery.connected != connected_) {
            append_event(raw_, reading.arrival_s, delivery.connected ? trace::NoteKind::back : trace::NoteKind::lost,
                         delivery.connected ? "back" : "lost");
            connected_ = delivery.connected;
        }
        if (delivery.connected && delivery.sent && delivery.damage != Delivery::Damage::none)
            append_event(raw_, reading.arrival_s, trace::NoteKind::other, "discarded 12 bytes");
        if (reading.dropped || !delivery.sent || !delivery.connected)
            return;
        if (std::isnan(reading.value))
            raw_.notes.push_back({raw_.moment_s.size(), trace::NoteKind::overrange, "overrange"});
        raw_.moment_s.push_back(reading.arrival_s);
        raw_.pressure.push_back(reading.value);
        raw_.count.push_back(reading.count);
    }

    trace::RawTrace trace() { return std::move(raw_); }

private:
    trace::RawTrace raw_;
    bool connected_ = true;
};

/// What the front panel shows goes into the log: displayed values, and settings where they are not as prescribed.
void read_panel(const json& panel, const WorkOrder& order, RunLog& run)
{
    run.displayed.emplace();
    for (const auto& preset : order.presets) {
        const auto& shown = panel.at("presets").at(preset.name).at("displayed");
        const auto value = [&](const char* phase) {
            return shown.at(phase).is_null() ? std::optional<double>() : std::optional(shown.at(phase).get<double>());
        };
        run.displayed->push_back({preset.name, value("insufflation"), value("exsufflation"), Shows::live});
        const auto& set = panel.at("presets").at(preset.name).at("set");
        Settings settings;
        settings.insufflation_pressure = set.at("insufflation").at("pressure").get<double>();
        settings.exsufflation_pressure = set.at("exsufflation").at("pressure").get<double>();
        for (auto& span : run.spans)
            if (span.preset == preset.name)
                span.set = settings;
    }
}

/// Spans end with the trace: an adapter that was pulled takes the rest of the run with it.
void keep_within(std::vector<Span>& spans, const trace::Trace& trace)
{
    const double last_s = trace.time_s.back();
    spans.erase(
        std::remove_if(spans.begin(), spans.end(), [&](const Span& span) { return span.from_s > last_s - 1.0; }),
        spans.end());
    for (auto& span : spans) {
        span.from_s = std::max(span.from_s, trace.time_s.front());
        span.to_s = std::min(span.to_s, last_s);
    }
}

} // namespace

Evidence PlayedRun::evidence() const
{
    Evidence evidence;
    evidence.order = &order;
    evidence.trace = &trace;
    evidence.instrument = &instrument;
    evidence.run = &run;
    evidence.origin = Origin::simulated;
    return evidence;
}

virtual_bench::BenchSettings house_settings(bool oscillation)
{
    virtual_bench::BenchSettings settings;
    auto order = demonstration_file("order.json");
    order.erase("tolerances");
    if (oscillation)
        order["prescription"]["presets"][0]["oscillation"] = {{"frequency", 10}, {"amplitude", 4}, {"during", "both"}};
    settings.order = parse_work_order(order);
    settings.instrument = trace::parse_instrument(demonstration_file("instrument.json"));
    return settings;
}

virtual_bench::BenchSettings varied_settings(std::uint64_t seed, bool oscillation)
{
    std::mt19937_64 random(seed);
    const auto one_of = [&](std::vector<double> values) {
        return values[std::uniform_int_distribution<std::size_t>(0, values.size() - 1)(random)];
    };
    auto order = demonstration_file("order.json");
    order.erase("tolerances");
    auto& preset = order["prescription"]["presets"][0];
    preset["insufflation"] = {{"pressure", one_of({15, 20, 25, 30, 35, 40, 45, 50, 55, 60})},
                              {"duration", one_of({1.0, 1.5, 2.0, 2.5, 3.0})}};
    preset["exsufflation"] = {{"pressure", -one_of({15, 20, 25, 30, 35, 40, 45, 50, 55, 60})},
                              {"duration", one_of({1.0, 1.5, 2.0, 2.5, 3.0})}};
    preset["pause"] = {{"duration", one_of({0.5, 1.0, 2.0, 3.0})}};
    preset["flow"] = one_of({0, 0, 0, 1}) > 0.5 ? "reduced" : "full";
    // Up to a tenth of the smaller pressure: the end of the hose raises it by up to half.
    const double smaller =
        std::min(preset["insufflation"]["pressure"].get<double>(), -preset["exsufflation"]["pressure"].get<double>());
    if (oscillation)
        preset["oscillation"] = {{"frequency", one_of({5, 8, 10, 15, 20})},
                                 {"amplitude", 0.1 * smaller},
                                 {"during", one_of({0, 1}) > 0.5 ? "both" : "exsufflation"}};
    auto instrument = demonstration_file("instrument.json");
    instrument["rate"]["nominal_hz"] = one_of({100, 200, 250, 500});
    instrument["range"]["resolution"] = one_of({0.01, 0.05, 0.1});
    virtual_bench::BenchSettings settings;
    settings.order = parse_work_order(order);
    settings.instrument = trace::parse_instrument(instrument);
    settings.seed = seed;
    return settings;
}

PlayedRun played(const virtual_bench::BenchSettings& settings)
{
    PlayedRun run;
    run.order = settings.order;
    run.instrument = settings.instrument;
    Simulation life(settings);
    Diary diary(settings.order);
    Scribe scribe(settings.instrument.language.unit);
    while (!life.finished()) {
        const auto delivery = life.next();
        diary.see(delivery.reading.sample_s, life);
        scribe.write(delivery);
    }
    run.trace = trace::derive(scribe.trace(), &run.instrument);
    run.run.spans = diary.spans();
    keep_within(run.run.spans, run.trace);
    run.run.began = "2026-11-25T09:12:04+01:00";
    run.run.confirmed = {"no-patient-connected", "outlet-blocked", "trigger-off"};
    run.run.restored = true;
    run.run.origin = Origin::simulated;
    read_panel(json::parse(life.panel()), run.order, run.run);
    return run;
}

// Codes and accepted findings as in docs/diagnosis.md; the sizes are the bench's own.
const std::vector<ListedFault>& listed_faults()
{
    static const std::vector<ListedFault> all{
        {"low-insufflation", {"insufflation-off"}, "fail"},
        {"low-exsufflation", {"exsufflation-off"}, "fail"},
        {"over-pressure", {"over-pressure"}, "fail, critical"},
        {"weak-blower", {"same-ratio-pressure", "insufflation-off+exsufflation-off"}, "fail"},
        {"worn-blower", {"none"}, "pass"},
        {"leak", {"same-ratio-pressure", "insufflation-off+exsufflation-off"}, "fail"},
        {"leaky-plug", {"same-ratio-pressure", "insufflation-off+exsufflation-off"}, "fail"},
        {"span-error", {"same-ratio-pressure", "insufflation-off+exsufflation-off"}, "fail"},
        {"one-way-leak", {"insufflation-off", "exsufflation-off"}, "fail"},
        {"battery-fade", {"pressure-drift"}, "fail"},
        {"warm-up", {"first-cycle"}, "pass"},
        {"display-wrong", {"display-differs"}, "fail"},
        {"settings-wrong", {"settings-differ"}, "fail"},
        {"residual", {"residual-pressure"}, "fail"},
        {"slow-return", {"slow-return"}, ""},
        {"trapped-gas", {"trapped-gas"}, ""},
        {"slow-swing", {"slow-swing"}, ""},
        {"blocked-filter", {"soft-hose-end"}, "incomplete"},
        {"kinked-line", {"soft-hose-end"}, "incomplete"},
        {"sticking-valve", {"irregular-swing", "irregular-timing"}, ""},
        {"timer-one-phase", {"one-duration-off"}, "fail"},
        {"timer-ratio", {"same-ratio-timing"}, "fail"},
        {"clock-error", {"none"}, "pass"},
        {"irregular-timing", {"irregular-timing"}, ""},
        {"missed-phase", {"missing-exsufflation", "missing-insufflation"}, "fail"},
        {"reversed", {"reversed-order"}, "fail, critical"},
        {"trigger-on", {"long-pause"}, "incomplete"},
        {"series-ends", {"series-ended", "none"}, "pass"},
        {"droop", {"droop"}, ""},
        {"overshoot", {"overshoot"}, ""},
        {"oscillation-left-on", {"oscillation"}, ""},
        {"oscillation-weak", {"oscillation-off"}, ""},
        {"hand-as-plug", {"wobble", "soft-hose-end"}, ""},
        {"plug-off", {"plug-off"}, ""},
        {"breathing", {"breathing"}, "incomplete, critical"},
        {"lung", {"soft-hose-end", "breathing"}, "incomplete"},
        {"breathing-lung", {"soft-hose-end", "breathing"}, ""},
        {"touched", {"one-cycle-unlike"}, "incomplete"},
        {"slow-sensor", {"slow-response", "none"}, ""},
        {"zero-offset", {"zero-offset"}, "incomplete"},
        {"zero-drift", {"zero-drift"}, "incomplete"},
        {"unit-mismatch", {"unit-mismatch"}, "incomplete"},
        {"absolute-sensor", {"absolute-sensor"}, "incomplete"},
        {"one-sided-sensor", {"one-sided"}, "incomplete"},
        {"clipped", {"clipped"}, "incomplete"},
        {"stuck-reading", {"stuck-reading"}, "incomplete"},
        {"swapped-ports", {"swapped-ports"}, "incomplete, critical"},
        {"line-resonance", {"ringing"}, "pass"},
        {"hose-resonance", {"ringing"}, "pass"},
        {"slow-sampling", {"undersampled", "none"}, ""},
        {"usb-batches", {"batched"}, "pass"},
        {"mains-hum", {"hum"}, "pass"},
        {"spikes", {"spikes"}, "pass"},
        {"dropped-samples", {"gap", "discarded-bytes"}, ""},
        {"garbage-bytes", {"gap", "discarded-bytes"}, ""},
        {"torn-frames", {"gap", "discarded-bytes"}, ""},
        {"unplugged", {"gap"}, "incomplete"},
        {"unplugged-and-back", {"gap"}, ""}};
    return all;
}

virtual_bench::BenchSettings settings_with(const std::string& code, double size, std::uint64_t seed)
{
    auto settings = house_settings(code == "oscillation-weak");
    settings.seed = seed;
    virtual_bench::Fault fault;
    fault.code = code;
    if (size != 0.0)
        fault.size = size;
    settings.faults.push_back(fault);
    return settings;
}

std::string verdict_of(const Assessment& result)
{
    return std::string(metrology::word_of(result.verdict)) + (result.critical ? ", critical" : "");
}

bool is_named(const ListedFault& fault, const std::vector<Finding>& findings)
{
    const auto raised = [&](const std::string& code) {
        return std::any_of(findings.begin(), findings.end(),
                           [&](const Finding& finding) { return finding.code == code; });
    };
    return std::any_of(fault.accepted.begin(), fault.accepted.end(), [&](std::string codes) {
        if (codes == "none")
            return true;
        for (auto plus = codes.find('+'); plus != std::string::npos; plus = codes.find('+')) {
            if (!raised(codes.substr(0, plus)))
                return false;
            codes.erase(0, plus + 1);
        }
        return raised(codes);
    });
}

} // namespace zeroline::verification
