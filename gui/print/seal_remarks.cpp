#include "gui/print/seal_remarks.hpp"

#include "gui/records/addenda.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/manifest.hpp"

namespace zeroline::print {

namespace fs = std::filesystem;

namespace {

std::vector<fs::path> addenda_of(const fs::path& folder)
{
    std::vector<fs::path> addenda;
    for (const auto& entry : records::list_addenda(folder)) {
        addenda.push_back(folder / records::name::addenda / entry.name);
    }
    return addenda;
}

void add_from(const fs::path& folder, std::vector<Signature>& signatures)
{
    const auto file = folder / records::name::manifest;
    if (std::error_code none; !fs::exists(file, none)) {
        return;
    }
    const auto manifest = records::reading(file, [&] { return records::parse_manifest(records::read_file(file)); });
    const auto& by = manifest.signature;
    signatures.push_back({by.signer, by.role, by.meaning, by.time, manifest.key});
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
        const auto one = records::load_addendum(addendum / records::name::addendum);
        corrections.push_back({one.kind, one.reason, one.text, one.signature.signer, one.signature.time});
    }
    return corrections;
}

} // namespace zeroline::print
