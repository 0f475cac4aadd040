#include "gui/session/record_tree.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"

#include <algorithm>
#include <array>

namespace zeroline::session {

using metrology::Outcome;
using nlohmann::json;

namespace {

/// A name with a line end in it would look like a line of ours.
QString visible_text(const json& value)
{
    return value.is_string() ? QString::fromStdString(trace::visible_on_one_line(value.get<std::string>())) : QString();
}

QString text_in(const json& object, const char* key)
{
    const auto it = object.find(key);
    return it != object.end() ? visible_text(*it) : QString();
}

std::optional<double> figure_in(const json& object, const char* key)
{
    const auto it = object.find(key);
    return it != object.end() && it->is_number() ? std::optional(it->get<double>()) : std::nullopt;
}

std::optional<int> count_in(const json& object, const char* key)
{
    const auto it = object.find(key);
    return it != object.end() && it->is_number_integer() ? std::optional(it->get<int>()) : std::nullopt;
}

bool flag_in(const json& object, const char* key)
{
    const auto it = object.find(key);
    return it != object.end() && it->is_boolean() && it->get<bool>();
}

JudgementRow judgement_of(const json& tree)
{
    JudgementRow row;
    row.measurand = text_in(tree, "measurand");
    row.preset = text_in(tree, "preset");
    row.against = text_in(tree, "against");
    row.power = text_in(tree, "power");
    row.unit = text_in(tree, "unit");
    row.basis = text_in(tree, "basis");
    row.definition = text_in(tree, "definition");
    if (const auto reason = tree.find("reason"); reason != tree.end() && reason->is_object()) {
        row.reason_code = text_in(*reason, "code");
        row.reason = text_in(*reason, "text");
    }
    row.prescribed = figure_in(tree, "prescribed");
    row.set = figure_in(tree, "set");
    row.displayed = figure_in(tree, "displayed");
    row.lower = figure_in(tree, "lower");
    row.upper = figure_in(tree, "upper");
    row.mean = figure_in(tree, "mean");
    row.worst = figure_in(tree, "worst");
    row.expanded_uncertainty = figure_in(tree, "expanded_uncertainty");
    row.coverage_factor = figure_in(tree, "coverage_factor");
    row.ratio = figure_in(tree, "ratio");
    row.probability_outside = figure_in(tree, "probability_outside");
    row.mean_uncertainty = figure_in(tree, "mean_uncertainty");
    row.of_ladder = count_in(tree, "span").has_value();
    row.worst_cycle = count_in(tree, "worst_cycle");
    row.n = count_in(tree, "n").value_or(0);
    row.verdict = outcome_named(text_in(tree, "verdict"));
    row.critical = flag_in(tree, "critical");
    return row;
}

CycleRow cycle_of(const json& tree)
{
    CycleRow row;
    row.index = count_in(tree, "index").value_or(0);
    row.preset = text_in(tree, "preset");
    row.why_not_judged = text_in(tree, "why_not_judged");
    row.judged = flag_in(tree, "judged");
    row.start_s = figure_in(tree, "start_s").value_or(0.0);
    row.end_s = row.start_s;
    const std::array<std::pair<const char*, std::optional<double>*>, 3> phases{
        {{"insufflation", &row.insufflation_s}, {"exsufflation", &row.exsufflation_s}, {"pause", &row.pause_s}}};
    for (const auto& [name, start] : phases) {
        const auto phase = tree.find(name);
        if (phase == tree.end() || !phase->is_object()) {
            continue;
        }
        *start = figure_in(*phase, "start_s");
        row.end_s = std::max(row.end_s, start->value_or(0.0) + figure_in(*phase, "duration_s").value_or(0.0));
    }
    return row;
}

SpanRow span_of(const json& tree)
{
    return {text_in(tree, "what"), text_in(tree, "preset"), figure_in(tree, "from_s").value_or(0.0),
            figure_in(tree, "to_s").value_or(0.0)};
}

FindingRow finding_of(const json& tree)
{
    FindingRow row{text_in(tree, "code"), text_in(tree, "severity"), text_in(tree, "text"), {}};
    if (const auto figures = tree.find("figures"); figures != tree.end() && figures->is_object()) {
        for (const auto& [name, value] : figures->items()) {
            if (value.is_number()) {
                row.figures.emplace_back(QString::fromStdString(name), value.get<double>());
            }
        }
    }
    return row;
}

ReasonRow reason_of(const json& tree) { return {text_in(tree, "code"), text_in(tree, "text")}; }

template <typename Row> std::vector<Row> rows_of(const json& list, Row (*row_of)(const json&))
{
    std::vector<Row> rows;
    if (list.is_array()) {
        for (const auto& element : list) {
            rows.push_back(row_of(element));
        }
    }
    return rows;
}

void demand_a_record(const json& tree)
{
    constexpr const char* kSchema = "zeroline/record/1";
    if (!tree.is_object() || tree.value("schema", json()) != json(kSchema)) {
        throw trace::InputError("/schema", "is no record of this version", kSchema);
    }
    for (const auto* list : {"judgements", "findings", "prescription", "reasons"}) {
        if (!tree.contains(list) || !tree[list].is_array()) {
            throw trace::InputError(std::string("/") + list, "is missing", "a list");
        }
    }
}

} // namespace

const verification::Measurand& JudgementRow::known() const
{
    if (const auto* known = verification::measurand_named(measurand.toStdString())) {
        return *known;
    }
    static const verification::Measurand unknown{"", "", "", 3, std::nullopt, verification::MeasurandKind::frequency};
    return unknown;
}

RecordTree::RecordTree(json tree) : tree_(std::move(tree)) { demand_a_record(tree_); }

const json& RecordTree::at(const std::string& pointer) const
{
    static const json nothing;
    const json::json_pointer place(pointer);
    return tree_.contains(place) ? tree_.at(place) : nothing;
}

QString RecordTree::text(const std::string& pointer) const { return visible_text(at(pointer)); }

std::optional<double> RecordTree::figure(const std::string& pointer) const
{
    const auto& value = at(pointer);
    return value.is_number() ? std::optional(value.get<double>()) : std::nullopt;
}

QStringList RecordTree::texts(const std::string& pointer) const
{
    QStringList list;
    if (const auto& values = at(pointer); values.is_array()) {
        for (const auto& value : values) {
            list << visible_text(value);
        }
    }
    return list;
}

std::vector<JudgementRow> RecordTree::judgements() const { return rows_of(at("/judgements"), judgement_of); }
std::vector<CycleRow> RecordTree::cycles() const
{
    auto rows = rows_of(at("/cycles"), cycle_of);
    const auto all = spans();
    for (auto& row : rows) {
        row.of_ladder = std::any_of(all.begin(), all.end(), [&](const SpanRow& span) {
            return span.what == QLatin1String("ladder") && row.start_s >= span.from_s && row.start_s < span.to_s;
        });
    }
    return rows;
}

std::vector<SpanRow> RecordTree::spans() const { return rows_of(at("/run/spans"), span_of); }
std::vector<FindingRow> RecordTree::findings() const { return rows_of(at("/findings"), finding_of); }
std::vector<ReasonRow> RecordTree::reasons() const { return rows_of(at("/reasons"), reason_of); }

QStringList RecordTree::presets() const
{
    QStringList names;
    for (const auto& preset : at("/prescription")) {
        names << text_in(preset, "name");
    }
    return names;
}

Outcome outcome_named(const QString& word)
{
    for (const auto outcome :
         {Outcome::pass, Outcome::conditional_pass, Outcome::incomplete, Outcome::conditional_fail, Outcome::fail}) {
        if (word.toStdString() == metrology::word_of(outcome)) {
            return outcome;
        }
    }
    return Outcome::not_judged;
}

QString with_blanks(QString word) { return word.replace(u'-', u' '); }

} // namespace zeroline::session
