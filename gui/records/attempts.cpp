#include "gui/records/attempts.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace zeroline::records {

namespace fs = std::filesystem;
using metrology::Outcome;
using nlohmann::json;

namespace {

/// Null where there is no such file, or none that can be read: what lies beside a record may be anything.
json tree_of(const fs::path& file)
{
    std::error_code none;
    if (!fs::is_regular_file(file, none)) {
        return nullptr;
    }
    try {
        return load_json(file);
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
    return value.is_number_integer() ? value.get<int>() : otherwise;
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

} // namespace

bool KeptAttempt::belongs_with(const KeptAttempt& other) const
{
    return work_order == other.work_order && asset == other.asset && simulated == other.simulated;
}

std::optional<KeptAttempt> kept_attempt(const fs::path& folder)
{
    const auto order = tree_of(folder / name::order);
    const auto run = tree_of(folder / name::run);
    if (text_at(order, "work_order").empty() || run.is_null()) {
        return std::nullopt;
    }
    KeptAttempt kept;
    kept.folder = folder;
    kept.work_order = text_at(order, "work_order");
    kept.asset = text_at(member(order, "unit"), "asset");
    kept.simulated = text_at(run, "origin") == verification::word_of(verification::Origin::simulated);
    kept.attempt.number = number_at(run, "attempt", 1);
    kept.attempt.replaces = replaces_in(run);
    const auto record = tree_of(folder / name::record);
    kept.attempt.verdict = metrology::worse(outcome_at(record, "verdict"), outcome_at(record, "unit_accuracy"));
    return kept;
}

std::vector<KeptAttempt> attempts_beside(const KeptAttempt& one)
{
    std::vector<KeptAttempt> beside;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(place_of(one.folder), none)) {
        if (!entry.is_directory(none)) {
            continue;
        }
        auto kept = kept_attempt(entry.path());
        if (kept && kept->belongs_with(one)) {
            beside.push_back(std::move(*kept));
        }
    }
    std::sort(beside.begin(), beside.end(), [](const KeptAttempt& a, const KeptAttempt& b) {
        return std::pair(a.attempt.number, a.folder) < std::pair(b.attempt.number, b.folder);
    });
    return beside;
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
