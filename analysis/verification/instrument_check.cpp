#include "analysis/verification/instrument_check.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "analysis/verification/figures.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdio>

namespace zeroline::verification {

namespace {

using trace::JsonReader;

constexpr double kBeyondAnyGauge_cmH2O = 1100.0;
constexpr std::size_t kPointsOfEachSign = 2;

GaugePoint read_gauge_point(const JsonReader& at)
{
    at.object_with_only({"reading", "gauge", "error", "uncertainty"});
    return {at.at("reading").number(-kBeyondAnyGauge_cmH2O, kBeyondAnyGauge_cmH2O),
            at.at("gauge").number(-kBeyondAnyGauge_cmH2O, kBeyondAnyGauge_cmH2O),
            at.at("uncertainty").number(0.0, kBeyondAnyGauge_cmH2O)};
}

std::vector<GaugePoint> read_gauge_points(const JsonReader& at)
{
    std::vector<GaugePoint> points;
    for (const auto& element : at.elements()) {
        points.push_back(read_gauge_point(element));
    }
    const auto above = static_cast<std::size_t>(
        std::count_if(points.begin(), points.end(), [](const GaugePoint& one) { return one.gauge_cmH2O > 0.0; }));
    if (above < kPointsOfEachSign || points.size() - above < kPointsOfEachSign) {
        at.refuse(std::to_string(above) + " above zero and " + std::to_string(points.size() - above) + " below",
                  "two points of each sign at least");
    }
    return points;
}

InstrumentCheck read_instrument_check(const JsonReader& at)
{
    at.object_with_only(
        {"on", "due", "done_by", "gauge", "limit", "limit_basis", "zero", "noise", "points", "outcome", "simulated"});
    InstrumentCheck check;
    check.on = at.at("on").date();
    check.due = at.at("due").date();
    check.done_by = at.at("done_by").text();
    const auto gauge = at.at("gauge");
    gauge.object_with_only({"name", "certificate", "uncertainty"});
    check.gauge = gauge.at("name").filled_text();
    check.gauge_certificate = gauge.at("certificate").text();
    check.gauge_uncertainty_cmH2O = gauge.at("uncertainty").number(0.0, kBeyondAnyGauge_cmH2O);
    check.limit_cmH2O = at.at("limit").number(0.0, kBeyondAnyGauge_cmH2O);
    check.limit_basis = at.at("limit_basis").text();
    check.zero_cmH2O = at.at("zero").number(-kBeyondAnyGauge_cmH2O, kBeyondAnyGauge_cmH2O);
    check.noise_cmH2O = at.at("noise").number(0.0, kBeyondAnyGauge_cmH2O);
    check.points = read_gauge_points(at.at("points"));
    check.simulated = at.at("simulated").boolean();
    const auto word = at.at("outcome");
    if (word.text() != word_of(check.outcome())) {
        word.refuse(word.described(), word_of(check.outcome()) + ", as its points say");
    }
    return check;
}

nlohmann::ordered_json tree_of_check(const InstrumentCheck& check)
{
    auto points = nlohmann::ordered_json::array();
    for (const auto& point : check.points) {
        points.push_back({{"reading", point.reading_cmH2O},
                          {"gauge", point.gauge_cmH2O},
                          {"error", std::round(point.error_cmH2O() * 1e4) / 1e4},
                          {"uncertainty", point.uncertainty_cmH2O}});
    }
    return {{"on", check.on},
            {"due", check.due},
            {"done_by", check.done_by},
            {"gauge",
             {{"name", check.gauge},
              {"certificate", check.gauge_certificate},
              {"uncertainty", check.gauge_uncertainty_cmH2O}}},
            {"limit", check.limit_cmH2O},
            {"limit_basis", check.limit_basis},
            {"zero", check.zero_cmH2O},
            {"noise", check.noise_cmH2O},
            {"points", points},
            {"outcome", word_of(check.outcome())},
            {"simulated", check.simulated}};
}

/// Two decimals, whatever the locale.
std::string signed_error(double value)
{
    std::array<char, 32> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, 2);
    return (std::signbit(value) ? "" : "+") + std::string(text.data(), end.ptr);
}

std::string in_one_remark(const InstrumentCheck& check)
{
    const auto basis = check.limit_basis.empty() ? std::string() : ", " + check.limit_basis;
    return check.on + " against " + check.gauge + ": at most " + signed_error(check.largest_error_cmH2O()) +
           " cmH2O off (limit " + figure(check.limit_cmH2O) + basis + ")";
}

} // namespace

double InstrumentCheck::largest_error_cmH2O() const
{
    const auto largest = std::max_element(points.begin(), points.end(), [](const GaugePoint& a, const GaugePoint& b) {
        return std::fabs(a.error_cmH2O()) < std::fabs(b.error_cmH2O());
    });
    return largest == points.end() ? 0.0 : largest->error_cmH2O();
}

InstrumentCheck::Outcome InstrumentCheck::outcome() const
{
    bool told = true;
    for (const auto& point : points) {
        const double beyond = std::fabs(point.error_cmH2O()) - limit_cmH2O;
        const bool too_wide = point.uncertainty_cmH2O > limit_cmH2O;
        if (beyond > (too_wide ? point.uncertainty_cmH2O : 0.0)) {
            return InstrumentCheck::Outcome::outside;
        }
        told = told && !too_wide;
    }
    return told ? InstrumentCheck::Outcome::within : InstrumentCheck::Outcome::too_uncertain;
}

std::string word_of(InstrumentCheck::Outcome outcome)
{
    switch (outcome) {
    case InstrumentCheck::Outcome::within:
        return "within";
    case InstrumentCheck::Outcome::outside:
        return "outside";
    case InstrumentCheck::Outcome::too_uncertain:
        break;
    }
    return "too-uncertain";
}

InstrumentChecks parse_instrument_checks(const nlohmann::json& tree)
{
    const JsonReader at(tree);
    at.schema("zeroline/instrument-checks", 1);
    at.object_with_only({"schema", "instrument", "serial", "checks"});
    InstrumentChecks all;
    all.instrument = at.at("instrument").text();
    all.serial = at.at("serial").text();
    for (const auto& element : at.at("checks").elements()) {
        all.checks.push_back(read_instrument_check(element));
    }
    return all;
}

nlohmann::ordered_json to_json(const InstrumentChecks& all)
{
    auto checks = nlohmann::ordered_json::array();
    for (const auto& check : all.checks) {
        checks.push_back(tree_of_check(check));
    }
    return {{"schema", "zeroline/instrument-checks/1"},
            {"instrument", all.instrument},
            {"serial", all.serial},
            {"checks", checks}};
}

std::optional<ChecklistItem> item_of(const InstrumentChecks& all, const std::string& day, bool simulated)
{
    using Answer = ChecklistItem::Outcome;
    const auto found = std::find_if(all.checks.rbegin(), all.checks.rend(),
                                    [&](const InstrumentCheck& one) { return one.simulated == simulated; });
    if (found == all.checks.rend()) {
        return std::nullopt;
    }
    const auto& newest = *found;
    switch (newest.outcome()) {
    case InstrumentCheck::Outcome::outside:
        return ChecklistItem{kInstrumentItem, Answer::not_ok, in_one_remark(newest)};
    case InstrumentCheck::Outcome::too_uncertain:
        return ChecklistItem{kInstrumentItem, Answer::not_ok, in_one_remark(newest) + ", too uncertain to tell"};
    case InstrumentCheck::Outcome::within:
        break;
    }
    if (day > newest.due) {
        return ChecklistItem{kInstrumentItem, Answer::not_applicable,
                             "overdue since " + newest.due + "; " + in_one_remark(newest)};
    }
    return ChecklistItem{kInstrumentItem, Answer::ok, in_one_remark(newest) + ", due " + newest.due};
}

std::string later_day(const std::string& day, int days)
{
    using namespace std::chrono;
    int year = 0;
    unsigned month = 0, in_month = 0;
    std::sscanf(day.c_str(), "%d-%u-%u", &year, &month, &in_month);
    const year_month_day later(
        sys_days(std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(in_month)) +
        std::chrono::days(days));
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(later.year()),
                  static_cast<unsigned>(later.month()), static_cast<unsigned>(later.day()));
    return text.data();
}

} // namespace zeroline::verification
