#include "gui/print/seal_remarks.hpp"

#include "gui/records/json_file.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <sstream>

namespace zeroline::print {

namespace fs = std::filesystem;

namespace {

constexpr const char* kManifest = "manifest.sha256";

Signature signature_in(const std::string& manifest)
{
    Signature signature;
    const std::array<std::pair<std::string, std::string*>, 5> remarks{{{"# signer: ", &signature.name},
                                                                       {"# role: ", &signature.role},
                                                                       {"# time: ", &signature.time},
                                                                       {"# meaning: ", &signature.meaning},
                                                                       {"# key: ", &signature.key}}};
    std::istringstream lines(manifest);
    for (std::string line; std::getline(lines, line);) {
        for (const auto& [remark, text] : remarks) {
            if (line.starts_with(remark)) {
                *text = line.substr(remark.size());
            }
        }
    }
    return signature;
}

void add_from(const fs::path& folder, std::vector<Signature>& signatures)
{
    const auto file = folder / kManifest;
    if (std::error_code none; !fs::exists(file, none)) {
        return;
    }
    auto signature = signature_in(records::read_file(file));
    if (!signature.name.empty()) {
        signatures.push_back(std::move(signature));
    }
}

std::vector<fs::path> addenda_of(const fs::path& folder)
{
    std::vector<fs::path> addenda;
    std::error_code none;
    for (fs::directory_iterator at(folder / "addenda", none), end; !none && at != end; at.increment(none)) {
        addenda.push_back(at->path());
    }
    std::sort(addenda.begin(), addenda.end());
    return addenda;
}

} // namespace

std::vector<Signature> signatures_of(const fs::path& folder)
{
    std::vector<Signature> signatures;
    add_from(folder, signatures);
    for (const auto& addendum : addenda_of(folder)) {
        add_from(addendum, signatures);
    }
    return signatures;
}

std::vector<Correction> corrections_of(const fs::path& folder)
{
    std::vector<Correction> corrections;
    for (const auto& addendum : addenda_of(folder)) {
        const auto file = addendum / "addendum.json";
        if (std::error_code none; !fs::exists(file, none)) {
            continue;
        }
        const auto tree = records::load_json(file);
        const auto text = [&](const char* key) {
            const auto it = tree.find(key);
            return it != tree.end() && it->is_string() ? it->get<std::string>() : std::string();
        };
        corrections.push_back({text("kind"), text("reason"), text("text"), text("signer"), text("time")});
    }
    return corrections;
}

} // namespace zeroline::print
