#include "gui/records/sources.hpp"

#include "gui/records/capture_journal.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/schemas.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

namespace fs = std::filesystem;
using nlohmann::ordered_json;

namespace {

constexpr const char* kFile = "sources.json";

/// Every file of the evidence by its name in a record; relative names would mean another place tomorrow.
ordered_json tree_of(const EvidenceFiles& files)
{
    ordered_json tree{{"schema", "zeroline/sources/1"},
                      {"order", fs::absolute(files.order).string()},
                      {"trace", fs::absolute(files.trace).string()}};
    const std::pair<const char*, const std::optional<fs::path>*> others[] = {
        {"instrument", &files.instrument}, {"run", &files.run}, {"bench", &files.bench}};
    for (const auto& [key, file] : others) {
        if (*file) {
            tree[key] = fs::absolute(**file).string();
        }
    }
    return tree;
}

EvidenceFiles files_in(const nlohmann::json& tree)
{
    const auto optional = [&](const char* key) {
        return tree.contains(key) ? std::optional<fs::path>(tree.at(key).get<std::string>()) : std::nullopt;
    };
    return {tree.at("order").get<std::string>(), tree.at("trace").get<std::string>(), optional("instrument"),
            optional("run"), optional("bench")};
}

void fill_from_record(const RecordFolder& part, const fs::path& earlier, const fs::path& instrument,
                      const std::string& reason, const Unlock& unlock)
{
    const auto key = unlock();
    const auto text = load_instrument(instrument).text;
    // The journal first: what is put in afterwards is entered there.
    put_recorded_evidence(part, OpenFolder::at(earlier));
    put_recalculated(part, earlier, reason, key);
    amend(part, name::instrument, text, key);
}

} // namespace

RecordFolder begin_from_files(const fs::path& folder, const EvidenceFiles& files, const LoadedEvidence& evidence)
{
    return RecordFolder::begin_with(folder, tree_of(files).dump(2) + "\n",
                                    [&](const RecordFolder& part) { put_evidence(part, evidence, files.trace); });
}

RecordFolder begin_from_record(const fs::path& folder, const fs::path& earlier, const fs::path& instrument,
                               const std::string& reason, const Unlock& unlock)
{
    const ordered_json tree{{"schema", "zeroline/sources/1"},
                            {"record", fs::absolute(earlier).string()},
                            {"instrument", fs::absolute(instrument).string()},
                            {"reason", reason}};
    return RecordFolder::begin_with(folder, tree.dump(2) + "\n", [&](const RecordFolder& part) {
        fill_from_record(part, earlier, instrument, reason, unlock);
    });
}

void fill_from_sources(const RecordFolder& record, const Unlock& unlock)
{
    if (record.opened().kind(kFile) == OpenFolder::Kind::none) {
        return;
    }
    const auto file = record.file(kFile);
    const auto tree = record.opened().json(kFile);
    reading(file, [&] { check_schema(tree, "sources"); });
    if (tree.contains("record")) {
        fill_from_record(record, tree.at("record").get<std::string>(), tree.at("instrument").get<std::string>(),
                         tree.at("reason").get<std::string>(), unlock);
    } else {
        const auto files = files_in(tree);
        put_evidence(record, load_evidence(files), files.trace);
    }
    fs::remove(file);
}

} // namespace zeroline::records
