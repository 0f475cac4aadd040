#include "gui/records/journal_check.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/key_list.hpp"

#include <algorithm>
#include <optional>

namespace zeroline::records {

namespace fs = std::filesystem;
using nlohmann::json;
using trace::InputError;

namespace {

constexpr const char* kCapturedHere = "captured-here";
constexpr const char* kImported = "imported";
constexpr std::size_t kLargestTrace = std::size_t{1} << 36;

/// Whether something bears the name; what is no file is then refused by whoever reads it.
bool is_there(const OpenFolder& folder, const std::string& file) { return folder.kind(file) != OpenFolder::Kind::none; }

json run_in(const OpenFolder& folder) { return is_there(folder, name::run) ? folder.json(name::run) : json(nullptr); }

std::string origin_in(const json& run)
{
    const auto origin = run.is_object() ? run.find("origin") : run.end();
    return origin != run.end() && origin->is_string() ? origin->get<std::string>() : std::string();
}

/// `run` is the log `journaled`, or the same with a lesser claim.
bool is_log(json run, const json& journaled)
{
    if (origin_in(run) == kImported && origin_in(journaled) == kCapturedHere) {
        run["origin"] = kCapturedHere;
    }
    return run == journaled;
}

bool is_trace(const std::string& text, const TraceMark& mark)
{
    return text.size() >= mark.bytes && sha256(std::string_view(text).substr(0, mark.bytes)) == mark.sha256;
}

std::string of_trace(const OpenFolder& folder) { return folder.read(name::trace, kLargestTrace); }

void put_imported(const RecordFolder& part)
{
    auto run = parse_ordered_json(part.opened().read(name::run));
    run["origin"] = kImported;
    part.put(name::run, run.dump(2) + "\n");
}

bool are_known(const Journal& journal, const IsKnown& is_known)
{
    return is_known(journal.public_key) && std::all_of(journal.other_keys.begin(), journal.other_keys.end(), is_known);
}

[[noreturn]] void refuse_changed(const RecordFolder& part, const std::string& file)
{
    throw InputError(part.file(file).string(), "was changed since the capture: it is not what the journal says",
                     "the file as it was; to judge it all the same, as imported: 'zeroline assess --order "
                     "... --trace ... --out ...'");
}

/// What the files of a FOLDER.part have to become. Found out first, so that nothing is changed where one is refused.
class Settling {
public:
    Settling(const RecordFolder& part, const Journal& journal) : part_(part), journal_(journal)
    {
        for (const auto& [file, journaled] : journal.files) {
            look_at_file(file, journaled);
        }
        look_at_log();
        look_at_trace();
    }

    std::vector<std::string> settle()
    {
        for (const auto& [file, text] : again_) {
            part_.put(file, text);
        }
        if (!rest_.empty()) {
            // The copy first: whatever breaks off in between, no byte is lost.
            part_.put(name::after, rest_);
            part_.put(name::trace, of_trace(part_.opened()).substr(0, kept_bytes_));
        }
        if (journal_.torn_bytes > 0) {
            rewrite_journal(part_.opened(), journal_);
        }
        return std::move(said_);
    }

private:
    void look_at_file(const std::string& file, const JournaledFile& journaled)
    {
        const bool there = is_there(part_.opened(), file);
        const auto now = there ? part_.opened().sha256(file) : std::string();
        if (now == journaled.sha256.back()) {
            return;
        }
        const auto& before = journaled.sha256;
        const bool not_yet = there ? std::find(before.begin(), before.end(), now) != before.end() : before.size() == 1;
        if (!not_yet || !journaled.text) {
            refuse_changed(part_, file);
        }
        again_[file] = *journaled.text;
    }

    void look_at_log()
    {
        const auto run = run_in(part_.opened());
        const auto& runs = journal_.runs;
        if (runs.empty() ? run.is_null() : is_log(run, runs.back())) {
            return;
        }
        const bool earlier =
            run.is_null() || std::any_of(runs.begin(), runs.end(), [&](const json& one) { return is_log(run, one); });
        if (runs.empty() || !earlier) {
            refuse_changed(part_, name::run);
        }
        again_[name::run] = runs.back().dump(2) + "\n";
        said_.push_back("run.json was written again from the journal: it was older");
    }

    void look_at_trace()
    {
        const auto text = of_trace(part_.opened());
        const auto& marks = journal_.marks;
        const auto fits =
            std::find_if(marks.rbegin(), marks.rend(), [&](const TraceMark& one) { return one.bytes <= text.size(); });
        const bool lost_some = fits != marks.rbegin();
        if ((fits != marks.rend() && !is_trace(text, *fits)) || (lost_some && journal_.ended)) {
            refuse_changed(part_, name::trace);
        }
        kept_bytes_ = fits == marks.rend() ? 0 : fits->bytes;
        if (lost_some) {
            said_.push_back("trace.csv is shorter than its journal: " +
                            std::to_string(marks.back().bytes - kept_bytes_) + " bytes did not reach the disk");
        }
        if (text.size() > kept_bytes_) {
            rest_ = text.substr(kept_bytes_);
            said_.push_back("the last " + std::to_string(rest_.size()) +
                            " bytes of trace.csv came after the journal's last entry: kept in " + name::after +
                            ", not judged");
        }
    }

    const RecordFolder& part_;
    const Journal& journal_;
    std::map<std::string, std::string> again_;
    std::uint64_t kept_bytes_ = 0;
    std::string rest_;
    std::vector<std::string> said_;
};

std::vector<std::string> settle_without(const RecordFolder& part, const std::string& why)
{
    if (origin_in(run_in(part.opened())) != kCapturedHere) {
        return {};
    }
    put_imported(part);
    return {why + ": nothing proves that it was captured here, it is judged as imported"};
}

} // namespace

bool claims_a_capture(const OpenFolder& folder)
{
    const auto origin = origin_in(run_in(folder));
    return !origin.empty() && origin != kImported;
}

IsKnown known_beside(const fs::path& key_file)
{
    return [known = own_keys(key_file)](const std::string& key) { return !known.name_of(key).empty(); };
}

std::vector<std::string> troubles_with_journal(const OpenFolder& folder, const Journal& journal)
{
    std::vector<std::string> troubles;
    const auto trouble = [&](const std::string& file, const std::string& said) {
        troubles.push_back(file + ": " + said);
    };
    for (const auto& [file, journaled] : journal.files) {
        if (!is_there(folder, file) || folder.sha256(file) != journaled.sha256.back()) {
            trouble(file, "is not what the journal says");
        }
    }
    const auto run = run_in(folder);
    if (journal.runs.empty() || !is_log(run, journal.runs.back())) {
        trouble(name::run, "is not what the journal says");
    }
    if (origin_in(run) == kCapturedHere && journal.origin != kCapturedHere) {
        trouble(name::run, "claims to be captured here, the journal says " + journal.origin);
    }
    const auto text = of_trace(folder);
    const bool marked = std::any_of(journal.marks.rbegin(), journal.marks.rend(), [&](const TraceMark& one) {
        return one.bytes == text.size() && is_trace(text, one);
    });
    if (!marked || (journal.ended && text.size() != journal.marks.back().bytes)) {
        trouble(name::trace, "is not what the journal says");
    }
    return troubles;
}

std::vector<std::string> settle_with_journal(const RecordFolder& part, const IsKnown& is_known)
{
    if (!is_there(part.opened(), name::journal)) {
        return settle_without(part, "it has no capture journal");
    }
    const auto journal = read_journal(part.opened());
    auto said = Settling(part, journal).settle();
    if (!are_known(journal, is_known)) {
        for (auto& one : settle_without(part, "its capture journal is signed with a key that is not known here")) {
            said.push_back(std::move(one));
        }
    }
    return said;
}

void need_journal(const RecordFolder& part)
{
    if (!is_there(part.opened(), name::journal)) {
        if (origin_in(run_in(part.opened())) == kCapturedHere) {
            throw InputError(part.part().string(), "has no capture journal, and claims to be captured here",
                             "a run as 'zeroline verify' left it");
        }
        return;
    }
    if (const auto troubles = troubles_with_journal(part.opened(), read_journal(part.opened())); !troubles.empty()) {
        throw InputError(part.part().string(), troubles.front(), "a record that agrees with its capture journal");
    }
}

} // namespace zeroline::records
