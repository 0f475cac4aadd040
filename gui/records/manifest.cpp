#include "gui/records/manifest.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
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

bool is_reserved(const fs::path& inside)
{
    return inside == name::manifest || inside == name::seal || *inside.begin() == name::addenda;
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
    return manifest;
}

Listing list_files(const fs::path& folder)
{
    Listing listing;
    for (auto it = fs::recursive_directory_iterator(folder); it != fs::recursive_directory_iterator(); ++it) {
        const auto inside = it->path().lexically_relative(folder);
        if (is_reserved(inside)) {
            it.disable_recursion_pending();
        } else if (it->is_symlink() || !(it->is_regular_file() || it->is_directory())) {
            listing.oddities.push_back(inside.string());
        } else if (it->is_regular_file()) {
            listing.files.push_back(inside.string());
        } else if (fs::is_empty(it->path())) {
            listing.oddities.push_back(inside.string());
        }
    }
    std::sort(listing.files.begin(), listing.files.end());
    std::sort(listing.oddities.begin(), listing.oddities.end());
    return listing;
}

Manifest make_manifest(const fs::path& folder, const Signature& signature, const std::string& key,
                       const std::string& follows)
{
    const auto listing = list_files(folder);
    if (!listing.oddities.empty()) {
        throw InputError((folder / listing.oddities.front()).string(), "is no file", "plain files only in a record");
    }
    Manifest manifest{signature, key, follows, {}};
    for (const auto& name : listing.files) {
        if (name.find_first_of("\n\r\\") != std::string::npos) {
            throw InputError((folder / name).string(), "cannot be listed", "a name without line end or backslash");
        }
        manifest.files.push_back({name, sha256_of_file(folder / name)});
    }
    return manifest;
}

} // namespace zeroline::records
