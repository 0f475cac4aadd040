#include "gui/records/evidence_files.hpp"

#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "analysis/record/record.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/schemas.hpp"
#include "gui/records/software.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kLargestTraceFile = std::size_t{1} << 36;

template <typename Parse> auto load_parsed(const fs::path& file, std::string_view schema, Parse parse)
{
    auto text = read_file(file);
    return reading(file, [&] {
        const auto tree = parse_json(text);
        check_schema(tree, schema);
        auto meaning = parse(tree);
        return Read<decltype(meaning)>{std::move(text), std::move(meaning)};
    });
}

trace::Trace load_trace(const fs::path& file, const trace::Instrument* instrument)
{
    return trace::derive(trace::load_trace_csv(file), instrument);
}

LoadedEvidence load(const EvidenceFiles& files)
{
    LoadedEvidence evidence;
    evidence.order = load_work_order(files.order);
    if (files.instrument) {
        evidence.instrument = load_instrument(*files.instrument);
    }
    if (files.run) {
        evidence.run = load_run_log(*files.run, evidence.order.meaning);
    }
    if (files.bench) {
        evidence.bench = load_bench(*files.bench);
    }
    evidence.trace = load_trace(files.trace, evidence.instrument ? &evidence.instrument->meaning : nullptr);
    if (files.run && evidence.trace.size() > 0) {
        reading(*files.run, [&] {
            verification::check_spans(evidence.run->meaning, evidence.trace.time_s.front(),
                                      evidence.trace.time_s.back());
        });
    }
    return evidence;
}

verification::Origin stated_origin(const LoadedEvidence& evidence)
{
    return evidence.run ? evidence.run->meaning.origin.value_or(verification::Origin::imported)
                        : verification::Origin::imported;
}

std::optional<fs::path> where_it_stands(const fs::path& folder, const std::string& name)
{
    std::error_code none;
    const auto file = folder / name;
    return fs::exists(file, none) ? std::optional(file) : std::nullopt;
}

/// Who issued a record is not computed but stated: it is taken over. "null" where there is no such record.
std::string issue_in(const fs::path& record)
{
    std::error_code none;
    if (!fs::exists(record, none)) {
        return "null";
    }
    const auto text = read_file(record);
    try {
        const auto tree = parse_ordered_json(text);
        return tree.is_object() && tree.contains("issue") ? tree["issue"].dump() : "null";
    } catch (const trace::InputError&) {
        return "null"; // what such a file is worth, the check of the record says
    }
}

std::string as_imported(const std::string& run_text)
{
    auto tree = parse_ordered_json(run_text);
    if (tree.value("origin", "") != "captured-here") {
        return run_text;
    }
    tree["origin"] = "imported";
    return tree.dump(2) + "\n";
}

} // namespace

Read<verification::WorkOrder> load_work_order(const fs::path& file)
{
    return load_parsed(file, "work-order",
                       [](const nlohmann::json& tree) { return verification::parse_work_order(tree); });
}

Read<trace::Instrument> load_instrument(const fs::path& file)
{
    return load_parsed(file, "instrument", [](const nlohmann::json& tree) { return trace::parse_instrument(tree); });
}

Read<verification::RunLog> load_run_log(const fs::path& file, const verification::WorkOrder& order)
{
    return load_parsed(file, "run",
                       [&](const nlohmann::json& tree) { return verification::parse_run_log(tree, order); });
}

Read<verification::Bench> load_bench(const fs::path& file)
{
    std::string recorded;
    auto bench = load_parsed(file, "bench", [&](const nlohmann::json& tree) {
        auto meaning = verification::parse_bench(tree);
        recorded = recorded_part(tree).dump(2) + "\n";
        return meaning;
    });
    bench.text = std::move(recorded);
    return bench;
}

verification::Evidence LoadedEvidence::view() const
{
    verification::Evidence evidence;
    evidence.order = &order.meaning;
    evidence.trace = &trace;
    evidence.instrument = instrument ? &instrument->meaning : nullptr;
    evidence.run = run ? &run->meaning : nullptr;
    if (bench) {
        evidence.house = bench->meaning.house;
    }
    evidence.origin = origin;
    return evidence;
}

LoadedEvidence load_evidence(const EvidenceFiles& files)
{
    auto evidence = load(files);
    const bool simulated = stated_origin(evidence) == verification::Origin::simulated;
    evidence.origin = simulated ? verification::Origin::simulated : verification::Origin::imported;
    return evidence;
}

LoadedEvidence load_record_evidence(const fs::path& folder)
{
    if (std::error_code none; !fs::is_directory(folder, none)) {
        throw trace::InputError(folder.string(), "is no record folder", "a folder with order.json and trace.csv");
    }
    auto evidence = load({.order = folder / name::order,
                          .trace = folder / name::trace,
                          .instrument = where_it_stands(folder, name::instrument),
                          .run = where_it_stands(folder, name::run),
                          .bench = where_it_stands(folder, name::bench)});
    evidence.origin = stated_origin(evidence);
    if (const auto file = where_it_stands(folder, name::earlier)) {
        evidence.earlier = load_earlier(*file);
    }
    // Nobody has signed what is not finished, whatever a save that was cut off left behind.
    evidence.issue = RecordFolder::is_part(folder) ? "null" : issue_in(folder / name::record);
    return evidence;
}

Assessed assess(const LoadedEvidence& evidence)
{
    const auto view = evidence.view();
    Assessed assessed{verification::assess(view), {}};
    auto tree = record::to_json(view, assessed.assessment, this_software());
    tree["issue"] = parse_ordered_json(evidence.issue);
    assessed.record_json = tree.dump(2) + "\n";
    return assessed;
}

void put_evidence(const RecordFolder& folder, const LoadedEvidence& evidence, const fs::path& trace)
{
    folder.put(name::order, evidence.order.text);
    if (evidence.instrument) {
        folder.put(name::instrument, evidence.instrument->text);
    }
    if (evidence.run) {
        folder.put(name::run, as_imported(evidence.run->text));
    }
    if (evidence.bench) {
        folder.put(name::bench, evidence.bench->text);
    }
    folder.put(name::trace, read_file(trace, kLargestTraceFile));
}

void put_recorded_evidence(const RecordFolder& folder, const fs::path& record)
{
    for (const auto& file : {name::order, name::bench, name::trace, name::after, name::journal}) {
        if (const auto at = where_it_stands(record, file)) {
            folder.put(file, read_file(*at, kLargestTraceFile));
        }
    }
    if (const auto run = where_it_stands(record, name::run)) {
        const auto text = read_file(*run);
        folder.put(name::run, where_it_stands(record, name::journal) ? text : as_imported(text));
    }
}

void put_text(const RecordFolder& folder, const std::string& file, const std::string& key, const std::string& text,
              const SigningKey& signing_key)
{
    const auto path = folder.file(file);
    auto tree = reading(path, [&] { return parse_ordered_json(read_file(path)); });
    tree[key] = text;
    amend(folder, file, tree.dump(2) + "\n", signing_key);
}

} // namespace zeroline::records
