#include "gui/print/saved_record.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/print/seal_remarks.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"

#include <QCryptographicHash>

#include <algorithm>
#include <array>

namespace zeroline::print {

namespace fs = std::filesystem;
using nlohmann::json;
using trace::InputError;

namespace {

QString text_in(const json& object, const char* key)
{
    const auto it = object.find(key);
    return it != object.end() && it->is_string() ? QString::fromStdString(it->get<std::string>()) : QString();
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
    row.unit = text_in(tree, "unit");
    row.basis = text_in(tree, "basis");
    row.definition = text_in(tree, "definition");
    row.verdict = text_in(tree, "verdict");
    row.reason = text_in(tree.value("reason", json::object()), "text");
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
    row.worst_cycle = count_in(tree, "worst_cycle");
    row.n = count_in(tree, "n").value_or(0);
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

template <typename Row> std::vector<Row> rows_of(const json& list, Row (*row_of)(const json&))
{
    std::vector<Row> rows;
    for (const auto& element : list) {
        rows.push_back(row_of(element));
    }
    return rows;
}

FindingRow finding_of(const json& tree)
{
    return {text_in(tree, "code"), text_in(tree, "severity"), text_in(tree, "text")};
}

void demand_a_record(const json& tree)
{
    constexpr const char* kSchema = "zeroline/record/1";
    if (!tree.is_object() || tree.value("schema", json()) != json(kSchema)) {
        throw InputError("/schema", "is no record of this version", kSchema);
    }
    for (const auto* list : {"judgements", "cycles", "findings", "prescription"}) {
        if (!tree.contains(list) || !tree[list].is_array()) {
            throw InputError(std::string("/") + list, "is missing", "a list");
        }
    }
}

void take_rows(SavedRecord& record)
{
    record.judgements = rows_of(record.at("/judgements"), judgement_of);
    record.cycles = rows_of(record.at("/cycles"), cycle_of);
    record.findings = rows_of(record.at("/findings"), finding_of);
    if (const auto& spans = record.at("/run/spans"); spans.is_array()) {
        record.spans = rows_of(spans, span_of);
    }
    for (const auto& preset : record.at("/prescription")) {
        record.presets << text_in(preset, "name");
    }
}

/// A record that was never sealed has no number of its own: order and attempt stand in for it.
QString number_of(const SavedRecord& record)
{
    const auto number = record.text("/issue/record_number");
    if (!number.isEmpty()) {
        return number;
    }
    return record.text("/order/work_order") + "-" +
           QString::number(static_cast<int>(record.figure("/attempt").value_or(1.0)));
}

/// Who issued it: as the record itself says, else as the bench file beside it does.
void take_issuer(SavedRecord& record, const records::LoadedEvidence& evidence)
{
    record.organisation = record.text("/issue/organisation");
    record.address = record.text("/issue/address");
    if (!evidence.bench) {
        return;
    }
    const auto& bench = evidence.bench->meaning;
    record.interval_months = bench.interval_months;
    if (record.organisation.isEmpty()) {
        record.organisation = QString::fromStdString(bench.organisation);
        record.address = QString::fromStdString(bench.address);
    }
}

/// record.json and what is read from it alone.
SavedRecord load_tree(const fs::path& folder)
{
    const auto file = folder / records::name::record;
    const auto bytes = records::read_file(file);
    SavedRecord record;
    records::reading(file, [&] {
        record.tree = records::parse_json(bytes);
        demand_a_record(record.tree);
        take_rows(record);
    });
    record.record_json = QByteArray::fromStdString(bytes);
    record.sha256 =
        QString::fromLatin1(QCryptographicHash::hash(record.record_json, QCryptographicHash::Sha256).toHex());
    record.number = number_of(record);
    record.signatures = signatures_of(folder);
    record.attempt = records::kept_attempt(folder);
    const auto held = records::held_folder(record.text("/issue/earlier/relation").toStdString());
    if (!held.empty()) {
        record.before = std::make_shared<const SavedRecord>(load_tree(folder / held));
    }
    return record;
}

} // namespace

const json& SavedRecord::at(const std::string& pointer) const
{
    static const json nothing;
    const json::json_pointer place(pointer);
    return tree.contains(place) ? tree.at(place) : nothing;
}

QString SavedRecord::text(const std::string& pointer) const
{
    const auto& value = at(pointer);
    return value.is_string() ? QString::fromStdString(value.get<std::string>()) : QString();
}

std::optional<double> SavedRecord::figure(const std::string& pointer) const
{
    const auto& value = at(pointer);
    return value.is_number() ? std::optional(value.get<double>()) : std::nullopt;
}

QStringList SavedRecord::texts(const std::string& pointer) const
{
    QStringList list;
    if (const auto& values = at(pointer); values.is_array()) {
        for (const auto& value : values) {
            list << (value.is_string() ? QString::fromStdString(value.get<std::string>()) : QString());
        }
    }
    return list;
}

bool SavedRecord::only_a_breath() const
{
    const auto breath = [](const FindingRow& finding) { return finding.code == "breathing"; };
    return critical() && std::any_of(findings.begin(), findings.end(), breath) &&
           std::none_of(
               findings.begin(), findings.end(),
               [&](const FindingRow& finding) { return finding.severity == "critical" && !breath(finding); }) &&
           std::none_of(judgements.begin(), judgements.end(), [](const JudgementRow& row) { return row.critical; });
}

bool SavedRecord::left_otherwise() const
{
    const auto& reasons = at("/reasons");
    return std::any_of(reasons.begin(), reasons.end(),
                       [](const auto& reason) { return reason.value("code", "") == "left-otherwise"; });
}

bool SavedRecord::passed() const
{
    const auto good = [](const QString& verdict) { return verdict == "pass" || verdict == "conditional-pass"; };
    return good(text("/verdict")) && good(text("/unit_accuracy"));
}

SavedRecord load_saved_record(const fs::path& folder)
{
    auto evidence = records::load_record_evidence(folder);
    auto record = load_tree(folder);
    constexpr std::size_t largest_trace = std::size_t{1} << 31;
    record.trace_csv = QByteArray::fromStdString(records::read_file(folder / records::name::trace, largest_trace));
    record.trace = std::move(evidence.trace);
    take_issuer(record, evidence);
    record.corrections = corrections_of(folder);
    return record;
}

} // namespace zeroline::print
