#include "gui/records/capture_journal.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/journal.hpp"
#include "gui/records/journal_line.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/software.hpp"

#include <cerrno>
#include <chrono>
#include <cmath>
#include <cstring>
#include <fcntl.h>
#include <unistd.h>
#include <utility>

namespace zeroline::records {

using nlohmann::json;
using nlohmann::ordered_json;
using trace::InputError;

namespace {

double steady_s() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

[[noreturn]] void refuse(const std::string& file, int error_number)
{
    const bool full = error_number == ENOSPC || error_number == EDQUOT;
    throw InputError(file, full ? "the disk is full" : "cannot be written: " + std::string(std::strerror(error_number)),
                     full ? "free space" : "a place that can be written");
}

int create(const std::string& file)
{
    const int descriptor = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (descriptor < 0) {
        refuse(file, errno);
    }
    return descriptor;
}

/// All of `line`, or nothing of it: half a line would be taken for one that was cut off by a crash.
void append_whole(int descriptor, const std::string& file, std::uint64_t size, std::string_view line)
{
    std::size_t written = 0;
    while (written < line.size()) {
        const auto bytes = ::write(descriptor, line.data() + written, line.size() - written);
        if (bytes < 0 && errno == EINTR) {
            continue;
        }
        if (bytes <= 0) {
            const int error_number = bytes < 0 ? errno : ENOSPC;
            [[maybe_unused]] const int cut = ::ftruncate(descriptor, static_cast<off_t>(size));
            refuse(file, error_number);
        }
        written += static_cast<std::size_t>(bytes);
    }
}

/// What stands in the folder when the capture begins; records held inside are named by earlier.json.
ordered_json files_of(const RecordFolder& record)
{
    auto files = ordered_json::object();
    for (const auto& file : {name::order, name::instrument, name::bench, name::procedure, name::earlier}) {
        if (record.opened().kind(file) != OpenFolder::Kind::none) {
            files[file] = record.opened().sha256(file);
        }
    }
    return files;
}

double to_the_millisecond(double seconds) { return std::round(seconds * 1000.0) / 1000.0; }

} // namespace

CaptureJournal::CaptureJournal(const RecordFolder& record, SigningKey key, const Begin& begin,
                               std::function<double()> now_s)
    : name_(record.file(name::journal).string()), key_(std::move(key)), now_s_(now_s ? std::move(now_s) : steady_s),
      began_s_(now_s_()), descriptor_(create(name_))
{
    try {
        const auto& program = this_software();
        enter({{"entry", "begin"},
               {"time", begin.time},
               {"origin", verification::word_of(begin.origin)},
               {"program", program.version + " (" + program.build + ")"},
               {"key", base64(key_.public_key())},
               {"files", files_of(record)}});
    } catch (...) {
        ::close(descriptor_);
        throw;
    }
}

CaptureJournal::~CaptureJournal() { ::close(descriptor_); }

double CaptureJournal::since_begin_s() const { return to_the_millisecond(now_s_() - began_s_); }

void CaptureJournal::enter(const ordered_json& body)
{
    const auto line = journal_line(body, before_, key_);
    append_whole(descriptor_, name_, size_, line);
    size_ += line.size();
    before_ = sha256(line);
}

void CaptureJournal::mark_trace()
{
    enter({{"entry", "trace"}, {"at_s", since_begin_s()}, {"bytes", trace_bytes_}, {"sha256", trace_.hexadecimal()}});
    marked_bytes_ = trace_bytes_;
}

std::string CaptureJournal::trace_grew(std::string_view bytes)
{
    const std::lock_guard lock(mutex_);
    trace_.add(bytes);
    trace_bytes_ += bytes.size();
    const double now = now_s_();
    if (now < next_mark_s_) {
        return {};
    }
    next_mark_s_ = now + kMarkEvery_s;
    try {
        mark_trace();
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

void CaptureJournal::log(const json& run)
{
    const std::lock_guard lock(mutex_);
    const auto changes = changed_keys(run_, run);
    if (changes.empty()) {
        return;
    }
    enter({{"entry", "log"}, {"at_s", since_begin_s()}, {"run", changes}});
    run_ = run;
}

void CaptureJournal::end(const std::string& how)
{
    const std::lock_guard lock(mutex_);
    if (trace_bytes_ > marked_bytes_) {
        mark_trace();
    }
    enter({{"entry", "end"}, {"at_s", since_begin_s()}, {"how", how}});
    static_cast<void>(::fdatasync(descriptor_));
}

void CaptureJournal::sync() const { static_cast<void>(::fdatasync(descriptor_)); }

void amend(const RecordFolder& record, const std::string& file, const std::string& text, const SigningKey& key)
{
    if (record.opened().kind(name::journal) != OpenFolder::Kind::none) {
        const auto journal = read_journal(record.opened());
        ordered_json body{{"entry", "amended"}, {"key", base64(key.public_key())}};
        if (file == name::run) {
            body["run"] = changed_keys(journal.runs.empty() ? json::object() : journal.runs.back(), parse_json(text));
        } else {
            body["file"] = file;
            body["sha256"] = sha256(text);
            body["text"] = text;
        }
        rewrite_journal(record.opened(), journal, journal_line(body, journal.last_line_sha256, key));
    }
    record.put(file, text);
}

json changed_keys(const json& before, const json& after)
{
    auto changes = json::object();
    for (const auto& [key, value] : after.items()) {
        if (!before.contains(key) || before.at(key) != value) {
            changes[key] = value;
        }
    }
    for (const auto& [key, value] : before.items()) {
        if (!after.contains(key)) {
            changes[key] = nullptr;
        }
    }
    return changes;
}

void apply_changes(json& tree, const json& changes)
{
    for (const auto& [key, value] : changes.items()) {
        if (value.is_null()) {
            tree.erase(key);
        } else {
            tree[key] = value;
        }
    }
}

} // namespace zeroline::records
