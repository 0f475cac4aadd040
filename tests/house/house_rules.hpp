#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::house {

/// One row of "what may include what" in docs/architecture.md.
struct PartRule {
    std::string part;    ///< folder, or one file
    std::string library; ///< CMake target
    std::vector<std::string> may_include;
    std::vector<std::string> may_link;
};

/// One row of "where outside libraries may appear".
struct LibraryRule {
    std::string name;
    std::vector<std::string> header_prefixes;
    std::string only_in;
    std::optional<int> headers_at_most; ///< none: any number
    std::optional<int> sources_at_most;
};

struct Architecture {
    std::vector<PartRule> parts;
    std::vector<LibraryRule> libraries;
    std::vector<std::string> at_the_top;
};

/// Throws std::runtime_error if the file cannot be read.
[[nodiscard]] std::vector<std::string> lines_of(const std::filesystem::path& file);

/// Reads the three tables. Throws std::runtime_error where one is missing or empty.
[[nodiscard]] Architecture read_architecture(const std::filesystem::path& page);

/// An include as written; `file` is relative to the root, with forward slashes.
struct Include {
    std::string file;
    std::size_t line = 0;
    std::string header;
    bool quoted = false;
};

/// Every .hpp and .cpp below the root, relative to it, sorted; build folders and hidden ones left out.
[[nodiscard]] std::vector<std::string> source_files(const std::filesystem::path& root);
[[nodiscard]] std::vector<Include> includes_below(const std::filesystem::path& root);

/// What one CMake target links: a line "target: item item" as the build writes it.
struct LinkList {
    std::string target;
    std::vector<std::string> items;
};
[[nodiscard]] std::vector<LinkList> read_link_lists(const std::filesystem::path& file);

/// Each complaint is one line a person can act on. Empty: all is well.
using Complaints = std::vector<std::string>;

/// Includes of ours that point the wrong way, do not start at the root, or whose file belongs to no part.
[[nodiscard]] Complaints wrong_directions(const Architecture& rules, const std::vector<Include>& includes,
                                          const std::filesystem::path& root);
/// Outside libraries outside their place or in too many files.
[[nodiscard]] Complaints stray_libraries(const Architecture& rules, const std::vector<Include>& includes);
/// Files that include Asio without <utility> before it, other than through the private header.
[[nodiscard]] Complaints asio_without_utility(const std::vector<Include>& includes);
[[nodiscard]] Complaints wrong_links(const Architecture& rules, const std::vector<LinkList>& links);
[[nodiscard]] Complaints wrong_names_at_the_top(const Architecture& rules, const std::filesystem::path& root);

} // namespace zeroline::house
