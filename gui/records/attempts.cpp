#include "gui/records/attempts.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/folder_check.hpp"
#include "gui/records/journal_check.hpp"
#include "gui/records/open_folder.hpp"
#include "gui/records/record_folder.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>
#include <tuple>

namespace zeroline::records {

namespace fs = std::filesystem;
using metrology::Outcome;
using nlohmann::json;

namespace {

/// Null where there is no such file, or none that can be read: what lies beside a record may be anything.
json tree_of(const OpenFolder& folder, const std::string& file)
{
    try {
        return folder.json(file);
    } catch (const trace::InputError&) {
        return nullptr;
    }
}

json member(const json& tree, const char* key)
{
    const auto found = tree.is_object() ? tree.find(key) : tree.end();
    return found != tree.end() ? *found : json(nullptr);
}

std::string text_at(const json& tree, const char* key)
{
    const auto value = member(tree, key);
    return value.is_string() ? value.get<std::string>() : std::string();
}

int number_at(const json& tree, const char* key, int otherwise)
{
    const auto value = member(tree, key);
    constexpr int most = 999; // a run log ends at 1000, and the next one is one more
    const bool sane = value.is_number_integer() && value >= 0 && value <= most;
    return sane ? value.get<int>() : otherwise;
}

bool has_finding(const json& record, const char* code)
{
    const auto findings = member(record, "findings");
    return findings.is_array() &&
           std::any_of(findings.begin(), findings.end(), [&](const json& one) { return text_at(one, "code") == code; });
}

Outcome outcome_at(const json& record, const char* key)
{
    const auto word = text_at(record, key);
    for (const auto one :
         {Outcome::not_judged, Outcome::pass, Outcome::conditional_pass, Outcome::conditional_fail, Outcome::fail}) {
        if (word == metrology::word_of(one)) {
            return one;
        }
    }
    return Outcome::incomplete;
}

std::optional<verification::Replaces> replaces_in(const json& run)
{
    const auto tree = member(run, "replaces");
    if (!tree.is_object()) {
        return std::nullopt;
    }
    return verification::Replaces{number_at(tree, "attempt", 0), text_at(tree, "cause"), text_at(tree, "evidence")};
}

fs::path place_of(const fs::path& folder)
{
    const auto whole = fs::absolute(folder).lexically_normal();
    return whole.has_filename() ? whole.parent_path() : whole.parent_path().parent_path();
}

std::string manifest_sha256_of(const OpenFolder& folder)
{
    return folder.has_file(name::seal) && folder.has_file(name::manifest) ? folder.sha256(name::manifest)
                                                                          : std::string();
}

/// Through the attempts before it to the record as found that all of them follow.
std::string as_found_of(OpenFolder folder)
{
    for (int depth = 0; depth < kDeepestRecord; ++depth) {
        const auto earlier = tree_of(folder, name::earlier);
        if (text_at(earlier, "relation") != "attempt") {
            return text_at(earlier, "relation") == "as-found" ? text_at(earlier, "manifest_sha256") : std::string();
        }
        const auto before = folder.folder_if_any(name::attempt_before);
        if (!before) {
            return {};
        }
        folder = *before;
    }
    return {};
}

/// The same record that counts already, held in another: a copy that was changed keeps no record from being found.
bool is_found(const KeptAttempt& kept, const std::vector<KeptAttempt>& found)
{
    return !kept.manifest_sha256.empty() && kept.counts != Counts::not_at_all &&
           std::any_of(found.begin(), found.end(), [&](const KeptAttempt& other) {
               return other.counts != Counts::not_at_all && other.manifest_sha256 == kept.manifest_sha256;
           });
}

/// The records of `folder` and inside it that are of the order of `one`, the outermost first.
void add_all_in(OpenFolder folder, const KeptAttempt& one, const KeyList* known, std::vector<KeptAttempt>& found)
{
    for (int depth = 0; depth < kDeepestRecord; ++depth) {
        auto kept = kept_attempt(folder);
        if (!kept || !kept->same_order(one)) {
            return;
        }
        weigh(*kept, folder, known);
        if (is_found(*kept, found)) {
            return;
        }
        found.push_back(std::move(*kept));
        const auto held = held_folder(text_at(tree_of(folder, name::earlier), "relation"));
        const auto inner = held.empty() ? std::nullopt : folder.folder_if_any(held);
        if (!inner) {
            return;
        }
        folder = *inner;
    }
}

/// What lies in a place and is of the order of `one`.
std::vector<KeptAttempt> records_in(const fs::path& place, const KeptAttempt& one, const KeyList* known)
{
    std::vector<KeptAttempt> all;
    if (std::error_code none; !fs::is_directory(place, none)) {
        return all;
    }
    const auto opened = OpenFolder::at(place);
    for (const auto& name : opened.names()) {
        if (const auto folder = opened.folder_if_any(name)) {
            add_all_in(*folder, one, known, all);
        }
    }
    return all;
}

/// Those that count; a record that calculates another one again follows what that one follows.
std::vector<KeptAttempt> counted(std::vector<KeptAttempt> all)
{
    std::erase_if(all, [](const KeptAttempt& one) { return one.counts == Counts::not_at_all; });
    for (auto& one : all) {
        for (const auto& other : all) {
            if (!one.recalculated.empty() && one.recalculated == other.manifest_sha256) {
                one.as_found = other.as_found;
            }
        }
    }
    return all;
}

const KeptAttempt* calculated_again(const KeptAttempt& one, const std::vector<KeptAttempt>& all)
{
    const auto it = std::find_if(all.begin(), all.end(), [&](const KeptAttempt& other) {
        return !one.manifest_sha256.empty() && other.recalculated == one.manifest_sha256;
    });
    return it == all.end() ? nullptr : &*it;
}

std::vector<KeptAttempt> belonging_with(const KeptAttempt& one, const std::vector<KeptAttempt>& all)
{
    std::vector<KeptAttempt> those;
    std::copy_if(all.begin(), all.end(), std::back_inserter(those), [&](const KeptAttempt& other) {
        return other.belongs_with(one) && calculated_again(other, all) == nullptr;
    });
    std::sort(those.begin(), those.end(), [](const KeptAttempt& a, const KeptAttempt& b) {
        return std::pair(a.attempt.number, a.folder) < std::pair(b.attempt.number, b.folder);
    });
    return those;
}

/// The first record that was made as left after one of these; null where there is none.
const KeptAttempt* as_left_after(const std::vector<KeptAttempt>& attempts, const std::vector<KeptAttempt>& all)
{
    const auto it = std::find_if(all.begin(), all.end(), [&](const KeptAttempt& other) {
        return !other.as_found.empty() && std::any_of(attempts.begin(), attempts.end(), [&](const KeptAttempt& one) {
            return one.manifest_sha256 == other.as_found;
        });
    });
    return it == all.end() ? nullptr : &*it;
}

std::string why_again(const std::optional<AsFound>& as_found, const std::optional<verification::Replaces>& replaces)
{
    auto reason = replaces ? replaces->cause + ": " + replaces->evidence : "repeated; no cause in the set-up is named";
    if (as_found) {
        reason += "; done since it was found: " + as_found->done_between;
    }
    return reason;
}

} // namespace

bool KeptAttempt::same_order(const KeptAttempt& other) const
{
    return work_order == other.work_order && asset == other.asset && simulated == other.simulated;
}

bool KeptAttempt::belongs_with(const KeptAttempt& other) const
{
    return same_order(other) && as_found == other.as_found;
}

namespace {

/// Why a sealed record does not count; empty: it does.
std::string why_seal_counts_not(const FolderCheck& check, const KeyList* known)
{
    if (!check.troubles.empty()) {
        return "not intact: " + check.troubles.front();
    }
    if (known == nullptr) {
        return {};
    }
    if (known->name_of(check.public_key).empty()) {
        return "its key is not known here";
    }
    const auto against = known->against(check.public_key, check.signature.time);
    return against.empty() ? std::string() : "its key " + against;
}

/// A run that nobody signed counts by its journal, and is judged anew: its record.json is nobody's word.
std::string why_journal_counts_not(KeptAttempt& attempt, const OpenFolder& folder, const KeyList* known)
{
    if (!folder.has_file(name::journal)) {
        return "never sealed, and without a capture journal";
    }
    try {
        const auto journal = read_journal(folder);
        if (known != nullptr && known->name_of(journal.public_key).empty()) {
            return "never sealed, and the key of its capture journal is not known here";
        }
        attempt.attempt.verdict = Outcome::incomplete;
        if (troubles_with_journal(folder, journal).empty()) {
            const auto result = assess(load_record_evidence(folder)).assessment;
            attempt.attempt.verdict = metrology::worse(result.verdict, result.unit_accuracy);
        }
        return {};
    } catch (const trace::InputError& error) {
        return std::string("never sealed, and its capture journal does not hold: ") + error.what();
    }
}

} // namespace

void weigh(KeptAttempt& attempt, const OpenFolder& folder, const KeyList* known)
{
    const auto check = check_folder(folder);
    attempt.why_not = check.sealed ? why_seal_counts_not(check, known) : why_journal_counts_not(attempt, folder, known);
    attempt.counts = !attempt.why_not.empty()         ? Counts::not_at_all
                     : folder.has_file(name::journal) ? Counts::proven
                                                      : Counts::unproven;
}

std::optional<KeptAttempt> kept_attempt(const fs::path& folder)
{
    std::error_code none;
    return fs::is_directory(folder, none) ? kept_attempt(OpenFolder::at(folder)) : std::nullopt;
}

std::optional<KeptAttempt> kept_attempt(const OpenFolder& folder)
{
    const auto order = tree_of(folder, name::order);
    const auto run = tree_of(folder, name::run);
    if (text_at(order, "work_order").empty() || run.is_null()) {
        return std::nullopt;
    }
    KeptAttempt kept;
    kept.folder = folder.path();
    kept.work_order = text_at(order, "work_order");
    kept.asset = text_at(member(order, "unit"), "asset");
    kept.simulated = text_at(run, "origin") == verification::word_of(verification::Origin::simulated);
    kept.attempt.number = number_at(run, "attempt", 1);
    kept.attempt.replaces = replaces_in(run);
    const auto record = tree_of(folder, name::record);
    kept.left_out_unlike = has_finding(record, "one-cycle-unlike");
    kept.attempt.verdict = metrology::worse(outcome_at(record, "verdict"), outcome_at(record, "unit_accuracy"));
    kept.manifest_sha256 = manifest_sha256_of(folder);
    kept.as_found = as_found_of(folder);
    if (const auto earlier = tree_of(folder, name::earlier); text_at(earlier, "relation") == "recalculated") {
        kept.recalculated = text_at(earlier, "manifest_sha256");
    }
    return kept;
}

std::vector<KeptAttempt> attempts_beside(const KeptAttempt& one, const KeyList* known)
{
    auto all = records_in(place_of(one.folder), one, known);
    std::stable_sort(all.begin(), all.end(),
                     [](const KeptAttempt& a, const KeptAttempt& b) { return a.attempt.number < b.attempt.number; });
    const auto those = counted(all);
    std::vector<KeptAttempt> listed;
    std::copy_if(those.begin(), those.end(), std::back_inserter(listed),
                 [&](const KeptAttempt& other) { return calculated_again(other, those) == nullptr; });
    std::sort(listed.begin(), listed.end(), [](const KeptAttempt& a, const KeptAttempt& b) {
        return std::tuple(a.as_found, a.attempt.number, a.folder) < std::tuple(b.as_found, b.attempt.number, b.folder);
    });
    std::copy_if(all.begin(), all.end(), std::back_inserter(listed),
                 [](const KeptAttempt& other) { return other.counts == Counts::not_at_all; });
    return listed;
}

std::vector<KeptAttempt> attempts_before(KeptAttempt one, const std::optional<AsFound>& as_found, const KeyList* known)
{
    const auto all = counted(records_in(place_of(one.folder), one, known));
    if (as_found) {
        one.as_found = name_earlier(as_found->folder, "as-found", as_found->done_between).manifest_sha256;
        return belonging_with(one, all);
    }
    auto attempts = belonging_with(one, all);
    // Found, left, found again, left again: no longer chain than there are records.
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (const auto* left = as_left_after(attempts, all)) {
            one.as_found = left->as_found;
            attempts = belonging_with(one, all);
        }
    }
    return attempts;
}

void put_followed(const RecordFolder& record, const std::vector<KeptAttempt>& before,
                  const std::optional<AsFound>& as_found, const std::optional<verification::Replaces>& replaces)
{
    for (auto one = before.rbegin(); one != before.rend(); ++one) {
        if (!one->manifest_sha256.empty() && check_folder(one->folder).troubles.empty()) {
            put_attempt_before(record, one->folder, why_again(as_found, replaces));
            return;
        }
    }
    if (as_found) {
        put_as_found(record, as_found->folder, as_found->done_between);
        return;
    }
    for (auto one = before.rbegin(); one != before.rend(); ++one) {
        if (std::error_code none; fs::is_directory(one->folder / name::as_found, none)) {
            put_same_as_found(record, one->folder);
            return;
        }
    }
}

std::string why_not_standing(const fs::path& folder, const KeyList* known)
{
    const auto one = kept_attempt(folder);
    const auto all = one ? counted(records_in(place_of(folder), *one, known)) : std::vector<KeptAttempt>();
    const auto own = manifest_sha256_of(OpenFolder::at(folder));
    std::error_code none;
    const auto it = std::find_if(all.begin(), all.end(), [&](const KeptAttempt& other) {
        return own.empty() ? fs::equivalent(other.folder, folder, none) : other.manifest_sha256 == own;
    });
    if (it == all.end()) {
        return {};
    }
    if (const auto* again = calculated_again(*it, all)) {
        return "it was calculated again: " + again->folder.string();
    }
    const auto attempts = belonging_with(*it, all);
    if (const auto* left = as_left_after(attempts, all)) {
        return "it shows the unit as found; as left: " + left->folder.string();
    }
    const auto at = standing(attempts);
    if (!at || attempts[*at].folder == it->folder) {
        return {};
    }
    std::vector<verification::Attempt> plain;
    for (const auto& kept : attempts) {
        plain.push_back(kept.attempt);
    }
    return verification::standing_sentence(plain) + " That is " + attempts[*at].folder.string();
}

std::optional<int> unlike_in_attempt(const std::vector<KeptAttempt>& attempts)
{
    const auto it = std::find_if(attempts.begin(), attempts.end(), [](const auto& one) { return one.left_out_unlike; });
    return it == attempts.end() ? std::nullopt : std::optional(it->attempt.number);
}

std::optional<std::size_t> standing(const std::vector<KeptAttempt>& attempts)
{
    std::vector<verification::Attempt> all;
    for (const auto& one : attempts) {
        all.push_back(one.attempt);
    }
    return verification::standing_attempt(all);
}

} // namespace zeroline::records
