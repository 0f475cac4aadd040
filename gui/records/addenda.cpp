#include "gui/records/addenda.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/folder_check.hpp"
#include "gui/records/open_folder.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/schemas.hpp"
#include "gui/records/seal.hpp"
#include "gui/records/sealing.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using trace::InputError;

namespace {

std::string numbered(std::size_t number)
{
    auto text = std::to_string(number);
    constexpr std::size_t digits = 3;
    return std::string(digits - std::min(digits, text.size()), '0') + text;
}

ordered_json tree_of(const Addendum& addendum)
{
    return {{"schema", "zeroline/addendum/1"},
            {"record_number", addendum.record_number},
            {"number", addendum.number},
            {"follows", addendum.follows},
            {"kind", addendum.kind},
            {"signer", addendum.signature.signer},
            {"role", addendum.signature.role},
            {"meaning", addendum.signature.meaning},
            {"time", addendum.signature.time},
            {"reason", addendum.reason},
            {"text", addendum.text}};
}

void need(const std::string& text, const std::string& option, const std::string& what)
{
    if (text.find_first_not_of(" \t") == std::string::npos) {
        throw InputError(option, "missing", what);
    }
    check_signature_text(text, option);
}

void refuse_unsigned(const Addendum& addendum)
{
    need(addendum.signature.signer, "--signer", "the printed name of who signs");
    need(addendum.signature.meaning, "--meaning", "what the signature means");
    check_signature_text(addendum.signature.role, "--role");
    if (addendum.kind == "correction") {
        need(addendum.reason, "--reason", "why the record is corrected");
        need(addendum.text, "--correction", "what it should read");
    }
}

} // namespace

Addendum load_addendum(const OpenFolder& folder)
{
    const auto tree = folder.json(name::addendum);
    reading(folder.shown(name::addendum), [&] { check_schema(tree, "addendum"); });
    return {tree.at("kind"),          {tree.at("signer"), tree.at("role"), tree.at("meaning"), tree.at("time")},
            tree.at("reason"),        tree.at("text"),
            tree.at("record_number"), static_cast<int>(tree.at("number").get<double>()),
            tree.at("follows")};
}

std::vector<AddendumEntry> list_addenda(const OpenFolder& record)
{
    std::vector<AddendumEntry> entries;
    if (record.kind(name::addenda) == OpenFolder::Kind::none) {
        return entries;
    }
    const auto folder = record.folder(name::addenda);
    for (const auto& name : folder.names()) {
        const bool in_turn = name == numbered(entries.size() + 1);
        entries.push_back({name, in_turn && folder.kind(name) == OpenFolder::Kind::folder});
    }
    return entries;
}

namespace {

/// Where the addendum goes that is made beside a record. The first brings the folder `addenda` with it, so that a
/// record never holds an empty one.
void put_in_place(const RecordFolder& made, const OpenFolder& record, std::size_t number)
{
    if (record.kind(name::addenda) == OpenFolder::Kind::folder) {
        made.finish_as(record.shown(name::addenda) / numbered(number));
        return;
    }
    const auto beside = RecordFolder::begin(neighbour_of(made.folder().string()));
    try {
        made.finish_as(beside.file(numbered(number)));
        beside.finish_as(record.shown(name::addenda));
    } catch (...) {
        beside.discard();
        throw;
    }
}

/// "r1.addendum-002.part" of the record "r1", or a neighbour of it.
bool is_addition_in_the_making(const std::string& record, std::string name)
{
    constexpr std::string_view part = ".part";
    if (!name.ends_with(part)) {
        return false;
    }
    name.resize(name.size() - part.size());
    if (is_neighbour(name)) {
        name.resize(name.size() - neighbour_of("").size());
    }
    const auto start = record + ".addendum-";
    return name.size() == start.size() + 3 && name.starts_with(start);
}

/// What an addition that was cut off left there. Only whoever holds the record may call it.
void clear_cut_off_additions(const fs::path& record)
{
    const auto clean = record.lexically_normal();
    const auto whole = clean.has_filename() ? clean : clean.parent_path();
    const auto parent = whole.has_parent_path() ? whole.parent_path() : fs::path(".");
    for (const auto& name : OpenFolder::at(parent).names()) {
        if (is_addition_in_the_making(whole.filename().string(), name)) {
            fs::remove_all(parent / name);
        }
    }
}

} // namespace

fs::path add_addendum(const fs::path& record, Addendum addendum, const SigningKey& key)
{
    refuse_unsigned(addendum);
    const FolderHold hold(record);
    const auto opened = OpenFolder::at(record);
    const auto check = check_folder(opened);
    if (!check.troubles.empty()) {
        throw InputError(record.string(), "is not intact: " + check.troubles.front(), "a sealed record that rechecks");
    }
    const auto before = list_addenda(opened);
    const auto last = before.empty() ? std::string() : name::addenda + "/" + before.back().name + "/";
    addendum.number = static_cast<int>(before.size()) + 1;
    addendum.follows = opened.sha256(last + name::manifest);
    addendum.record_number = opened.json(name::record).at("issue").at("record_number");
    // Made beside the record, so that a save that is cut off leaves the record as it was.
    auto beside = record.lexically_normal();
    beside = beside.has_filename() ? beside : beside.parent_path();
    beside += ".addendum-" + numbered(before.size() + 1);
    clear_cut_off_additions(record);
    const auto made = RecordFolder::begin(beside);
    try {
        made.put(name::addendum, tree_of(addendum).dump(2) + "\n");
        const auto manifest = make_manifest(made.opened(), Holds::addendum, addendum.signature,
                                            fingerprint(key.public_key()), addendum.follows)
                                  .text();
        made.put(name::manifest, manifest);
        made.put(name::seal, seal_manifest(manifest, key).text());
        put_in_place(made, opened, before.size() + 1);
    } catch (...) {
        made.discard();
        throw;
    }
    return record / name::addenda / numbered(before.size() + 1);
}

} // namespace zeroline::records
