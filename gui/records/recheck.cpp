#include "gui/records/recheck.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/record/difference.hpp"
#include "analysis/record/record.hpp"
#include "gui/records/addenda.hpp"
#include "gui/records/dates.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/schemas.hpp"
#include "gui/records/seal.hpp"
#include "gui/records/software.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace zeroline::records {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using trace::InputError;

namespace {

std::string named(const nlohmann::json& software)
{
    return software.at("version").get<std::string>() + " (" + software.at("build").get<std::string>() + ")";
}

/// In front of what is said of a record that stands at `inside` in the one that is checked ("as-found", or empty).
std::string about(const std::string& inside) { return inside.empty() ? std::string() : inside + ": "; }

std::vector<std::string> differences_of(const ordered_json& saved, const ordered_json& now, record::Alike alike,
                                        const std::string& inside)
{
    std::vector<std::string> said;
    for (const auto& [pointer, was, is] : record::differences(saved, now, alike)) {
        if (pointer != "/method") {
            said.push_back(inside + pointer + ": saved " + was + ", now " + is);
        }
    }
    return said;
}

void demand_a_known_method(const nlohmann::json& record)
{
    const int method = record::method_of(record);
    if (method > record::kMethod) {
        throw InputError("/method", std::to_string(method) + " is newer than this program",
                         "at most " + std::to_string(record::kMethod) + "; a newer program");
    }
}

void compare(const ordered_json& saved, const std::string& now_text, const std::string& inside, Recheck& result)
{
    const auto now = parse_ordered_json(now_text);
    const bool same_build = saved.at("software") == now.at("software");
    if (!same_build) {
        result.remarks.push_back(about(inside) + "made by version " + named(saved.at("software")) +
                                 ", computed again by version " + named(now.at("software")));
    }
    const int method = record::method_of(saved);
    const auto alike = same_build && method == record::kMethod ? record::Alike::exactly : record::Alike::to_rounding;
    auto differences = differences_of(saved, now, alike, inside);
    if (method == record::kMethod) {
        result.differences.insert(result.differences.end(), differences.begin(), differences.end());
        return;
    }
    // What was sealed stays what it is: that a later method comes to other values is worth knowing, and no fault.
    result.remarks.push_back(about(inside) + "measured by method " + std::to_string(method) + "; computed again by " +
                             std::to_string(record::kMethod) + ": " +
                             (differences.empty() ? "no differences" : "differences listed"));
    result.remarks.insert(result.remarks.end(), differences.begin(), differences.end());
}

void look_at_dates(const nlohmann::json& record, const std::string& inside, Recheck& result)
{
    for (const auto& said : impossible_dates(record)) {
        result.dates.push_back(about(inside) + said);
    }
}

/// An earlier record that is held inside is a record like any other: it is computed again too.
void compute_again(const OpenFolder& folder, const std::string& inside, Recheck& result)
{
    try {
        const auto file = folder.shown(name::record);
        const auto text = folder.read(name::record);
        const auto tree = reading(file, [&] { return parse_json(text); });
        reading(file, [&] {
            check_schema(tree, "record");
            demand_a_known_method(tree);
        });
        look_at_dates(tree, inside, result);
        if (inside.empty()) {
            result.verdict = tree.at("verdict");
            result.critical = tree.value("critical", false);
            result.record_number = tree.at("issue").is_object() ? tree["issue"].at("record_number") : "";
        }
        const auto evidence = load_record_evidence(folder);
        // The same text holds no difference.
        if (const auto now = assess(evidence).record_json; now != text) {
            compare(parse_ordered_json(text), now, inside, result);
        }
        const auto held = evidence.earlier ? held_folder(evidence.earlier->relation) : std::string();
        if (!held.empty()) {
            compute_again(folder.folder(held), inside.empty() ? held : inside + "/" + held, result);
        }
    } catch (const InputError& error) {
        result.differences.push_back(about(inside) + "cannot be computed again: " + error.what());
    }
}

void look_up_key(const KeyList& known, const MadeSeal& seal, Recheck& result)
{
    if (seal.public_key.empty()) {
        return;
    }
    const auto key = "the key " + fingerprint(seal.public_key);
    if (known.name_of(seal.public_key).empty()) {
        auto& unknown_keys = result.unknown_keys;
        const auto mark = fingerprint(seal.public_key);
        if (std::find(unknown_keys.begin(), unknown_keys.end(), mark) == unknown_keys.end()) {
            unknown_keys.push_back(mark); // told once
        }
    } else if (const auto against = known.against(seal.public_key, seal.time); !against.empty()) {
        result.folder.troubles.push_back(key + " " + against + "; it sealed " +
                                         (seal.time.empty() ? "at no time" : seal.time));
    }
}

void look_up_keys(const KeyList& known, Recheck& result)
{
    const auto& folder = result.folder;
    result.signed_by = known.name_of(folder.public_key);
    for (const auto& seal : folder.other_seals) {
        look_up_key(known, seal, result);
    }
    look_up_key(known, {folder.public_key, folder.signature.time}, result);
}

void export_one(const OpenFolder& folder, const fs::path& out)
{
    const auto seal = parse_seal(folder.read(name::seal));
    fs::create_directories(out);
    write_file_whole(out / name::manifest, folder.read(name::manifest));
    write_file_whole(out / "signature.bin", seal.signature);
    write_file_whole(out / "public-key.pem", public_key_pem(seal.public_key));
}

/// Whether anything stands there that would have to be a record's.
bool holds_a_record(const OpenFolder& folder)
{
    const auto own = {name::record, name::manifest, name::seal};
    return std::any_of(own.begin(), own.end(),
                       [&](const auto& file) { return folder.kind(file) != OpenFolder::Kind::none; });
}

} // namespace

Recheck recheck(const fs::path& folder, const KeyList* known)
{
    std::error_code none;
    const auto opened = fs::is_directory(folder, none) ? std::optional(OpenFolder::at(folder)) : std::nullopt;
    if (!opened || !holds_a_record(*opened)) {
        throw InputError(folder.string(), opened ? "holds no record" : "is no record folder",
                         "a folder with record.json and seal.json");
    }
    Recheck result;
    result.folder = check_folder(*opened);
    result.remarks = result.folder.remarks;
    compute_again(*opened, "", result);
    for (const auto& addendum : result.folder.addenda) {
        for (auto& said : impossible_addition(result.folder.signature.time, addendum.signature.time)) {
            result.dates.push_back(std::move(said));
        }
    }
    if (known != nullptr) {
        look_up_keys(*known, result);
    }
    return result;
}

std::string why_not_intact(const FolderCheck& check)
{
    return check.sealed && !check.troubles.empty() ? check.troubles.front() : std::string();
}

FolderCheck check_to_show(const OpenFolder& record)
{
    auto check = check_folder(record);
    if (const auto why = why_not_intact(check); !why.empty()) {
        const auto folder = record.path().string();
        throw InputError(folder, "is not intact: " + why,
                         "a record as it was sealed; 'zeroline recheck " + folder + "' tells all");
    }
    return check;
}

void export_seal(const fs::path& record, const fs::path& out)
{
    if (std::error_code none; fs::exists(out, none)) {
        throw InputError(out.string(), "is there already", "a folder that does not exist yet; nothing is overwritten");
    }
    const auto opened = OpenFolder::at(record);
    export_one(opened, out);
    for (const auto& entry : list_addenda(opened)) {
        if (entry.expected) {
            export_one(opened.folder(name::addenda + "/" + entry.name), out / name::addenda / entry.name);
        }
    }
}

} // namespace zeroline::records
