#include "gui/records/earlier.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/folder_check.hpp"
#include "gui/records/schemas.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using trace::InputError;

namespace {

std::string text_of(const Earlier& earlier)
{
    ordered_json tree{{"schema", "zeroline/earlier/1"}};
    tree.update(issue_tree(earlier));
    return tree.dump(2) + "\n";
}

/// Every file of a folder and what lies below it. Throws trace::InputError where something is neither file nor folder.
void copy_all(const OpenFolder& from, const OpenFolder& to)
{
    for (const auto& name : from.names()) {
        if (const auto inner = from.folder_if_any(name)) {
            copy_all(*inner, to.make_folder(name));
        } else {
            to.put(name, from.read(name, kLargestEvidence));
        }
    }
}

void put_held(const RecordFolder& record, const OpenFolder& held, const Earlier& earlier)
{
    copy_all(held, record.opened().make_folder(held_folder(earlier.relation)));
    record.put(name::earlier, text_of(earlier));
}

Earlier name_earlier(const OpenFolder& folder, const std::string& relation, const std::string& reason)
{
    if (reason.find_first_not_of(" \t") == std::string::npos) {
        throw InputError(folder.path().string(), "no reason why a record follows it",
                         "what was done, or why it is made again");
    }
    const auto check = check_folder(folder);
    if (!check.troubles.empty()) {
        throw InputError(folder.path().string(), "is no intact record: " + check.troubles.front(),
                         "a sealed record that rechecks");
    }
    const auto record = folder.json(name::record);
    return {relation,
            record.at("issue").at("record_number"),
            folder.sha256(name::manifest),
            record.at("verdict"),
            record.at("unit_accuracy"),
            reason};
}

} // namespace

std::string held_folder(const std::string& relation)
{
    return relation == "as-found" ? name::as_found : relation == "attempt" ? name::attempt_before : std::string();
}

ordered_json issue_tree(const Earlier& earlier)
{
    return {{"relation", earlier.relation},
            {"record_number", earlier.record_number},
            {"manifest_sha256", earlier.manifest_sha256},
            {"verdict", earlier.verdict},
            {"unit_accuracy", earlier.unit_accuracy},
            {"reason", earlier.reason}};
}

Earlier load_earlier(const OpenFolder& record)
{
    const auto tree = record.json(name::earlier);
    reading(record.shown(name::earlier), [&] { check_schema(tree, "earlier"); });
    return {tree.at("relation"), tree.at("record_number"), tree.at("manifest_sha256"),
            tree.at("verdict"),  tree.at("unit_accuracy"), tree.at("reason")};
}

Earlier name_earlier(const fs::path& folder, const std::string& relation, const std::string& reason)
{
    return name_earlier(OpenFolder::at(folder), relation, reason);
}

void put_as_found(const RecordFolder& record, const fs::path& found, const std::string& done_between)
{
    const auto held = OpenFolder::at(found);
    put_held(record, held, name_earlier(held, "as-found", done_between));
}

void put_same_as_found(const RecordFolder& record, const fs::path& other)
{
    const auto opened = OpenFolder::at(other);
    put_held(record, opened.folder(name::as_found), load_earlier(opened));
}

void put_attempt_before(const RecordFolder& record, const fs::path& attempt, const std::string& reason)
{
    const auto held = OpenFolder::at(attempt);
    put_held(record, held, name_earlier(held, "attempt", reason));
}

void put_recalculated(const RecordFolder& record, const fs::path& earlier, const std::string& reason,
                      const SigningKey& key)
{
    amend(record, name::earlier, text_of(name_earlier(earlier, "recalculated", reason)), key);
}

} // namespace zeroline::records
