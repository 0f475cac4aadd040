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
    Sealed sealed_folder(const fs::path& folder, const std::string& inside)
    {
        Sealed sealed;
        std::string text;
        guarded(inside + name::manifest, [&] {
            text = read_file(folder / name::manifest);
            sealed.manifest_sha256 = sha256(text);
            sealed.manifest = parse_manifest(text);
        });
        guarded(inside + name::seal, [&] {
            const auto seal = parse_seal(read_file(folder / name::seal));
            sealed.public_key = seal.public_key;
            if (const auto said = trouble_with(seal, text); !said.empty()) {
                trouble(inside + name::seal, said);
            }
            if (sealed.manifest && sealed.manifest->key != fingerprint(seal.public_key)) {
                trouble(inside + name::manifest, "names another key than the seal");
            }
        });
        guarded(inside.empty() ? folder.string() : inside, [&] { compare_files(folder, inside, sealed.manifest); });
        return sealed;
    }

private:
    void compare_files(const fs::path& folder, const std::string& inside, const std::optional<Manifest>& manifest)
    {
        const auto listing = list_files(folder);
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
                if (sha256_of_file(folder / file) != it->second) {
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

void compare_with_issue(const fs::path& folder, const Manifest& manifest, Check& check)
{
    check.guarded(name::record, [&] {
        const auto record = load_json(folder / name::record);
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

void check_addenda(const fs::path& folder, const std::string& first_manifest, Check& check, FolderCheck& result)
{
    auto before = first_manifest;
    for (const auto& entry : list_addenda(folder)) {
        const auto inside = name::addenda + "/" + entry.name + "/";
        if (!entry.expected) {
            check.trouble(name::addenda + "/" + entry.name, "is no addendum, or one before it is missing");
            continue;
        }
        const auto sealed = check.sealed_folder(folder / name::addenda / entry.name, inside);
        if (sealed.manifest && sealed.manifest->follows != before) {
            check.trouble(inside + name::manifest, "does not follow the manifest before it");
        }
        check.guarded(inside + name::addendum, [&] {
            auto addendum = load_addendum(folder / name::addenda / entry.name / name::addendum);
            if (addendum.follows != before || (sealed.manifest && addendum.signature != sealed.manifest->signature)) {
                check.trouble(inside + name::addendum, "does not agree with its manifest");
            }
            result.addenda.push_back({addendum.signature, addendum.kind, addendum.reason, addendum.text});
        });
        result.other_keys.push_back(sealed.public_key);
        before = sealed.manifest_sha256;
    }
}

/// The journal is sealed with the record: what is asked here is whether the record is the one that it tells of.
void check_journal(const fs::path& folder, Check& check, FolderCheck& result)
{
    if (std::error_code none; !fs::exists(folder / name::journal, none)) {
        check.guarded(name::run, [&] {
            if (claims_a_capture(folder)) {
                result.remarks.push_back("it has no capture journal: how it came about rests on its seal alone");
            }
        });
        return;
    }
    check.guarded(name::journal, [&] {
        const auto journal = read_journal(folder / name::journal);
        for (const auto& said : troubles_with_journal(folder, journal)) {
            result.troubles.push_back(said);
        }
        if (journal.torn_bytes > 0) {
            check.trouble(name::journal, "ends in the middle of a line");
        }
        if (!journal.ended) {
            result.remarks.push_back("its capture journal has no end: the capture was cut off");
        }
        result.other_keys.push_back(journal.public_key);
        result.other_keys.insert(result.other_keys.end(), journal.other_keys.begin(), journal.other_keys.end());
    });
}

void check_earlier(const fs::path& folder, Check& check, FolderCheck& result)
{
    std::error_code none;
    const bool names_one = fs::exists(folder / name::earlier, none);
    if (!names_one) {
        return;
    }
    check.guarded(name::earlier, [&] {
        const auto earlier = load_earlier(folder / name::earlier);
        const auto record = load_json(folder / name::record);
        if (record.at("issue").at("earlier") != nlohmann::json(issue_tree(earlier))) {
            check.trouble(name::record, "/issue/earlier is not what earlier.json says");
        }
        const auto held = held_folder(earlier.relation);
        if (held.empty()) {
            return;
        }
        if (sha256_of_file(folder / held / name::manifest) != earlier.manifest_sha256) {
            check.trouble(held, "is another record than earlier.json names");
        }
        const auto inner = check_folder(folder / held);
        for (const auto& said : inner.troubles) {
            result.troubles.push_back(held + "/" + said);
        }
        result.other_keys.push_back(inner.public_key);
        result.other_keys.insert(result.other_keys.end(), inner.other_keys.begin(), inner.other_keys.end());
    });
}

} // namespace

FolderCheck check_folder(const fs::path& folder)
{
    FolderCheck result;
    Check check(result);
    const auto sealed = check.sealed_folder(folder, "");
    result.public_key = sealed.public_key;
    if (sealed.manifest) {
        result.signature = sealed.manifest->signature;
        compare_with_issue(folder, *sealed.manifest, check);
    }
    check.guarded(name::addenda, [&] { check_addenda(folder, sealed.manifest_sha256, check, result); });
    check_journal(folder, check, result);
    check_earlier(folder, check, result);
    return result;
}

} // namespace zeroline::records
