#include "tests/gui/print/made_record.hpp"

#include "gui/records/capture_journal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/sealing.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

namespace zeroline::print {

namespace fs = std::filesystem;
using nlohmann::json;

namespace {

constexpr double kRate_hz = 250.0;

json demonstration(const std::string& name)
{
    return records::load_json(fs::path(ZEROLINE_SOURCE_DIR) / "fixtures" / "demonstration" / name);
}

/// Levels one after the other, each reached by a first-order edge of 20 ms, with a small regular ripple.
class Signal {
public:
    void hold(double level, double seconds)
    {
        constexpr double time_constant_s = 0.02;
        const auto count = std::lround(seconds * kRate_hz);
        for (long i = 0; i < count; ++i) {
            value_ += (level - value_) * (1.0 - std::exp(-1.0 / (kRate_hz * time_constant_s)));
            char line[64];
            std::snprintf(line, sizeof line, "%.3f,%.3f\n", time_s(), value_ + 0.03 * std::sin(1.7 * ++samples_));
            text_ += line;
        }
    }
    [[nodiscard]] double time_s() const { return samples_ / kRate_hz; }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    double value_ = 0.0;
    double samples_ = 0.0;
    std::string text_ = "time_s,pressure_cmH2O\n";
};

/// Runs something and notes it as a span.
template <typename Act> void in_span(Signal& signal, json& spans, json span, Act act)
{
    signal.hold(0.0, 1.0);
    span["from_s"] = signal.time_s();
    act();
    span["to_s"] = signal.time_s();
    spans.push_back(std::move(span));
}

void run_preset(const MadeRecord& made, const json& preset, Signal& signal, json& spans)
{
    // What is off in the first preset is off by the same in every other.
    const double up = preset["insufflation"]["pressure"].get<double>() + made.insufflation - 40.0;
    const double down = preset["exsufflation"]["pressure"].get<double>() + made.exsufflation + 40.0;
    in_span(signal, spans,
            {{"what", "manual"}, {"preset", preset["name"]}, {"asked", {"insufflation", "exsufflation"}}}, [&] {
                signal.hold(0.0, 1.0);
                signal.hold(up, 3.0);
                signal.hold(0.0, 2.0);
                signal.hold(down, 3.0);
                signal.hold(0.0, 2.0);
            });
    in_span(signal, spans, {{"what", "automatic"}, {"preset", preset["name"]}}, [&] {
        signal.hold(0.0, 1.0);
        for (int cycle = 0; cycle < 7; ++cycle) {
            signal.hold(up, preset["insufflation"]["duration"]);
            signal.hold(down, preset["exsufflation"]["duration"]);
            signal.hold(made.residual, preset["pause"]["duration"]);
        }
    });
}

std::string run_everything(const MadeRecord& made, json& spans)
{
    Signal signal;
    in_span(signal, spans, {{"what", "zero-before"}}, [&] { signal.hold(0.0, 5.0); });
    for (const auto& preset : made.order["prescription"]["presets"]) {
        run_preset(made, preset, signal, spans);
    }
    in_span(signal, spans, {{"what", "zero-after"}}, [&] { signal.hold(0.0, 5.0); });
    signal.hold(0.0, 1.0);
    return signal.text();
}

json displays_for(const json& presets)
{
    json displays = json::array();
    for (const auto& preset : presets) {
        displays.push_back({{"preset", preset["name"]},
                            {"insufflation", preset["insufflation"]["pressure"]},
                            {"exsufflation", preset["exsufflation"]["pressure"]},
                            {"shows", "live"}});
    }
    return displays;
}

} // namespace

MadeRecord healthy()
{
    MadeRecord made;
    made.order = demonstration("order.json");
    made.order["prescription"]["ordered_on"] = "2026-08-02"; // nobody runs an order before it was given
    made.instrument = demonstration("instrument.json");
    made.bench = demonstration("bench.json");
    made.bench["interval_months"] = 6;
    made.run = {{"schema", "zeroline/run/1"},
                {"operator", "Jane Example"},
                {"place", "workshop 2"},
                {"began", "2026-08-31T09:12:04+02:00"},
                {"attempt", 1},
                {"confirmed", {"no-patient-connected", "outlet-blocked", "trigger-off"}},
                {"displayed", displays_for(made.order["prescription"]["presets"])},
                {"hose", {{"kind", "test"}, {"length_m", 1.8}, {"bore_mm", 22}}},
                {"settings_found", {{"day", {{"insufflation", {{"pressure", 40}}}, {"trigger", "on"}}}}},
                {"settings_left", {{"day", {{"insufflation", {{"pressure", 40}}}, {"trigger", "on"}}}}},
                {"restored", true},
                {"origin", "captured-here"},
                {"checklist", {{{"item", "intake filter"}, {"outcome", "ok"}, {"remark", "new"}}}},
                {"environment", {{"temperature_C", 22.5}, {"pressure_hPa", 1008}, {"humidity_percent", 41}}}};
    return made;
}

MadeRecord with_three_presets()
{
    auto made = healthy();
    auto& presets = made.order["prescription"]["presets"];
    for (const auto* name : {"chest infection", "night, as long a name as anybody gives one"}) {
        presets.push_back(presets[0]);
        presets.back()["name"] = name;
    }
    presets[1]["insufflation"]["pressure"] = 45;
    presets[1]["exsufflation"]["pressure"] = -50;
    made.order["tolerances"].erase("pressure"); // so that house limits stand beside those of the order
    made.order["decision_rule"] = "guarded";
    made.order["customer"] = "Regional Centre for Long-Term Ventilation at Home, ward 4, second floor, room 12";
    made.order["unit"]["asset"] = "RC-0117-A-LONG-INVENTORY-NUMBER-00042";
    made.order["unit"]["model"] = "demonstration unit with a name that goes on for quite a while, series II";
    made.order["contact"] = "out-of-hours service desk of the supplier of the demonstration, +00 000 0000, ext. 1234";
    made.run["displayed"] = displays_for(presets);
    return made;
}

void make_record(const MadeRecord& made, const fs::path& folder)
{
    json spans = json::array();
    const auto trace = run_everything(made, spans);
    json run = made.run;
    run["spans"] = spans;
    fs::create_directories(folder);
    const auto put = [&](const std::string& name, const std::string& text) {
        records::write_file_whole(folder / name, text);
    };
    put(records::name::trace, trace);
    put(records::name::order, made.order.dump(2));
    put(records::name::instrument, made.instrument.dump(2));
    put(records::name::bench, made.bench.dump(2));
    if (made.with_run) {
        put(records::name::run, run.dump(2));
    }
    put(records::name::record, records::assess(records::load_record_evidence(folder)).record_json);
}

void seal_record(const MadeRecord& made, const fs::path& folder, const fs::path& key_file,
                 const records::Signature& signature)
{
    fs::path part = folder;
    part += ".part";
    make_record(made, part);
    const auto taken = records::RecordFolder::take_up(part);
    if (made.run.value("origin", "") != "imported") {
        const bool here = made.run.value("origin", "") == "captured-here";
        const auto origin = here ? verification::Origin::captured_here : verification::Origin::simulated;
        records::CaptureJournal journal(taken, records::SigningKey::load_or_make(key_file),
                                        {origin, made.run.value("began", "")});
        EXPECT_EQ(journal.trace_grew(records::read_file(part / records::name::trace)), "");
        journal.log(records::load_json(part / records::name::run));
        journal.end("completed");
    }
    const auto evidence = records::load_record_evidence(part);
    const records::SealRequest request{
        signature, key_file, {}, "WO-2041-" + std::to_string(made.run.value("attempt", 1))};
    const auto sealing = records::seal_and_rename(taken, evidence, records::assess(evidence), request);
    EXPECT_TRUE(sealing.missing.empty()) << testing::PrintToString(sealing.missing);
}

void change_record(const fs::path& folder, const std::function<void(nlohmann::ordered_json&)>& change)
{
    const auto file = folder / records::name::record;
    auto tree = nlohmann::ordered_json::parse(records::read_file(file));
    change(tree);
    records::write_file_whole(file, tree.dump(2));
}

} // namespace zeroline::print
