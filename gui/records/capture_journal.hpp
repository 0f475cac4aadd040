#pragma once

#include "analysis/verification/run_log.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/signing_key.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <filesystem>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>

namespace zeroline::records {

/// The signed account of a capture while it is made: journal.jsonl in the FOLDER.part (docs/records.md). Each line is
/// signed with the bench's key and holds the hash of the line before it, so nothing that stands in it, and no byte of
/// the trace that it counts, can be written otherwise later without that key.
///
/// Any thread may call any function.
class CaptureJournal {
public:
    /// How often the trace is marked.
    static constexpr double kMarkEvery_s = 0.2;

    /// What the capture begins with.
    struct Begin {
        verification::Origin origin = verification::Origin::captured_here;
        std::string time; ///< RFC 3339 with offset
    };

    /// Makes the file with its first entry: origin, time, program, key, and the SHA-256 of every file that already
    /// stands in `record` (order, instrument, bench, the record it follows). `now_s`: monotonic seconds; none: the
    /// steady clock. Throws trace::InputError.
    CaptureJournal(const RecordFolder& record, SigningKey key, const Begin& begin, std::function<double()> now_s = {});
    ~CaptureJournal();
    CaptureJournal(const CaptureJournal&) = delete;
    CaptureJournal& operator=(const CaptureJournal&) = delete;

    /// The trace file has grown by these bytes. At most every kMarkEvery_s its length and SHA-256 are entered. Returns
    /// one sentence where that cannot be written, else nothing.
    [[nodiscard]] std::string trace_grew(std::string_view bytes);
    /// The run log as it stands: what of it has changed is entered. Throws trace::InputError.
    void log(const nlohmann::json& run);
    /// The trace is whole: its last length, and how the run ended. Throws trace::InputError.
    void end(const std::string& how);
    /// Syncs to disk.
    void sync() const;

private:
    void enter(const nlohmann::ordered_json& body);
    void mark_trace();
    [[nodiscard]] double since_begin_s() const;

    mutable std::mutex mutex_;
    std::string name_;
    SigningKey key_;
    std::function<double()> now_s_;
    double began_s_;
    int descriptor_;
    std::uint64_t size_ = 0; ///< of the journal
    std::string before_;     ///< SHA-256 of the last line
    Sha256 trace_;
    std::uint64_t trace_bytes_ = 0, marked_bytes_ = 0;
    double next_mark_s_ = 0.0;
    nlohmann::json run_ = nlohmann::json::object();
};

/// Enters that this program has put another `text` into one of the files of a record whose journal is written, and
/// writes the file: the entry first, so that a program that is killed between the two leaves nothing unexplained. Does
/// the latter only where there is no journal. Throws trace::InputError.
void amend(const RecordFolder& record, const std::string& file, const std::string& text, const SigningKey& key);

/// What of `before` has to be set to come to `after`, key by key at the first level; null: the key is gone.
[[nodiscard]] nlohmann::json changed_keys(const nlohmann::json& before, const nlohmann::json& after);
/// The opposite: `tree` with those keys set.
void apply_changes(nlohmann::json& tree, const nlohmann::json& changes);

} // namespace zeroline::records
