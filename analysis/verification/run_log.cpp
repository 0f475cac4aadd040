#include "analysis/verification/run_log.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/civil_time.hpp"
#include "analysis/verification/preset_reader.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using trace::JsonReader;

constexpr double kLongestTrace_s = 1e6;
constexpr double kHighestShown = 150.0;

std::string number(double value) { return nlohmann::json(value).dump(); }

void read_cycling_keys(const JsonReader& at, Span& span, const WorkOrder& order)
{
    const auto preset = at.at("preset");
    span.preset = preset.text();
    if (order.preset(span.preset) == nullptr) {
        preset.refuse("\"" + span.preset + "\", which the work order does not have", "the name of one of its presets");
    }
    if (const auto set = at.find("set")) {
        span.set = read_settings(*set);
    }
    const auto asked = at.find("asked");
    if (asked && span.what != SpanKind::manual) {
        asked->refuse("in a span that is not manual", "it in manual spans only");
    }
    for (const auto& element : asked ? asked->elements() : std::vector<JsonReader>{}) {
        span.asked.push_back(element.one_of({"insufflation", "exsufflation"}) == 0 ? Step::insufflation
                                                                                   : Step::exsufflation);
    }
}

void read_bounds(const JsonReader& at, Span& span)
{
    span.from_s = at.at("from_s").number(-kLongestTrace_s, kLongestTrace_s);
    span.to_s = at.at("to_s").number(-kLongestTrace_s, kLongestTrace_s);
    if (!(span.to_s > span.from_s)) {
        at.at("to_s").refuse(number(span.to_s), "a time after from_s, " + number(span.from_s));
    }
    constexpr long long kHighestCount = 1LL << 53;
    if (const auto count = at.find("from_count")) {
        span.from_count = count->integer(0, kHighestCount);
    }
    if (const auto count = at.find("to_count")) {
        span.to_count = count->integer(span.from_count.value_or(0), kHighestCount);
    }
}

/// Known where there is flow, and nowhere else.
void read_orifice_of(const JsonReader& at, Span& span)
{
    if (span.what == SpanKind::strength) {
        const auto orifice = at.at("orifice");
        orifice.object_with_only({"name", "diameter"});
        span.orifice = Orifice{orifice.at("name").filled_text(),
                               orifice.at("diameter").number(kNarrowestOrifice_mm, kWidestOrifice_mm)};
    } else if (at.has("orifice")) {
        at.at("orifice").refuse("in a span of " + word_of(span.what), "it in strength spans only");
    }
}

Span read_span(const JsonReader& at, const WorkOrder& order)
{
    at.object_with_only(
        {"what", "preset", "from_s", "to_s", "set", "asked", "power", "orifice", "from_count", "to_count"});
    constexpr SpanKind kKinds[] = {SpanKind::zero_before, SpanKind::manual,    SpanKind::automatic,
                                   SpanKind::ladder,      SpanKind::strength,  SpanKind::leak_test,
                                   SpanKind::other,       SpanKind::zero_after};
    Span span;
    span.what = kKinds[at.at("what").one_of(
        {"zero-before", "manual", "automatic", "ladder", "strength", "leak-test", "other", "zero-after"})];
    if (has_preset(span.what)) {
        read_cycling_keys(at, span, order);
    } else {
        for (const auto* key : {"preset", "set", "asked"}) {
            if (at.has(key)) {
                at.at(key).refuse("in a span of " + word_of(span.what),
                                  "it in manual, automatic, ladder and strength spans only");
            }
        }
    }
    read_orifice_of(at, span);
    read_bounds(at, span);
    if (const auto power = at.find("power")) {
        span.power = power->one_of({"mains", "battery"}) == 0 ? "mains" : "battery";
    }
    return span;
}

void refuse_overlaps(const JsonReader& at, const std::vector<Span>& spans)
{
    const auto places = at.elements();
    for (std::size_t i = 0; i < spans.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (spans[i].from_s < spans[j].to_s && spans[j].from_s < spans[i].to_s) {
                places[i].refuse(number(spans[i].from_s) + " s to " + number(spans[i].to_s) + " s overlaps span " +
                                     std::to_string(j) + " (" + number(spans[j].from_s) + " s to " +
                                     number(spans[j].to_s) + " s)",
                                 "spans that do not overlap");
            }
        }
    }
}

std::vector<Span> read_spans(const JsonReader& at, const WorkOrder& order)
{
    const auto places = at.elements();
    if (places.size() > 1000) {
        at.refuse(std::to_string(places.size()) + " spans", "at most 1000");
    }
    std::vector<Span> spans;
    for (const auto& place : places) {
        spans.push_back(read_span(place, order));
    }
    refuse_overlaps(at, spans);
    return spans;
}

void need_known(const JsonReader& preset, const WorkOrder& order)
{
    if (order.preset(preset.text()) == nullptr) {
        preset.refuse("\"" + preset.text() + "\", which the work order does not have",
                      "the name of one of its presets");
    }
}

Displayed read_displayed(const JsonReader& at, const WorkOrder& order)
{
    at.object_with_only({"preset", "insufflation", "exsufflation", "shows"});
    need_known(at.at("preset"), order);
    Displayed displayed;
    displayed.preset = at.at("preset").text();
    constexpr Plausible kShown{0.0, kHighestShown, 0.0, 0.0};
    if (const auto value = at.find("insufflation")) {
        displayed.insufflation_cmH2O = read_insufflation_pressure(*value, kShown);
    }
    if (const auto value = at.find("exsufflation")) {
        displayed.exsufflation_cmH2O = read_exsufflation_pressure(*value, kShown);
    }
    constexpr Shows kWords[] = {Shows::live, Shows::cycle_peak, Shows::setting, Shows::none, Shows::not_read};
    displayed.shows = kWords[at.at("shows").one_of({"live", "cycle-peak", "setting", "none", "not-read"})];
    const bool judged = displayed.shows == Shows::live || displayed.shows == Shows::cycle_peak;
    if (judged && !displayed.insufflation_cmH2O && !displayed.exsufflation_cmH2O) {
        at.refuse("no value", "insufflation or exsufflation, or \"shows\": \"not-read\"");
    }
    return displayed;
}

std::vector<Displayed> read_all_displayed(const JsonReader& at, const WorkOrder& order)
{
    std::vector<Displayed> all;
    for (const auto& element : at.elements()) {
        auto displayed = read_displayed(element, order);
        const auto same = [&](const Displayed& other) { return other.preset == displayed.preset; };
        if (std::any_of(all.begin(), all.end(), same)) {
            element.at("preset").refuse("\"" + displayed.preset + "\" a second time", "each preset once");
        }
        all.push_back(std::move(displayed));
    }
    return all;
}

std::map<std::string, Settings> read_settings_by_preset(const JsonReader& at)
{
    std::map<std::string, Settings> settings;
    for (const auto& [name, place] : at.members()) {
        settings.emplace(name, read_settings(place));
    }
    return settings;
}

ChecklistItem read_item(const JsonReader& at)
{
    at.object_with_only({"item", "outcome", "remark"});
    using Outcome = ChecklistItem::Outcome;
    constexpr Outcome kWords[] = {Outcome::ok, Outcome::not_ok, Outcome::not_applicable};
    ChecklistItem item;
    item.item = at.at("item").filled_text();
    item.outcome = kWords[at.at("outcome").one_of({"ok", "not-ok", "not-applicable"})];
    if (const auto remark = at.find("remark")) {
        item.remark = remark->text();
    }
    return item;
}

std::optional<double> read_optional(const JsonReader& at, const char* key, double low, double high)
{
    const auto place = at.find(key);
    return place ? std::optional<double>(place->number(low, high)) : std::nullopt;
}

Hose read_hose(const JsonReader& at)
{
    at.object_with_only({"kind", "length_m", "bore_mm"});
    Hose hose;
    if (const auto kind = at.find("kind")) {
        hose.kind = kind->one_of({"test", "own"}) == 0 ? "test" : "own";
    }
    hose.length_m = read_optional(at, "length_m", 0.01, 20.0);
    hose.bore_mm = read_optional(at, "bore_mm", 1.0, 100.0);
    return hose;
}

Environment read_environment(const JsonReader& at)
{
    at.object_with_only({"temperature_C", "pressure_hPa", "humidity_percent", "instrument_on_s"});
    return {read_optional(at, "temperature_C", -40.0, 70.0), read_optional(at, "pressure_hPa", 400.0, 1100.0),
            read_optional(at, "humidity_percent", 0.0, 100.0), read_optional(at, "instrument_on_s", 0.0, kLongestOn_s)};
}

Replaces read_replaces(const JsonReader& at, int attempt)
{
    at.object_with_only({"attempt", "cause", "evidence"});
    constexpr const char* kCauses[] = {"zero", "plug", "hose", "instrument"};
    Replaces replaces;
    replaces.attempt = static_cast<int>(at.at("attempt").integer(1, std::max(1, attempt - 1)));
    replaces.cause = kCauses[at.at("cause").one_of({"zero", "plug", "hose", "instrument"})];
    replaces.evidence = at.at("evidence").filled_text();
    if (replaces.attempt >= attempt) {
        at.at("attempt").refuse(std::to_string(replaces.attempt), "an attempt before this one");
    }
    return replaces;
}

HoseEndAnswer read_hose_end(const JsonReader& at)
{
    at.object_with_only({"answer", "by", "at"});
    HoseEndAnswer answer;
    answer.nothing_soft = at.at("answer").one_of({"nothing-soft", "something-soft"}) == 0;
    answer.by = at.at("by").filled_text();
    answer.at = at.at("at").text();
    if (!is_instant(answer.at)) {
        at.at("at").refuse(at.at("at").tree().dump(),
                           "an instant with its offset, such as \"2026-11-25T09:12:04+01:00\"");
    }
    return answer;
}

std::string text_or_empty(const JsonReader& at, const char* key)
{
    const auto place = at.find(key);
    return place ? place->text() : std::string();
}

std::string read_began(const JsonReader& at)
{
    const auto place = at.find("began");
    if (place && !is_instant(place->text())) {
        place->refuse(place->tree().dump(), "an instant with its offset, such as \"2026-11-25T09:12:04+01:00\"");
    }
    return place ? place->text() : std::string();
}

void read_who_and_when(const JsonReader& at, RunLog& run)
{
    run.run_operator = text_or_empty(at, "operator");
    run.place = text_or_empty(at, "place");
    run.began = read_began(at);
    if (const auto attempt = at.find("attempt")) {
        run.attempt = static_cast<int>(attempt->integer(1, 1000));
    }
    if (const auto replaces = at.find("replaces")) {
        run.replaces = read_replaces(*replaces, run.attempt.value_or(1));
    }
    if (const auto earlier = at.find("unlike_in_attempt")) {
        run.unlike_in_attempt = static_cast<int>(earlier->integer(1, 1000));
    }
    if (const auto answer = at.find("hose_end")) {
        run.hose_end = read_hose_end(*answer);
    }
    if (const auto origin = at.find("origin")) {
        constexpr Origin kWords[] = {Origin::captured_here, Origin::imported, Origin::simulated};
        run.origin = kWords[origin->one_of({"captured-here", "imported", "simulated"})];
    }
}

void read_confirmed(const JsonReader& at, RunLog& run)
{
    for (const auto& element : at.elements()) {
        (void)element.one_of(
            {"no-patient-connected", "outlet-blocked", "trigger-off", "found-as-prescribed", "left-as-prescribed"});
        run.confirmed.push_back(element.text());
    }
}

void read_unit_state(const JsonReader& at, RunLog& run, const WorkOrder& order)
{
    if (const auto displayed = at.find("displayed")) {
        run.displayed = read_all_displayed(*displayed, order);
    }
    if (const auto found = at.find("settings_found")) {
        run.settings_found = read_settings_by_preset(*found);
    }
    if (const auto left = at.find("settings_left")) {
        run.settings_left = read_settings_by_preset(*left);
    }
    if (const auto restored = at.find("restored")) {
        run.restored = restored->boolean();
    }
}

Skipped read_skipped(const JsonReader& at, const WorkOrder& order)
{
    at.object_with_only({"what", "preset", "reason"});
    constexpr SpanKind kKinds[] = {SpanKind::zero_before, SpanKind::manual,    SpanKind::automatic, SpanKind::ladder,
                                   SpanKind::strength,    SpanKind::leak_test, SpanKind::zero_after};
    Skipped skipped;
    skipped.what = kKinds[at.at("what").one_of(
        {"zero-before", "manual", "automatic", "ladder", "strength", "leak-test", "zero-after"})];
    if (has_preset(skipped.what)) {
        need_known(at.at("preset"), order);
        skipped.preset = at.at("preset").text();
    } else if (at.has("preset")) {
        at.at("preset").refuse("in a skipped " + word_of(skipped.what),
                               "it with manual, automatic, ladder and strength only");
    }
    skipped.reason = at.at("reason").filled_text();
    return skipped;
}

FirstStrength read_first_strength(const JsonReader& at)
{
    at.object_with_only({"on", "record", "diameter", "insufflation", "exsufflation"});
    FirstStrength first;
    first.on = at.at("on").date();
    first.record = at.at("record").filled_text();
    first.diameter_mm = at.at("diameter").number(kNarrowestOrifice_mm, kWidestOrifice_mm);
    const auto share = [&](const char* key) {
        const auto place = at.find(key);
        return place ? std::optional(place->number(0.0, 2.0)) : std::nullopt;
    };
    first.insufflation = share("insufflation");
    first.exsufflation = share("exsufflation");
    return first;
}

} // namespace

bool RunLog::has_confirmed(const std::string& what) const
{
    return std::find(confirmed.begin(), confirmed.end(), what) != confirmed.end();
}

bool is_cycling(SpanKind kind) noexcept
{
    return kind == SpanKind::manual || kind == SpanKind::automatic || kind == SpanKind::ladder;
}

bool has_preset(SpanKind kind) noexcept { return is_cycling(kind) || kind == SpanKind::strength; }

RunLog parse_run_log(const nlohmann::json& tree, const WorkOrder& order)
{
    const JsonReader at(tree);
    at.schema("zeroline/run", 1);
    at.object_with_only({"schema",
                         "operator",
                         "place",
                         "began",
                         "attempt",
                         "replaces",
                         "spans",
                         "confirmed",
                         "displayed",
                         "hose",
                         "settings_found",
                         "settings_left",
                         "restored",
                         "origin",
                         "checklist",
                         "environment",
                         "skipped",
                         "hose_end",
                         "unlike_in_attempt",
                         "first_strength",
                         "disposition"});
    RunLog run;
    read_who_and_when(at, run);
    run.spans = read_spans(at.at("spans"), order);
    if (const auto confirmed = at.find("confirmed")) {
        read_confirmed(*confirmed, run);
    }
    read_unit_state(at, run, order);
    if (const auto checklist = at.find("checklist")) {
        for (const auto& element : checklist->elements()) {
            run.checklist.push_back(read_item(element));
        }
    }
    if (const auto skipped = at.find("skipped")) {
        for (const auto& element : skipped->elements()) {
            run.skipped.push_back(read_skipped(element, order));
        }
    }
    if (const auto first = at.find("first_strength")) {
        run.first_strength = read_first_strength(*first);
    }
    if (const auto disposition = at.find("disposition")) {
        run.disposition = read_disposition(*disposition);
    }
    if (const auto hose = at.find("hose")) {
        run.hose = read_hose(*hose);
    }
    if (const auto environment = at.find("environment")) {
        run.environment = read_environment(*environment);
    }
    return run;
}

void check_spans(const RunLog& run, double first_s, double last_s)
{
    constexpr double kSlack_s = 1.0;
    const auto expected = "a time inside the trace, " + number(first_s) + " s to " + number(last_s) + " s";
    for (std::size_t i = 0; i < run.spans.size(); ++i) {
        const auto pointer = "/spans/" + std::to_string(i);
        if (!(run.spans[i].from_s >= first_s - kSlack_s)) {
            throw trace::InputError(pointer + "/from_s", number(run.spans[i].from_s), expected);
        }
        if (!(run.spans[i].to_s <= last_s + kSlack_s)) {
            throw trace::InputError(pointer + "/to_s", number(run.spans[i].to_s), expected);
        }
    }
}

std::string word_of(SpanKind kind)
{
    switch (kind) {
    case SpanKind::zero_before:
        return "zero-before";
    case SpanKind::manual:
        return "manual";
    case SpanKind::automatic:
        return "automatic";
    case SpanKind::ladder:
        return "ladder";
    case SpanKind::strength:
        return "strength";
    case SpanKind::leak_test:
        return "leak-test";
    case SpanKind::zero_after:
        return "zero-after";
    case SpanKind::other:
        break;
    }
    return "other";
}

std::string word_of(Origin origin)
{
    switch (origin) {
    case Origin::captured_here:
        return "captured-here";
    case Origin::simulated:
        return "simulated";
    case Origin::imported:
        break;
    }
    return "imported";
}

std::string word_of(Shows shows)
{
    switch (shows) {
    case Shows::live:
        return "live";
    case Shows::cycle_peak:
        return "cycle-peak";
    case Shows::setting:
        return "setting";
    case Shows::none:
        return "none";
    case Shows::not_read:
        break;
    }
    return "not-read";
}

std::string word_of(ChecklistItem::Outcome outcome)
{
    switch (outcome) {
    case ChecklistItem::Outcome::ok:
        return "ok";
    case ChecklistItem::Outcome::not_ok:
        return "not-ok";
    case ChecklistItem::Outcome::not_applicable:
        break;
    }
    return "not-applicable";
}

} // namespace zeroline::verification
