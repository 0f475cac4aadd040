#include "gui/records/folder_check.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/addenda.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/journal_check.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/seal.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <optional>

namespace zeroline::records {

namespace fs = std::filesystem;

namespace {

/// What one sealed folder (a record, an addendum) says of itself.
struct Sealed {
    std::optional<Manifest> manifest;
    std::string manifest_sha256;
    std::string public_key;
};

class Check {
public:
    explicit Check(FolderCheck& result) : result_(result) {}

    /// Runs `act`; what it throws is a trouble of `what`.
    template <typename Act> void guarded(const std::string& what, Act act)
    {
        try {
            act();
        } catch (const trace::InputError& error) {
            trouble(what,
                    std::string(trace::InputError("", error.found(), "").what()) +
                        (error.where().starts_with("/") || error.where().starts_with("line") ? " at " + error.where()
                                                                                             : ""));
        } catch (const std::exception& error) {
            trouble(what, error.what());
        }
    }

    void trouble(const std::string& what, const std::string& said) { result_.troubles.push_back(what + ": " + said); }

    /// Manifest, seal and files of `folder`; `inside` is its path inside the record, with a slash, or empty.
    Sealed sealed_folder(const OpenFolder& folder, const std::string& inside, Holds holds)
    {
        Sealed sealed;
        std::string text;
        guarded(inside + name::manifest, [&] {
            text = folder.read(name::manifest);
            sealed.manifest_sha256 = sha256(text);
            sealed.manifest = parse_manifest(text);
        });
        guarded(inside + name::seal, [&] {
            const auto seal = parse_seal(folder.read(name::seal));
            sealed.public_key = seal.public_key;
            if (const auto said = trouble_with(seal, text); !said.empty()) {
                trouble(inside + name::seal, said);
            }
            if (sealed.manifest && sealed.manifest->key != fingerprint(seal.public_key)) {
                trouble(inside + name::manifest, "names another key than the seal");
            }
        });
        guarded(inside.empty() ? folder.path().string() : inside,
                [&] { compare_files(folder, inside, holds, sealed.manifest); });
        return sealed;
    }

private:
    void compare_files(const OpenFolder& folder, const std::string& inside, Holds holds,
                       const std::optional<Manifest>& manifest)
    {
        const auto listing = list_files(folder, holds);
        for (const auto& oddity : listing.oddities) {
            trouble(inside + oddity, "is no file of the record");
        }
        if (!manifest) {
            return;
        }
        std::map<std::string, std::string> sealed;
        for (const auto& file : manifest->files) {
            sealed[file.name] = file.sha256;
        }
        for (const auto& file : listing.files) {
            const auto it = sealed.find(file);
            if (it == sealed.end()) {
                trouble(inside + file, "was not there when the record was sealed");
                continue;
            }
            guarded(inside + file, [&] {
                if (folder.sha256(file) != it->second) {
                    trouble(inside + file, "is not the file that was sealed");
                }
            });
            sealed.erase(it);
        }
        for (const auto& [missing, hash] : sealed) {
            trouble(inside + missing, "is missing");
        }
    }

    FolderCheck& result_;
};

void compare_with_issue(const OpenFolder& folder, const Manifest& manifest, Check& check)
{
    check.guarded(name::record, [&] {
        const auto record = folder.json(name::record);
        const auto& issue = record.at("issue");
        const auto& signature = manifest.signature;
        const std::pair<const char*, const std::string*> same[] = {{"signer", &signature.signer},
                                                                   {"role", &signature.role},
                                                                   {"meaning", &signature.meaning},
                                                                   {"issued", &signature.time}};
        for (const auto& [key, value] : same) {
            if (issue.at(key) != *value) {
                check.trouble(name::record, std::string("/issue/") + key + " is not what the manifest says");
            }
        }
    });
}

/// One addendum, which must follow the manifest `before`. Returns the SHA-256 of its own.
std::string check_addendum(const OpenFolder& record, const std::string& number, const std::string& before, Check& check,
                           FolderCheck& result)
{
    const auto inside = name::addenda + "/" + number + "/";
    const auto folder = record.folder(name::addenda + "/" + number);
    const auto sealed = check.sealed_folder(folder, inside, Holds::addendum);
    if (sealed.manifest && sealed.manifest->follows != before) {
        check.trouble(inside + name::manifest, "does not follow the manifest before it");
    }
    check.guarded(inside + name::addendum, [&] {
        auto addendum = load_addendum(folder);
        if (addendum.follows != before || (sealed.manifest && addendum.signature != sealed.manifest->signature)) {
            check.trouble(inside + name::addendum, "does not agree with its manifest");
        }
        result.addenda.push_back({addendum.signature, addendum.kind, addendum.reason, addendum.text});
    });
    if (sealed.manifest && (sealed.manifest->files.size() != 1 || sealed.manifest->files[0].name != name::addendum)) {
        check.trouble(inside + name::manifest, "lists other files than " + name::addendum);
    }
    result.other_seals.push_back({sealed.public_key, sealed.manifest ? sealed.manifest->signature.time : ""});
    return sealed.manifest_sha256;
}

void check_addenda(const OpenFolder& folder, const std::string& first_manifest, Check& check, FolderCheck& result)
{
    auto before = first_manifest;
    const auto entries = list_addenda(folder);
    if (entries.empty() && folder.kind(name::addenda) != OpenFolder::Kind::none) {
        check.trouble(name::addenda, "is empty");
    }
    for (const auto& entry : entries) {
        if (!entry.expected) {
            check.trouble(name::addenda + "/" + entry.name, "is no addendum, or one before it is missing");
            continue;
        }
        before = check_addendum(folder, entry.name, before, check, result);
    }
}

/// The journal is sealed with the record: what is asked here is whether the record is the one that it tells of.
void check_journal(const OpenFolder& folder, Check& check, FolderCheck& result)
{
    if (folder.kind(name::journal) == OpenFolder::Kind::none) {
        check.guarded(name::run, [&] {
            if (claims_a_capture(folder)) {
                result.remarks.push_back("it has no capture journal: how it came about rests on its seal alone");
            }
        });
        return;
    }
    check.guarded(name::journal, [&] {
        const auto journal = read_journal(folder);
        for (const auto& said : troubles_with_journal(folder, journal)) {
            result.troubles.push_back(said);
        }
        if (journal.torn_bytes > 0) {
            check.trouble(name::journal, "ends in the middle of a line");
        }
        if (!journal.ended) {
            result.remarks.push_back("its capture journal has no end: the capture was cut off");
        }
        result.other_seals.push_back({journal.public_key, journal.time});
        for (const auto& key : journal.other_keys) {
            result.other_seals.push_back({key, result.signature.time});
        }
    });
}

FolderCheck check_at(const OpenFolder& folder, int depth);

void check_earlier(const OpenFolder& folder, int depth, Check& check, FolderCheck& result)
{
    if (folder.kind(name::earlier) == OpenFolder::Kind::none) {
        return;
    }
    check.guarded(name::earlier, [&] {
        const auto earlier = load_earlier(folder);
        const auto record = folder.json(name::record);
        if (record.at("issue").at("earlier") != nlohmann::json(issue_tree(earlier))) {
            check.trouble(name::record, "/issue/earlier is not what earlier.json says");
        }
        const auto held = held_folder(earlier.relation);
        if (held.empty()) {
            return;
        }
        const auto inner_folder = folder.folder(held);
        if (inner_folder.sha256(name::manifest) != earlier.manifest_sha256) {
            check.trouble(held, "is another record than earlier.json names");
        }
        const auto inner = check_at(inner_folder, depth + 1);
        for (const auto& said : inner.troubles) {
            result.troubles.push_back(held + "/" + said);
        }
        result.other_seals.push_back({inner.public_key, inner.signature.time});
        result.other_seals.insert(result.other_seals.end(), inner.other_seals.begin(), inner.other_seals.end());
    });
}

FolderCheck check_at(const OpenFolder& folder, int depth)
{
    FolderCheck result;
    Check check(result);
    result.sealed =
        folder.kind(name::manifest) != OpenFolder::Kind::none || folder.kind(name::seal) != OpenFolder::Kind::none;
    const auto sealed = check.sealed_folder(folder, "", Holds::record);
    result.public_key = sealed.public_key;
    if (sealed.manifest) {
        result.signature = sealed.manifest->signature;
        if (!sealed.manifest->follows.empty()) {
            check.trouble(name::manifest, "follows another manifest, as only an addendum does");
        }
        compare_with_issue(folder, *sealed.manifest, check);
    }
    check.guarded(name::addenda, [&] { check_addenda(folder, sealed.manifest_sha256, check, result); });
    check_journal(folder, check, result);
    if (depth < kDeepestRecord) {
        check_earlier(folder, depth, check, result);
    } else {
        check.trouble(name::earlier, "more than " + std::to_string(kDeepestRecord) + " records inside one another");
    }
    return result;
}

} // namespace

FolderCheck check_folder(const OpenFolder& folder) { return check_at(folder, 0); }

FolderCheck check_folder(const fs::path& folder) { return check_folder(OpenFolder::at(folder)); }

} // namespace zeroline::records
