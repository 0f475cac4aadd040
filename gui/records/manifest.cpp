#include "gui/records/manifest.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"

#include <algorithm>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

constexpr std::size_t kHashDigits = 64;

/// Remark lines in their order, with where their value stands. An empty value is not written.
template <class Of> auto remarks(Of& manifest)
{
    return std::vector<std::pair<std::string, decltype(&manifest.key)>>{{"signer", &manifest.signature.signer},
                                                                        {"role", &manifest.signature.role},
                                                                        {"time", &manifest.signature.time},
                                                                        {"meaning", &manifest.signature.meaning},
                                                                        {"key", &manifest.key},
                                                                        {"follows", &manifest.follows}};
}

bool is_hash(std::string_view text)
{
    return text.size() == kHashDigits && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

void read_remark(std::string_view line, Manifest& manifest)
{
    for (const auto& [name, value] : remarks(manifest)) {
        const auto prefix = "# " + name + ": ";
        if (line.starts_with(prefix)) {
            *value = line.substr(prefix.size());
        }
    }
}

bool is_reserved(const std::string& inside, Holds holds)
{
    return inside == name::manifest || inside == name::seal || (holds == Holds::record && inside == name::addenda);
}

/// A path below the folder itself, written in one way only.
bool leads_inside(const std::string& name)
{
    const fs::path path(name);
    return !name.empty() && path.is_relative() && path.lexically_normal() == path && *path.begin() != ".." &&
           *path.begin() != "." && !name.ends_with('/') && name.find("//") == std::string::npos;
}

void refuse_unlike_ours(const Manifest& manifest)
{
    if (manifest.files.empty()) {
        throw InputError("", "lists no file", "the files that were sealed");
    }
    for (std::size_t i = 0; i < manifest.files.size(); ++i) {
        const auto& name = manifest.files[i].name;
        if (i > 0 && manifest.files[i - 1].name >= name) {
            throw InputError(
                "", manifest.files[i - 1].name == name ? "lists " + name + " twice" : "lists " + name + " out of order",
                "each file once, sorted by name");
        }
        if (!leads_inside(name) || is_reserved(name, Holds::addendum)) {
            throw InputError("", "lists " + name, "files of this folder only, neither manifest nor seal");
        }
    }
}

void list_below(const OpenFolder& folder, const std::string& inside, Holds holds, int depth, Listing& listing)
{
    const auto names = folder.names();
    if (depth > kDeepestRecord || (names.empty() && depth > 0)) {
        listing.oddities.push_back(inside.substr(0, inside.size() - 1));
        return;
    }
    for (const auto& name : names) {
        if (depth == 0 && is_reserved(name, holds)) {
            continue;
        }
        const auto kind = folder.kind(name);
        const auto inner = kind == OpenFolder::Kind::folder ? folder.folder_if_any(name) : std::nullopt;
        if (inner) {
            list_below(*inner, inside + name + "/", holds, depth + 1, listing);
        } else if (kind == OpenFolder::Kind::file) {
            listing.files.push_back(inside + name);
        } else {
            listing.oddities.push_back(inside + name);
        }
    }
}

} // namespace

std::string Manifest::text() const
{
    std::string text;
    for (const auto& [name, value] : remarks(*this)) {
        if (!value->empty()) {
            text += "# " + name + ": " + *value + "\n";
        }
    }
    for (const auto& file : files) {
        text += file.sha256 + "  " + file.name + "\n";
    }
    return text;
}

Manifest parse_manifest(std::string_view text)
{
    Manifest manifest;
    std::size_t number = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const auto end = std::min(text.find('\n', begin), text.size());
        const auto line = text.substr(begin, end - begin);
        begin = end + 1;
        ++number;
        if (line.starts_with("# ")) {
            read_remark(line, manifest);
        } else if (line.size() > kHashDigits + 2 && is_hash(line.substr(0, kHashDigits))) {
            manifest.files.push_back(
                {std::string(line.substr(kHashDigits + 2)), std::string(line.substr(0, kHashDigits))});
        } else {
            throw InputError("line " + std::to_string(number), "no checksum",
                             "64 hexadecimal digits, two blanks, a name");
        }
    }
    if (manifest.text() != text) {
        throw InputError("", "is not as this program writes it", "remarks, then checksums, nothing else");
    }
    refuse_unlike_ours(manifest);
    return manifest;
}

Listing list_files(const OpenFolder& folder, Holds holds)
{
    Listing listing;
    list_below(folder, "", holds, 0, listing);
    std::sort(listing.files.begin(), listing.files.end());
    std::sort(listing.oddities.begin(), listing.oddities.end());
    return listing;
}

Manifest make_manifest(const OpenFolder& folder, Holds holds, const Signature& signature, const std::string& key,
                       const std::string& follows)
{
    const auto listing = list_files(folder, holds);
    if (!listing.oddities.empty()) {
        throw InputError(folder.shown(listing.oddities.front()).string(), "is no file", "plain files only in a record");
    }
    Manifest manifest{signature, key, follows, {}};
    for (const auto& name : listing.files) {
        if (name.find_first_of("\n\r\\") != std::string::npos) {
            throw InputError(folder.shown(name).string(), "cannot be listed", "a name without line end or backslash");
        }
        manifest.files.push_back({name, folder.sha256(name)});
    }
    return manifest;
}

} // namespace zeroline::records
