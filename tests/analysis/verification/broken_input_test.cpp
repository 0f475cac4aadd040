// Input that cannot be meant: each kind is refused with the place where it stands and a sentence that says why.

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/instrument.hpp"
#include "analysis/verification/bench_file.hpp"
#include "analysis/verification/run_log.hpp"
#include "analysis/verification/work_order.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <functional>

namespace zeroline::verification {
namespace {

using nlohmann::json;

json good_order()
{
    return json::parse(R"({
      "schema": "zeroline/work-order/1", "work_order": "WO-2041", "occasion": "pre-delivery", "customer": "ward 4",
      "unit": {"asset": "RC-0117", "serial": "K4471", "model": "demonstration unit", "hours": 1204, "display_step": 1},
      "prescription": {"reference": "RX-88", "ordered_on": "2026-11-02", "presets": [
        {"name": "day", "insufflation": {"pressure": 40, "duration": 1.5},
         "exsufflation": {"pressure": -40, "duration": 1.5}, "pause": {"duration": 2.0, "pressure": 0},
         "flow": "full", "trigger": "on", "sequence": ["insufflation", "exsufflation", "pause"],
         "oscillation": {"frequency": 10, "amplitude": 4, "during": "both"},
         "series": {"breaths": 6, "count": 5, "rest": 25}},
        {"name": "night", "insufflation": {"pressure": 30, "duration": 2},
         "exsufflation": {"pressure": -45, "duration": 1}, "pause": {"duration": 0},
         "flow": {"class": "reduced", "as_labelled": "gentle"}}]},
      "tolerances": {"basis": "service manual of the unit, section 5", "approved_by": "technical lead",
        "pressure": {"absolute": 2.0, "relative": 0.05, "exsufflation": {"lower": 1, "upper": 5, "basis": "letter"}},
        "duration": {"absolute": 0.1, "relative": 0.10, "combine": "sum", "at_most": 0.3, "definition": "mid-level",
                     "pause": {"relative": 0.2}},
        "residual": {"absolute": 1.0}, "zero": {"absolute": 1.0, "within": 0.5}, "display": {"absolute": 3.0},
        "oscillation_frequency": {"relative": 0.1}, "oscillation_amplitude": {"absolute": 1}, "limits": {"peak": 62}},
      "decision_rule": "simple", "cycles": 5, "lead_cycles": 1, "contact": "service desk, +00 000 0000"})");
}

json good_run()
{
    return json::parse(R"({
      "schema": "zeroline/run/1", "operator": "operator 3", "place": "workshop",
      "began": "2026-11-25T09:12:04+01:00", "attempt": 2,
      "replaces": {"attempt": 1, "cause": "plug", "evidence": "leak test 0.2 cmH2O/s after a new plug"},
      "spans": [
        {"what": "zero-before", "from_s": 0.0, "to_s": 5.0},
        {"what": "manual", "preset": "day", "from_s": 9.0, "to_s": 31.0, "asked": ["insufflation", "exsufflation"]},
        {"what": "automatic", "preset": "day", "from_s": 35.0, "to_s": 66.0, "power": "mains",
         "set": {"insufflation": {"pressure": 45}, "oscillation": "off"}, "from_count": 10, "to_count": 9000},
        {"what": "strength", "preset": "day", "from_s": 66.0, "to_s": 69.0,
         "orifice": {"name": "plate 2", "diameter": 8.0}},
        {"what": "zero-after", "from_s": 70.0, "to_s": 75.0}],
      "first_strength": {"on": "2024-05-02", "record": "R-7", "diameter": 8.0, "insufflation": 0.87},
      "confirmed": ["no-patient-connected", "outlet-blocked", "trigger-off"],
      "displayed": [{"preset": "day", "insufflation": 40, "exsufflation": -40, "shows": "live"}],
      "hose": {"kind": "test", "length_m": 1.8, "bore_mm": 22},
      "settings_found": {"day": {"insufflation": {"pressure": 40}, "trigger": "on", "alarms": "on", "mode": "automatic"}},
      "settings_left": {"day": {"insufflation": {"pressure": 40}, "trigger": "on", "flow": "full",
                        "series": {"breaths": 6, "count": 5, "rest": 25}}},
      "restored": true, "origin": "captured-here",
      "checklist": [{"item": "intake filter", "outcome": "ok", "remark": ""}],
      "skipped": [{"what": "manual", "preset": "day", "reason": "no manual mode"}, {"what": "zero-after", "reason": "none"}],
      "environment": {"temperature_C": 22.5, "pressure_hPa": 1008, "humidity_percent": 41,
                      "instrument_on_s": 1200},
      "disposition": {"unit": "kept-out", "reason": "weak", "loaner": "RC-0200", "adjusted_by": "o", "authorised": true}})");
}

json good_bench()
{
    return json::parse(R"({
      "schema": "zeroline/bench/1", "organisation": "Workshop", "address": "Street 1", "register": "sqlite:units.db",
      "language": "de-AT", "decimal_mark": ",", "key_file": "bench.key", "sounds": false,
      "duty": {"cycling_s": 60, "rest_s": 45}, "interval_months": 12,
      "house": {"basis": "our own figures", "approved_by": "lead", "limits": {"zero_offset": 0.4, "peak_hold": 0.2},
                "tolerances": {"pressure": {"absolute": 3}, "limits": {"peak": 65}}}})");
}

json good_instrument()
{
    return json::parse(R"({
      "schema": "zeroline/instrument/1", "name": "bench transducer 2", "serial": "PT-3310",
      "port": {"baud": 115200, "data_bits": 8, "parity": "none", "stop_bits": 1},
      "language": {"kind": "numeric-lines", "field": 1, "separator": ",", "unit": "cmH2O"},
      "range": {"low": -100, "high": 100, "resolution": 0.01, "unit": "cmH2O"},
      "rate": {"nominal_hz": 250, "clock_ppm": 100},
      "calibration": {"certificate": "CAL-771", "on": "2026-06-03", "due": "2027-06-03",
                      "expanded_uncertainty": 0.20, "coverage_factor": 2.0}})");
}

void read(const std::string& kind, const json& tree)
{
    if (kind == "order") {
        (void)parse_work_order(tree);
    } else if (kind == "run") {
        (void)parse_run_log(tree, parse_work_order(good_order()));
    } else if (kind == "bench") {
        (void)parse_bench(tree);
    } else {
        (void)trace::parse_instrument(tree);
    }
}

json good(const std::string& kind)
{
    return kind == "order"   ? good_order()
           : kind == "run"   ? good_run()
           : kind == "bench" ? good_bench()
                             : good_instrument();
}

struct Broken {
    const char* kind;    ///< which file
    const char* change;  ///< a JSON patch (RFC 6902)
    const char* pointer; ///< where the refusal points
    const char* says;    ///< part of its sentence
};

const Broken kBroken[] = {
    // Work order.
    {"order", R"([{"op":"remove","path":"/schema"}])", "/schema", "missing"},
    {"order", R"([{"op":"replace","path":"/schema","value":"zeroline/run/1"}])", "/schema", "zeroline/work-order/1"},
    {"order", R"([{"op":"replace","path":"/schema","value":"zeroline/work-order/2"}])", "/schema",
     "version 2 (\"zeroline/work-order/2\") is newer than this program reads; expected version 1"},
    {"order", R"([{"op":"add","path":"/colour","value":"red"}])", "/colour", "unknown key"},
    {"order", R"([{"op":"replace","path":"/work_order","value":""}])", "/work_order", "not empty"},
    {"order", R"([{"op":"replace","path":"/work_order","value":12}])", "/work_order", "a text"},
    {"order", R"([{"op":"replace","path":"/occasion","value":"sometimes"}])", "/occasion", "pre-delivery"},
    {"order", R"([{"op":"remove","path":"/unit"}])", "/unit", "missing"},
    {"order", R"([{"op":"replace","path":"/unit","value":"RC-0117"}])", "/unit", "an object"},
    {"order", R"([{"op":"replace","path":"/unit/display_step","value":0}])", "/unit/display_step", "0.001"},
    {"order", R"([{"op":"replace","path":"/unit/hours","value":-1}])", "/unit/hours", "from 0"},
    {"order", R"([{"op":"replace","path":"/prescription/ordered_on","value":"2026-02-30"}])",
     "/prescription/ordered_on", "YYYY-MM-DD"},
    {"order", R"([{"op":"replace","path":"/prescription/presets","value":[]}])", "/prescription/presets",
     "1 to 20 presets"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/1/name","value":"day"}])",
     "/prescription/presets/1/name", "a second time"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/exsufflation/pressure","value":40}])",
     "/prescription/presets/0/exsufflation/pressure", "an exsufflation pressure is negative"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/insufflation/pressure","value":-40}])",
     "/prescription/presets/0/insufflation/pressure", "an insufflation pressure is positive"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/insufflation/pressure","value":71}])",
     "/prescription/presets/0/insufflation/pressure", "from 5 to 70"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/exsufflation/pressure","value":-4.9}])",
     "/prescription/presets/0/exsufflation/pressure", "from -70 to -5"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/insufflation/duration","value":0.1}])",
     "/prescription/presets/0/insufflation/duration", "from 0.2 to 10"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/insufflation/duration","value":"1.5"}])",
     "/prescription/presets/0/insufflation/duration", "a number"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/pause/duration","value":0.1}])",
     "/prescription/presets/0/pause/duration", "0 (no pause)"},
    {"order", R"([{"op":"remove","path":"/prescription/presets/0/pause"}])", "/prescription/presets/0/pause",
     "missing"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/1/pause","value":{"duration":1,"pressure":20}},
                  {"op":"replace","path":"/prescription/presets/1/insufflation/pressure","value":22}])",
     "/prescription/presets/1/pause/pressure", "5 cmH2O away"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/flow","value":"some"}])",
     "/prescription/presets/0/flow", "full, reduced"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/trigger","value":true}])",
     "/prescription/presets/0/trigger", "on, off"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/sequence","value":["insufflation","pause"]}])",
     "/prescription/presets/0/sequence", "an exsufflation among them"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/sequence","value":["insufflation","exsufflation"]}])",
     "/prescription/presets/0/sequence", "a pause"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/sequence/1","value":"rest"}])",
     "/prescription/presets/0/sequence/1", "insufflation, exsufflation, pause"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/oscillation/frequency","value":40}])",
     "/prescription/presets/0/oscillation/frequency", "from 1 to 20"},
    {"order", R"([{"op":"replace","path":"/prescription/presets/0/series/breaths","value":2.5}])",
     "/prescription/presets/0/series/breaths", "a whole number"},
    {"order", R"([{"op":"remove","path":"/tolerances/basis"}])", "/tolerances/pressure", "where the figure comes from"},
    {"order", R"([{"op":"replace","path":"/tolerances/residual","value":{}}])", "/tolerances/residual", "no width"},
    {"order", R"([{"op":"replace","path":"/tolerances/residual","value":{"relative":0.1}}])",
     "/tolerances/residual/relative", "unknown key"},
    {"order", R"([{"op":"add","path":"/tolerances/display/upper","value":2}])", "/tolerances/display/absolute",
     "either lower and upper, or absolute and relative"},
    {"order", R"([{"op":"add","path":"/tolerances/display/combine","value":"sum"}])", "/tolerances/display/combine",
     "absolute and relative beside it"},
    {"order", R"([{"op":"add","path":"/tolerances/display/at_most","value":5}])", "/tolerances/display/at_most",
     "relative beside it"},
    {"order", R"([{"op":"replace","path":"/tolerances/pressure/absolute","value":0}])", "/tolerances/pressure/absolute",
     "above 0"},
    {"order", R"([{"op":"add","path":"/tolerances/pressure/definition","value":"mid-level"}])",
     "/tolerances/pressure/definition", "unknown key"},
    {"order", R"([{"op":"replace","path":"/tolerances/duration/definition","value":"90 %"}])",
     "/tolerances/duration/definition", "onset, mid-level"},
    {"order", R"([{"op":"add","path":"/tolerances/pressure/pause","value":{"absolute":1}}])",
     "/tolerances/pressure/pause", "unknown key"},
    {"order", R"([{"op":"replace","path":"/tolerances/limits/peak","value":"high"}])", "/tolerances/limits/peak",
     "a number"},
    {"order", R"([{"op":"replace","path":"/decision_rule","value":"generous"}])", "/decision_rule", "simple, guarded"},
    {"order", R"([{"op":"replace","path":"/cycles","value":0}])", "/cycles", "from 1"},
    {"order", R"([{"op":"replace","path":"/lead_cycles","value":-1}])", "/lead_cycles", "from 0"},
    // Run log.
    {"run", R"([{"op":"remove","path":"/spans"}])", "/spans", "missing"},
    {"run", R"([{"op":"replace","path":"/spans/2/what","value":"strength"}])", "/spans/2/orifice", "missing"},
    {"run", R"([{"op":"add","path":"/spans/2/orifice","value":{"name":"a","diameter":8}}])", "/spans/2/orifice",
     "strength spans only"},
    {"run", R"([{"op":"add","path":"/first_strength","value":{"on":"2024-05-02","record":"R-7","diameter":40}}])",
     "/first_strength/diameter", "to 22"},
    {"run", R"([{"op":"replace","path":"/began","value":"2026-11-25 09:12"}])", "/began", "an instant with its offset"},
    {"run", R"([{"op":"replace","path":"/began","value":"2026-11-25T09:12:04"}])", "/began",
     "an instant with its offset"},
    {"run", R"([{"op":"replace","path":"/attempt","value":0}])", "/attempt", "from 1"},
    {"run", R"([{"op":"replace","path":"/replaces/attempt","value":2}])", "/replaces/attempt", "from 1 to 1"},
    {"run", R"([{"op":"replace","path":"/replaces/cause","value":"bad luck"}])", "/replaces/cause", "zero, plug"},
    {"run", R"([{"op":"replace","path":"/spans/2/what","value":"auto"}])", "/spans/2/what", "automatic"},
    {"run", R"([{"op":"replace","path":"/spans/2/preset","value":"dusk"}])", "/spans/2/preset",
     "which the work order does not have"},
    {"run", R"([{"op":"remove","path":"/spans/2/preset"}])", "/spans/2/preset", "missing"},
    {"run", R"([{"op":"replace","path":"/spans/2/to_s","value":30}])", "/spans/2/to_s", "a time after from_s, 35"},
    {"run", R"([{"op":"replace","path":"/spans/2/from_s","value":30}])", "/spans/2", "overlaps span 1"},
    {"run", R"([{"op":"replace","path":"/spans/1/asked/0","value":"pause"}])", "/spans/1/asked/0",
     "insufflation, exsufflation"},
    {"run", R"([{"op":"add","path":"/spans/2/asked","value":["insufflation"]}])", "/spans/2/asked", "not manual"},
    {"run", R"([{"op":"add","path":"/spans/0/set","value":{}}])", "/spans/0/set", "zero-before"},
    {"run", R"([{"op":"replace","path":"/spans/2/power","value":"solar"}])", "/spans/2/power", "mains, battery"},
    {"run", R"([{"op":"replace","path":"/spans/2/to_count","value":3}])", "/spans/2/to_count", "from 10"},
    {"run", R"([{"op":"replace","path":"/spans/2/set/insufflation/pressure","value":-45}])",
     "/spans/2/set/insufflation/pressure", "is positive"},
    {"run", R"([{"op":"add","path":"/confirmed/-","value":"all-well"}])", "/confirmed/3", "outlet-blocked"},
    {"run", R"([{"op":"replace","path":"/displayed/0/exsufflation","value":40}])", "/displayed/0/exsufflation",
     "is negative"},
    {"run", R"([{"op":"replace","path":"/displayed/0/shows","value":"something"}])", "/displayed/0/shows",
     "cycle-peak"},
    {"run", R"([{"op":"replace","path":"/displayed/0","value":{"preset":"day","shows":"live"}}])", "/displayed/0",
     "not-read"},
    {"run", R"([{"op":"add","path":"/displayed/-","value":{"preset":"day","shows":"none"}}])", "/displayed/1/preset",
     "a second time"},
    {"run", R"([{"op":"replace","path":"/restored","value":"yes"}])", "/restored", "true or false"},
    {"run", R"([{"op":"replace","path":"/origin","value":"somewhere"}])", "/origin", "imported"},
    {"run", R"([{"op":"replace","path":"/skipped/0/what","value":"plug"}])", "/skipped/0/what", "zero-before"},
    {"run", R"([{"op":"replace","path":"/skipped/0/reason","value":""}])", "/skipped/0/reason", "text"},
    {"run", R"([{"op":"replace","path":"/skipped/0/preset","value":"noon"}])", "/skipped/0/preset", "preset"},
    {"run", R"([{"op":"add","path":"/skipped/1/preset","value":"day"}])", "/skipped/1/preset",
     "manual, automatic, ladder and strength"},
    {"run", R"([{"op":"replace","path":"/checklist/0/outcome","value":"fine"}])", "/checklist/0/outcome", "not-ok"},
    {"run", R"([{"op":"remove","path":"/disposition/reason"}])", "/disposition/reason", "missing"},
    {"run", R"([{"op":"replace","path":"/disposition/unit","value":"released"}])", "/disposition/reason", "kept-out"},
    {"run", R"([{"op":"remove","path":"/disposition/adjusted_by"}])", "/disposition/adjusted_by", "missing"},
    {"run", R"([{"op":"replace","path":"/environment/pressure_hPa","value":100.8}])", "/environment/pressure_hPa",
     "from 400"},
    {"run", R"([{"op":"replace","path":"/hose/kind","value":"garden"}])", "/hose/kind", "test, own"},
    // Bench file.
    {"bench", R"([{"op":"replace","path":"/schema","value":"zeroline/bench/7"}])", "/schema", "version 7"},
    {"bench", R"([{"op":"add","path":"/second_gauge","value":{"uncertainty":0.2}}])", "/second_gauge/name", "missing"},
    {"bench", R"([{"op":"add","path":"/second_gauge","value":{"name":"a","uncertainty":0.2,"unit":"at"}}])",
     "/second_gauge/unit", "such as cmH2O"},
    {"bench", R"([{"op":"replace","path":"/interval_months","value":0}])", "/interval_months", "from 1"},
    {"bench", R"([{"op":"replace","path":"/duty/cycling_s","value":5}])", "/duty/cycling_s", "from 10"},
    {"bench", R"([{"op":"replace","path":"/house/limits/zero_offset","value":0}])", "/house/limits/zero_offset",
     "above 0"},
    {"bench", R"([{"op":"add","path":"/house/colour","value":1}])", "/house/colour", "unknown key"},
    {"bench", R"([{"op":"replace","path":"/house/tolerances/pressure","value":{"absolute":-1}}])",
     "/house/tolerances/pressure/absolute", "from 0"},
    // Instrument.
    {"instrument", R"([{"op":"remove","path":"/calibration"}])", "/calibration", "missing"},
    {"instrument", R"([{"op":"replace","path":"/language/unit","value":"cmH20"}])", "/language/unit", "cmH2O"},
    {"instrument", R"([{"op":"replace","path":"/range/low","value":100}])", "/range", ""},
    {"instrument", R"([{"op":"replace","path":"/schema","value":"zeroline/instrument/9"}])", "/schema", "version 9"},
};

class Broken_input : public testing::TestWithParam<Broken> {};

TEST_P(Broken_input, is_refused_where_it_stands_in_one_line)
{
    const auto& broken = GetParam();
    const auto tree = good(broken.kind).patch(json::parse(broken.change));
    try {
        read(broken.kind, tree);
        FAIL() << "accepted: " << broken.change;
    } catch (const trace::InputError& error) {
        const std::string line = error.what();
        EXPECT_EQ(error.where().rfind(broken.pointer, 0), 0U) << line;
        EXPECT_NE(line.find(broken.says), std::string::npos) << line;
        EXPECT_EQ(line.find('\n'), std::string::npos);
    }
}

INSTANTIATE_TEST_SUITE_P(Kinds, Broken_input, testing::ValuesIn(kBroken), [](const auto& tested) {
    return std::string(tested.param.kind) + std::to_string(tested.index);
});

TEST(Good_input, is_read_and_written_back_to_the_same_tree)
{
    const auto order = parse_work_order(good_order());
    const auto again = to_json(parse_work_order(to_json(order)));
    EXPECT_EQ(again, to_json(order));
    EXPECT_EQ(order.presets[1].flow_as_labelled, "gentle");
    EXPECT_EQ(to_json(order)["tolerances"], good_order()["tolerances"]);
    const auto run = parse_run_log(good_run(), order);
    EXPECT_EQ(to_json(run), good_run());
    const auto bench = parse_bench(good_bench());
    EXPECT_EQ(to_json(parse_bench(to_json(bench))), to_json(bench));
    EXPECT_EQ(bench.house.tolerances.pressure->absolute, 3.0);
    EXPECT_TRUE(bench.house.tolerances.pressure->house);
    EXPECT_EQ(bench.house.tolerances.residual->absolute, 2.0) << "what is left out stays standard";
}

TEST(Good_input, may_leave_out_what_the_format_says)
{
    auto tree = good_order();
    for (const auto* key : {"customer", "tolerances", "lead_cycles", "contact"}) {
        tree.erase(key);
    }
    tree["unit"].erase("hours");
    tree["unit"].erase("display_step");
    tree["prescription"].erase("ordered_on");
    for (const auto* key : {"flow", "trigger", "sequence", "oscillation", "series"}) {
        tree["prescription"]["presets"][0].erase(key);
    }
    tree["prescription"]["presets"][0]["pause"].erase("pressure");
    const auto order = parse_work_order(tree);
    EXPECT_EQ(order.lead_cycles, 1);
    EXPECT_EQ(order.unit.display_step_cmH2O, 1.0);
    EXPECT_EQ(parse_run_log(json::parse(R"({"schema": "zeroline/run/1", "spans": []})"), order).spans.size(), 0U);
    auto with_gauge = good_bench();
    with_gauge["second_gauge"] = {{"name", "water column 2"}, {"uncertainty", 2.0}, {"unit", "mmH2O"}};
    const auto known = parse_bench(with_gauge);
    EXPECT_EQ(known.second_gauge->unit, trace::PressureUnit::mmH2O);
    EXPECT_EQ(to_json(parse_bench(to_json(known))), to_json(known));
    EXPECT_EQ(parse_bench(json::parse(R"({"schema": "zeroline/bench/1"})")).duty.cycling_s, 90.0);
}

TEST(Spans, that_stick_out_of_the_trace_are_refused_with_their_place)
{
    const auto run = parse_run_log(good_run(), parse_work_order(good_order()));
    EXPECT_NO_THROW(check_spans(run, 0.6, 74.4)); // a clock that was fitted anew
    try {
        check_spans(run, 0.0, 60.0);
        FAIL();
    } catch (const trace::InputError& error) {
        EXPECT_EQ(error.where(), "/spans/2/to_s");
    }
}

} // namespace
} // namespace zeroline::verification
