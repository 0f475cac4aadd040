#include "tests/house/house_rules.hpp"

#include <algorithm>
#include <fstream>
#include <regex>
#include <sstream>
#include <stdexcept>

namespace zeroline::house {
namespace fs = std::filesystem;
namespace {

bool is_left_out(const fs::path& folder)
{
    const auto name = folder.filename().string();
    return name == "build" || name.starts_with('.');
}

bool is_source(const fs::path& file) { return file.extension() == ".hpp" || file.extension() == ".cpp"; }

void add_includes(const fs::path& root, const std::string& file, std::vector<Include>& found)
{
    static const std::regex pattern(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"].*)re");
    std::ifstream in(root / file);
    std::size_t number = 0;
    for (std::string line; std::getline(in, line);) {
        ++number;
        if (std::smatch match; std::regex_match(line, match, pattern))
            found.push_back({file, number, match[2].str(), match[1].str() == "\""});
    }
}

/// "$<LINK_ONLY:name>" is a link of a static library that its users need not see.
std::string without_generator(const std::string& item)
{
    static const std::regex pattern(R"(\$<LINK_ONLY:(.*)>)");
    return std::regex_replace(item, pattern, "$1");
}

} // namespace

std::vector<std::string> source_files(const fs::path& root)
{
    std::vector<std::string> files;
    for (fs::recursive_directory_iterator at(root), end; at != end; ++at) {
        if (at->is_directory() && is_left_out(at->path()))
            at.disable_recursion_pending();
        else if (at->is_regular_file() && is_source(at->path()))
            files.push_back(fs::relative(at->path(), root).generic_string());
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<Include> includes_below(const fs::path& root)
{
    std::vector<Include> found;
    for (const auto& file : source_files(root))
        add_includes(root, file, found);
    return found;
}

std::vector<LinkList> read_link_lists(const fs::path& file)
{
    std::ifstream in(file);
    if (!in)
        throw std::runtime_error("the build wrote no " + file.string());
    std::vector<LinkList> lists;
    for (std::string line; std::getline(in, line);) {
        std::istringstream words(line);
        LinkList list;
        std::getline(words, list.target, ':');
        for (std::string item; words >> item;)
            list.items.push_back(without_generator(item));
        lists.push_back(std::move(list));
    }
    return lists;
}

} // namespace zeroline::house
