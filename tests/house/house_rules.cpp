#include "tests/house/house_rules.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace zeroline::house {
namespace fs = std::filesystem;
namespace {

/// True where `path` is `place` or lies in it.
bool lies_in(const std::string& path, const std::string& place)
{
    return path == place || (path.starts_with(place) && path[place.size()] == '/');
}

const PartRule* part_of(const Architecture& rules, const std::string& path)
{
    const PartRule* best = nullptr;
    for (const auto& rule : rules.parts)
        if (lies_in(path, rule.part) && (best == nullptr || rule.part.size() > best->part.size()))
            best = &rule;
    return best;
}

bool is_test(const std::string& path) { return lies_in(path, "tests"); }

std::string place(const Include& include) { return include.file + ":" + std::to_string(include.line); }

bool may_include(const PartRule& part, const std::string& header)
{
    return lies_in(header, part.part) || std::any_of(part.may_include.begin(), part.may_include.end(),
                                                     [&](const auto& allowed) { return lies_in(header, allowed); });
}

bool begins_with_any(const std::string& header, const std::vector<std::string>& prefixes)
{
    return std::any_of(prefixes.begin(), prefixes.end(),
                       [&](const auto& prefix) { return header.starts_with(prefix); });
}

/// Headers that the build writes; they stand in no folder of ours.
bool is_generated(const std::string& header)
{
    return header.ends_with(".moc") || header == "zeroline_build_stamp.hpp";
}

bool is_header(const std::string& file) { return file.ends_with(".hpp"); }

/// A library may be linked where anything of its part may be included.
bool may_link(const Architecture& rules, const PartRule& part, const std::string& item)
{
    if (item == "zeroline_flags" || std::count(part.may_link.begin(), part.may_link.end(), item) > 0)
        return true;
    return std::any_of(rules.parts.begin(), rules.parts.end(), [&](const PartRule& other) {
        return other.library == item &&
               std::any_of(part.may_include.begin(), part.may_include.end(), [&](const auto& allowed) {
                   return lies_in(other.part, allowed) || lies_in(allowed, other.part);
               });
    });
}

void complain_of_too_many(const LibraryRule& library, const std::set<std::string>& files, std::optional<int> at_most,
                          const std::string& kind, Complaints& complaints)
{
    if (!at_most || files.size() <= static_cast<std::size_t>(*at_most))
        return;
    std::string names;
    for (const auto& file : files)
        names += " " + file;
    complaints.push_back(library.name + " may appear in " + std::to_string(*at_most) + " " + kind +
                         ", but is included by" + names);
}

} // namespace

Complaints wrong_directions(const Architecture& rules, const std::vector<Include>& includes, const fs::path& root)
{
    Complaints complaints;
    for (const auto& include : includes) {
        const bool is_ours = fs::exists(root / include.header);
        if (include.quoted && !is_ours && !is_generated(include.header))
            complaints.push_back(place(include) + ": \"" + include.header + "\" does not start at the root");
        if (!is_ours || is_test(include.file))
            continue;
        const auto* part = part_of(rules, include.file);
        if (part == nullptr)
            complaints.push_back(place(include) + ": belongs to no part of docs/architecture.md");
        else if (!may_include(*part, include.header))
            complaints.push_back(place(include) + ": " + part->part + " may not include " + include.header);
    }
    return complaints;
}

Complaints stray_libraries(const Architecture& rules, const std::vector<Include>& includes)
{
    Complaints complaints;
    for (const auto& library : rules.libraries) {
        std::set<std::string> headers;
        std::set<std::string> sources;
        for (const auto& include : includes) {
            if (include.quoted || is_test(include.file) || !begins_with_any(include.header, library.header_prefixes))
                continue;
            if (!lies_in(include.file, library.only_in))
                complaints.push_back(place(include) + ": " + library.name + " belongs into " + library.only_in +
                                     " only");
            (is_header(include.file) ? headers : sources).insert(include.file);
        }
        complain_of_too_many(library, headers, library.headers_at_most, "headers", complaints);
        complain_of_too_many(library, sources, library.sources_at_most, "sources", complaints);
    }
    return complaints;
}

Complaints asio_without_utility(const std::vector<Include>& includes)
{
    Complaints complaints;
    std::map<std::string, bool> has_utility;
    for (const auto& include : includes) {
        if (include.header == "utility")
            has_utility[include.file] = true;
        if (include.header.starts_with("boost/asio") && is_header(include.file) && !has_utility[include.file])
            complaints.push_back(place(include) + ": <utility> has to stand before Asio");
    }
    return complaints;
}

Complaints wrong_links(const Architecture& rules, const std::vector<LinkList>& links)
{
    Complaints complaints;
    for (const auto& list : links) {
        const auto part = std::find_if(rules.parts.begin(), rules.parts.end(),
                                       [&](const PartRule& rule) { return rule.library == list.target; });
        if (part == rules.parts.end())
            complaints.push_back(list.target + " is no library of docs/architecture.md");
        else
            for (const auto& item : list.items)
                if (!may_link(rules, *part, item))
                    complaints.push_back(list.target + " may not link " + item);
    }
    return complaints;
}

Complaints wrong_names_at_the_top(const Architecture& rules, const fs::path& root)
{
    static const std::set<std::string> not_ours = {".git", "build", ".cache"};
    Complaints complaints;
    std::set<std::string> found;
    for (const auto& entry : fs::directory_iterator(root))
        found.insert(entry.path().filename().string());
    for (const auto& name : rules.at_the_top)
        if (found.erase(name) == 0)
            complaints.push_back("missing at the top: " + name);
    for (const auto& name : found)
        if (not_ours.count(name) == 0)
            complaints.push_back("not agreed at the top: " + name);
    return complaints;
}

} // namespace zeroline::house
