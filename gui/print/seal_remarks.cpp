#include "gui/print/seal_remarks.hpp"

#include "gui/records/addenda.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/manifest.hpp"
#include "gui/records/open_folder.hpp"

namespace zeroline::print {

namespace {

std::vector<records::OpenFolder> addenda_of(const records::OpenFolder& folder)
{
    std::vector<records::OpenFolder> addenda;
    for (const auto& entry : records::list_addenda(folder)) {
        addenda.push_back(folder.folder(records::name::addenda + "/" + entry.name));
    }
    return addenda;
}

void add_from(const records::OpenFolder& folder, std::vector<Signature>& signatures)
{
    if (folder.kind(records::name::manifest) == records::OpenFolder::Kind::none) {
        return;
    }
    const auto text = folder.read(records::name::manifest);
    const auto manifest =
        records::reading(folder.shown(records::name::manifest), [&] { return records::parse_manifest(text); });
    const auto& by = manifest.signature;
    signatures.push_back({by.signer, by.role, by.meaning, by.time, manifest.key});
}

} // namespace

std::vector<Signature> signatures_of(const records::OpenFolder& folder)
{
    std::vector<Signature> signatures;
    add_from(folder, signatures);
    for (const auto& addendum : addenda_of(folder)) {
        add_from(addendum, signatures);
    }
    return signatures;
}

std::vector<Correction> corrections_of(const records::OpenFolder& folder)
{
    std::vector<Correction> corrections;
    for (const auto& addendum : addenda_of(folder)) {
        const auto one = records::load_addendum(addendum);
        corrections.push_back({one.kind, one.reason, one.text, one.signature.signer, one.signature.time});
    }
    return corrections;
}

} // namespace zeroline::print
