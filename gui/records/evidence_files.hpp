#pragma once

#include "analysis/verification/assessment.hpp"
#include "analysis/verification/bench_file.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/signing_key.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace zeroline::records {

/// Largest trace that is copied into a record.
inline constexpr std::size_t kLargestEvidence = std::size_t{1} << 36;

/// Names of the files of a record (docs/formats.md).
namespace name {
inline const std::string record = "record.json";
inline const std::string trace = "trace.csv";
inline const std::string order = "order.json";
inline const std::string instrument = "instrument.json";
inline const std::string run = "run.json";
inline const std::string bench = "bench.json";
inline const std::string journal = "journal.jsonl"; ///< the signed account of the capture (capture_journal.hpp)
inline const std::string after = "trace-after.csv"; ///< what the journal of a run that broke off says nothing of
inline const std::string page = "record.pdf";
inline const std::string earlier = "earlier.json"; ///< which record this one follows, and why
inline const std::string manifest = "manifest.sha256";
inline const std::string seal = "seal.json";
inline const std::string as_found = "as-found";             ///< folder: the whole record made before something was done
inline const std::string attempt_before = "attempt-before"; ///< folder: the whole record of the attempt before
inline const std::string addenda = "addenda";               ///< folder: what was added after sealing
inline const std::string addendum = "addendum.json";
} // namespace name

/// Where the evidence stands.
struct EvidenceFiles {
    std::filesystem::path order, trace;
    std::optional<std::filesystem::path> instrument, run, bench;
};

/// One file, as it stands on disk (kept for the record) and as it was understood.
template <typename Meaning> struct Read {
    std::string text;
    Meaning meaning;
};

/// Each throws trace::InputError naming the file, and line and column or JSON pointer.
[[nodiscard]] Read<verification::WorkOrder> load_work_order(const std::filesystem::path& file);
[[nodiscard]] Read<trace::Instrument> load_instrument(const std::filesystem::path& file);
[[nodiscard]] Read<verification::RunLog> load_run_log(const std::filesystem::path& file,
                                                      const verification::WorkOrder& order);
/// `text` is recorded_part() of the file.
[[nodiscard]] Read<verification::Bench> load_bench(const std::filesystem::path& file);

/// Everything an assessment is made from, loaded. Owns what view() points to.
struct LoadedEvidence {
    Read<verification::WorkOrder> order;
    std::optional<Read<trace::Instrument>> instrument;
    std::optional<Read<verification::RunLog>> run;
    std::optional<Read<verification::Bench>> bench; ///< none: the house rules that are built in
    trace::Trace trace;
    verification::Origin origin = verification::Origin::imported;
    std::optional<Earlier> earlier; ///< the record this one follows
    std::string issue = "null";     ///< what the record.json of a sealed folder says under "issue": who issued it, when

    [[nodiscard]] verification::Evidence view() const;
};

/// Loads a trace from anywhere: its origin is `simulated` where the run log says so, otherwise `imported`.
[[nodiscard]] LoadedEvidence load_evidence(const EvidenceFiles& files);

/// Loads a record folder (or a FOLDER.part): the origin that its run log states stands.
[[nodiscard]] LoadedEvidence load_record_evidence(const OpenFolder& folder);
[[nodiscard]] LoadedEvidence load_record_evidence(const std::filesystem::path& folder);

/// An assessment and its record.json, byte for byte as it is saved: an issue is taken over from the evidence.
struct Assessed {
    verification::Assessment assessment;
    std::string record_json;
};
[[nodiscard]] Assessed assess(const LoadedEvidence& evidence);

/// Writes the evidence of an imported trace into a new record: the files as they are; a run log that claims to be
/// captured here is written as imported, since nobody saw it captured.
void put_evidence(const RecordFolder& folder, const LoadedEvidence& evidence, const std::filesystem::path& trace);

/// The evidence of a record into one that is made again from it: order, run log, bench file, trace and journal as they
/// are. Without a journal, what was captured here becomes imported.
void put_recorded_evidence(const RecordFolder& folder, const OpenFolder& record);

/// Puts a text under `key` into one of the JSON files of a record in the making, at its first level, and enters that in
/// its journal. Throws trace::InputError.
void put_text(const RecordFolder& folder, const std::string& file, const std::string& key, const std::string& text,
              const SigningKey& signing_key);

/// The same for what was done with the unit, in the run log.
void put_disposition(const RecordFolder& folder, const verification::Disposition& disposition, const SigningKey& key);

} // namespace zeroline::records
