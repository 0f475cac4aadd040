#include "gui/records/sealing.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/record/record.hpp"
#include "analysis/verification/civil_time.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/journal_check.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/records/seal.hpp"
#include "gui/records/software.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <random>
#include <set>
#include <string_view>

namespace zeroline::records {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using trace::InputError;

namespace {

constexpr const char* kMethod = "verification at a closed hose end, guided bench run";
constexpr const char* kStatement =
    "The results concern only the unit named here, as it was during this run. Reproduce this record only as a whole.";

/// A text that must stand in a record, and how a person would call it.
struct Needed {
    const char* pointer;
    const char* words;
};
constexpr Needed kNeeded[] = {
    {"/issue/organisation", "organisation (key organisation of the bench file)"},
    {"/issue/address", "address of the organisation (key address of the bench file)"},
    {"/run/place", "place of the run (--place)"},
    {"/issue/record_number", "record number"},
    {"/order/customer", "customer, or why there is none (key customer of the work order)"},
    {"/issue/method/name", "method"},
    {"/issue/method/version", "version of the method"},
    {"/unit/asset", "asset number of the unit"},
    {"/unit/serial", "serial number of the unit"},
    {"/unit/model", "model of the unit"},
    {"/run/began", "date of the run (key began of the run log)"},
    {"/decision_rule", "decision rule"},
    {"/issue/statement", "statement that the results concern the unit tested"},
    {"/issue/signer", "printed name of who signs (--signer)"},
    {"/issue/meaning", "meaning of the signature (--meaning)"},
};

ordered_json at(const ordered_json& tree, const char* pointer)
{
    const ordered_json::json_pointer place(pointer);
    return tree.contains(place) ? tree.at(place) : ordered_json(nullptr);
}

bool is_filled(const ordered_json& value)
{
    return value.is_string() && value.get_ref<const std::string&>().find_first_not_of(" \t") != std::string::npos;
}

bool has_results(const ordered_json& judgements)
{
    return judgements.is_array() && !judgements.empty() &&
           std::all_of(judgements.begin(), judgements.end(),
                       [](const auto& one) { return is_filled(at(one, "/unit")); });
}

/// A displayed value is what somebody read, and a value that was not measured has none.
bool has_uncertainties(const ordered_json& judgements)
{
    return std::all_of(judgements.begin(), judgements.end(), [](const auto& one) {
        return !at(one, "/worst").is_number() || at(one, "/expanded_uncertainty").is_number();
    });
}

std::string fit_for_file_name(std::string text)
{
    for (char& c : text) {
        const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '.' ||
                           c == '-' || c == '_' || static_cast<unsigned char>(c) >= 0x80;
        c = plain ? c : '-';
    }
    return text;
}

/// Tells apart what begins in the same second with the same unit, or is calculated again. No letter looks like another.
std::string four_letters()
{
    constexpr std::string_view letters = "abcdefghjkmnpqrstuvwxyz23456789";
    std::random_device dice;
    std::uniform_int_distribution<std::size_t> any(0, letters.size() - 1);
    std::string text;
    for (int i = 0; i < 4; ++i) {
        text += letters[any(dice)];
    }
    return text;
}

/// "2026-11-25T09:12:04+01:00" -> "2026-11-25-091204"
std::string stamp_of(const std::string& instant)
{
    std::string stamp = instant.substr(0, 10) + "-";
    for (const char c : instant.substr(11, 8)) {
        stamp += c == ':' ? "" : std::string(1, c);
    }
    return stamp;
}

/// A record holds its own files and an earlier record; what somebody else put there is not sealed with them.
void refuse_foreign_files(const RecordFolder& record, const LoadedEvidence& evidence)
{
    const auto held = evidence.earlier ? held_folder(evidence.earlier->relation) : std::string();
    const std::set<std::string> own{name::record,   name::page,  name::trace,    name::order,   name::instrument,
                                    name::run,      name::bench, name::after,    name::journal, name::earlier,
                                    name::manifest, name::seal,  name::procedure};
    for (const auto& file : record.opened().names()) {
        if (!own.contains(file) && (held.empty() || file != held)) {
            throw InputError(record.file(file).string(), "is no file of a record",
                             "it in another place; what stands here is sealed");
        }
    }
}

void put_page(const RecordFolder& record, const SealRequest& request, const std::string& key)
{
    if (request.make_page) {
        request.make_page(record.part(), record.file(name::page), request.signature, key);
    }
}

} // namespace

std::vector<std::string> missing_for_seal(const ordered_json& record)
{
    std::vector<std::string> missing;
    for (const auto& needed : kNeeded) {
        if (!is_filled(at(record, needed.pointer))) {
            missing.emplace_back(needed.words);
        }
    }
    const auto judgements = at(record, "/judgements");
    if (!has_results(judgements)) {
        missing.emplace_back("results with their units");
    } else if (!has_uncertainties(judgements)) {
        missing.emplace_back("uncertainty of the results (instrument file)");
    }
    if (const auto issued = at(record, "/issue/issued"); !is_filled(issued) || !verification::is_instant(issued)) {
        missing.emplace_back("date of issue and time of the signature");
    }
    return missing;
}

std::string usual_record_number(const ordered_json& record)
{
    const auto began = at(record, "/run/began");
    const auto asset = at(record, "/unit/asset");
    if (!is_filled(began) || !is_filled(asset) || !verification::is_instant(began)) {
        return {};
    }
    return fit_for_file_name(stamp_of(began) + "-" + asset.get<std::string>()) + "-" + four_letters();
}

ordered_json make_issue(const ordered_json& record, const LoadedEvidence& evidence, const SealRequest& request)
{
    const auto& signature = request.signature;
    check_signature_text(signature.signer, "signer");
    check_signature_text(signature.role, "role");
    check_signature_text(signature.meaning, "meaning");
    check_signature_text(request.number, "record number");
    return {{"record_number", request.number.empty() ? usual_record_number(record) : request.number},
            {"issued", signature.time},
            {"organisation", evidence.bench ? evidence.bench->meaning.organisation : ""},
            {"address", evidence.bench ? evidence.bench->meaning.address : ""},
            {"method", {{"name", kMethod}, {"version", std::to_string(record::kMethod)}}},
            {"statement", kStatement},
            {"signer", signature.signer},
            {"role", signature.role},
            {"meaning", signature.meaning},
            {"earlier", evidence.earlier ? issue_tree(*evidence.earlier) : ordered_json(nullptr)}};
}

Sealing seal_and_rename(const RecordFolder& record, const LoadedEvidence& evidence, const Assessed& assessed,
                        const SealRequest& request)
{
    auto tree = parse_ordered_json(assessed.record_json);
    tree["issue"] = make_issue(tree, evidence, request);
    Sealing sealing{missing_for_seal(tree), tree["issue"]["record_number"], record.part()};
    record.tidy();
    if (!sealing.missing.empty()) {
        tree["issue"] = nullptr;
        record.put(name::record, tree.dump(2) + "\n");
        return sealing;
    }
    refuse_foreign_files(record, evidence);
    need_journal(record);
    const auto key = request.unlock ? request.unlock() : SigningKey::load_or_make(request.key_file);
    record.put(name::record, tree.dump(2) + "\n");
    const auto mark = fingerprint(key.public_key());
    put_page(record, request, mark);
    const auto manifest = make_manifest(record.opened(), Holds::record, request.signature, mark).text();
    record.put(name::manifest, manifest);
    record.put(name::seal, seal_manifest(manifest, key).text());
    record.finish();
    sealing.folder = record.folder();
    return sealing;
}

void check_signature_text(const std::string& text, const std::string& what)
{
    constexpr std::size_t longest = 200;
    const bool plain = std::none_of(text.begin(), text.end(),
                                    [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
    if (!plain || text.size() > longest) {
        throw InputError(what, "is no plain line of text", "at most 200 bytes without line ends or control characters");
    }
}

} // namespace zeroline::records
