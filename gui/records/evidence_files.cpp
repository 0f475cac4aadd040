#include "gui/records/evidence_files.hpp"

#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/trace_csv.hpp"
#include "analysis/record/record.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/schemas.hpp"
#include "gui/records/software.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

namespace fs = std::filesystem;

namespace {

template <typename Parse> auto parsed(const fs::path& file, std::string text, std::string_view schema, Parse parse)
{
    return reading(file, [&] {
        const auto tree = parse_json(text);
        check_schema(tree, schema);
        auto meaning = parse(tree);
        return Read<decltype(meaning)>{std::move(text), std::move(meaning)};
    });
}

Read<verification::WorkOrder> work_order_in(const fs::path& file, std::string text)
{
    return parsed(file, std::move(text), "work-order",
                  [](const nlohmann::json& tree) { return verification::parse_work_order(tree); });
}

Read<trace::Instrument> instrument_in(const fs::path& file, std::string text)
{
    return parsed(file, std::move(text), "instrument",
                  [](const nlohmann::json& tree) { return trace::parse_instrument(tree); });
}

Read<verification::RunLog> run_log_in(const fs::path& file, std::string text, const verification::WorkOrder& order)
{
    return parsed(file, std::move(text), "run",
                  [&](const nlohmann::json& tree) { return verification::parse_run_log(tree, order); });
}

Read<verification::Bench> bench_in(const fs::path& file, std::string text)
{
    std::string recorded;
    auto bench = parsed(file, std::move(text), "bench", [&](const nlohmann::json& tree) {
        auto meaning = verification::parse_bench(tree);
        recorded = recorded_part(tree).dump(2) + "\n";
        return meaning;
    });
    bench.text = std::move(recorded);
    return bench;
}

void take_trace(LoadedEvidence& evidence, trace::RawTrace raw, const fs::path& run)
{
    evidence.trace = trace::derive(std::move(raw), evidence.instrument ? &evidence.instrument->meaning : nullptr);
    if (evidence.run && evidence.trace.size() > 0) {
        reading(run, [&] {
            verification::check_spans(evidence.run->meaning, evidence.trace.time_s.front(),
                                      evidence.trace.time_s.back());
        });
    }
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
    take_trace(evidence, trace::load_trace_csv(files.trace), files.run.value_or(fs::path()));
    return evidence;
}

verification::Origin stated_origin(const LoadedEvidence& evidence)
{
    return evidence.run ? evidence.run->meaning.origin.value_or(verification::Origin::imported)
                        : verification::Origin::imported;
}

/// Who issued a record is not computed but stated: it is taken over. "null" where there is no such record.
std::string issue_in(const OpenFolder& folder)
{
    if (folder.kind(name::record) == OpenFolder::Kind::none) {
        return "null";
    }
    const auto text = folder.read(name::record);
    try {
        const auto tree = parse_ordered_json(text);
        return tree.is_object() && tree.contains("issue") ? tree["issue"].dump() : "null";
    } catch (const trace::InputError&) {
        return "null"; // what such a file is worth, the check of the record says
    }
}

/// Whether something bears the name: what is no file is then refused by whoever reads it.
bool stands(const OpenFolder& folder, const std::string& file) { return folder.kind(file) != OpenFolder::Kind::none; }

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

Read<verification::WorkOrder> load_work_order(const fs::path& file) { return work_order_in(file, read_file(file)); }

Read<trace::Instrument> load_instrument(const fs::path& file) { return instrument_in(file, read_file(file)); }

Read<verification::RunLog> load_run_log(const fs::path& file, const verification::WorkOrder& order)
{
    return run_log_in(file, read_file(file), order);
}

Read<verification::Bench> load_bench(const fs::path& file) { return bench_in(file, read_file(file)); }

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

LoadedEvidence load_record_evidence(const OpenFolder& folder)
{
    LoadedEvidence evidence;
    const auto text = [&](const std::string& file) { return folder.read(file); };
    evidence.order = work_order_in(folder.shown(name::order), text(name::order));
    if (stands(folder, name::instrument)) {
        evidence.instrument = instrument_in(folder.shown(name::instrument), text(name::instrument));
    }
    if (stands(folder, name::run)) {
        evidence.run = run_log_in(folder.shown(name::run), text(name::run), evidence.order.meaning);
    }
    if (stands(folder, name::bench)) {
        evidence.bench = bench_in(folder.shown(name::bench), text(name::bench));
    }
    const auto trace = folder.open(name::trace);
    auto raw = reading(folder.shown(name::trace), [&] { return trace::read_trace_csv(trace.number()); });
    take_trace(evidence, std::move(raw), folder.shown(name::run));
    evidence.origin = stated_origin(evidence);
    if (stands(folder, name::earlier)) {
        evidence.earlier = load_earlier(folder);
    }
    // Nobody has signed what is not finished, whatever a save that was cut off left behind.
    evidence.issue = RecordFolder::is_part(folder.path()) ? "null" : issue_in(folder);
    return evidence;
}

LoadedEvidence load_record_evidence(const fs::path& folder)
{
    if (std::error_code none; !fs::is_directory(folder, none)) {
        throw trace::InputError(folder.string(), "is no record folder", "a folder with order.json and trace.csv");
    }
    return load_record_evidence(OpenFolder::at(folder));
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
    folder.put(name::trace, read_file(trace, kLargestEvidence));
}

void put_recorded_evidence(const RecordFolder& folder, const OpenFolder& record)
{
    for (const auto& file : {name::order, name::bench, name::procedure, name::trace, name::after, name::journal}) {
        if (stands(record, file)) {
            folder.put(file, record.read(file, kLargestEvidence));
        }
    }
    if (stands(record, name::run)) {
        const auto text = record.read(name::run);
        folder.put(name::run, stands(record, name::journal) ? text : as_imported(text));
    }
}

namespace {

void put_value(const RecordFolder& folder, const std::string& file, const std::string& key,
               const nlohmann::ordered_json& value, const SigningKey& signing_key)
{
    auto tree = reading(folder.file(file), [&] { return parse_ordered_json(folder.opened().read(file)); });
    tree[key] = value;
    amend(folder, file, tree.dump(2) + "\n", signing_key);
}

} // namespace

void put_text(const RecordFolder& folder, const std::string& file, const std::string& key, const std::string& text,
              const SigningKey& signing_key)
{
    put_value(folder, file, key, text, signing_key);
}

void put_disposition(const RecordFolder& folder, const verification::Disposition& disposition, const SigningKey& key)
{
    put_value(folder, name::run, "disposition", verification::to_json(disposition), key);
}

} // namespace zeroline::records
