// Habits of the house that a reader would have to look for in every file.

#include "tests/house/house_rules.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <fstream>
#include <regex>
#include <set>

namespace zeroline::house {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

const fs::path kRoot = ZEROLINE_SOURCE_DIR;
constexpr std::size_t kLinesAtMost = 500;

std::string without_comment(const std::string& line) { return line.substr(0, line.find("//")); }

Complaints matching_lines(const std::string& file, const std::regex& pattern)
{
    Complaints complaints;
    std::size_t number = 0;
    for (const auto& line : lines_of(kRoot / file))
        if (++number; std::regex_search(without_comment(line), pattern))
            complaints.push_back(file + ":" + std::to_string(number) + ": " + line);
    return complaints;
}

void append(Complaints& all, Complaints more) { all.insert(all.end(), more.begin(), more.end()); }

bool is_library(const std::string& file)
{
    static const std::array<std::string, 8> parts = {"acquisition/", "analysis/",  "fixtures/",    "gui/records/",
                                                     "gui/session/", "gui/print/", "gui/register/"};
    return std::any_of(parts.begin(), parts.end(),
                       [&](const auto& part) { return !part.empty() && file.starts_with(part); });
}

/// Every file that is ours and text, for the checks that also concern scripts and pages.
std::vector<fs::path> text_files()
{
    static const std::set<std::string> binary = {".png", ".pdf", ".qm", ".bin", ".jpg", ".ico"};
    std::vector<fs::path> files;
    for (fs::recursive_directory_iterator at(kRoot), end; at != end; ++at) {
        const auto name = at->path().filename().string();
        if (at->is_directory() && (name == ".git" || name == "build" || name == ".cache" || name == "__pycache__"))
            at.disable_recursion_pending();
        else if (at->is_regular_file() && binary.count(at->path().extension().string()) == 0)
            files.push_back(at->path());
    }
    return files;
}

Complaints lines_with(const fs::path& file, const std::vector<std::string>& words)
{
    Complaints complaints;
    std::size_t number = 0;
    for (const auto& line : lines_of(file)) {
        ++number;
        for (const auto& word : words)
            if (line.find(word) != std::string::npos)
                complaints.push_back(fs::relative(file, kRoot).string() + ":" + std::to_string(number) + ": " + word);
    }
    return complaints;
}

/// Folders that exist on one machine only. Put together so that this file does not name one itself.
std::vector<std::string> machine_paths()
{
    const std::string slash = "/";
    std::vector<std::string> paths = {slash + "home" + slash, slash + "Users" + slash, slash + "root" + slash,
                                      kRoot.string() + slash};
    if (const char* home = std::getenv("HOME"); home != nullptr && std::string(home).size() > 3)
        paths.push_back(std::string(home) + slash);
    return paths;
}

TEST(Writing, NoSourceFileIsLongerThanFiveHundredLines)
{
    Complaints complaints;
    for (const auto& file : source_files(kRoot))
        if (const auto lines = lines_of(kRoot / file).size(); lines > kLinesAtMost)
            complaints.push_back(file + " has " + std::to_string(lines) + " lines");
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, LibrariesNeitherPrintNorExit)
{
    const std::regex pattern(
        R"(\b(std::cout|std::cerr|std::clog|printf|fprintf|puts|std::exit|std::quick_exit|std::abort)\b)");
    Complaints complaints;
    for (const auto& file : source_files(kRoot))
        if (is_library(file))
            append(complaints, matching_lines(file, pattern));
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, JsonFromOutsideHasOneReader)
{
    const std::regex pattern(R"(json::parse\s*\(|\bjson::accept\b)");
    Complaints complaints;
    for (const auto& file : source_files(kRoot))
        if (!file.starts_with("tests/") && file != "gui/records/json_file.cpp")
            append(complaints, matching_lines(file, pattern));
    EXPECT_THAT(complaints, IsEmpty());
}

// Text from a file must not steer the terminal: what writes past the safe streams is named here.
TEST(Writing, OneFileWritesPastTheSafeStreams)
{
    const std::regex pattern(
        R"(\bwrite\s*\(\s*STD(OUT|ERR)_FILENO|\b(printf|fprintf|puts|fputs|std::clog|QTextStream)\b)");
    Complaints complaints;
    for (const auto& file : source_files(kRoot))
        if (file.starts_with("gui/") && file != "gui/console/terminal.cpp")
            append(complaints, matching_lines(file, pattern));
    EXPECT_THAT(complaints, IsEmpty());
}

// What a file says is shown as it is written: nothing of ours asks for rich text.
TEST(Writing, TheWindowShowsNoRichText)
{
    const std::regex pattern("RichText|MarkdownText|setHtml|insertHtml|appendHtml|setMarkdown|QTextBrowser");
    Complaints complaints;
    for (const auto& file : source_files(kRoot))
        if (file.starts_with("gui/"))
            append(complaints, matching_lines(file, pattern));
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, NamesSayWhatAThingDoes)
{
    const std::regex empty_words("(manager|helper|utils|common|misc)", std::regex::icase);
    const std::regex types(
        R"(\b(class|struct|namespace)\s+\w*(Manager|Helper|Utils|Common|Misc|helper|utils|misc)\w*\b)");
    Complaints complaints;
    for (const auto& file : source_files(kRoot)) {
        if (std::regex_search(file, empty_words))
            complaints.push_back(file);
        append(complaints, matching_lines(file, types));
    }
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, EveryHeaderIsGuarded)
{
    Complaints complaints;
    for (const auto& file : source_files(kRoot))
        if (file.ends_with(".hpp") && matching_lines(file, std::regex("^#pragma once")).empty())
            complaints.push_back(file);
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, NoFileNamesAFolderOfOneMachine)
{
    Complaints complaints;
    for (const auto& file : text_files())
        append(complaints, lines_with(file, machine_paths()));
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, AddressesLeadOnlyToTheKnownPlaces)
{
    // Identifiers of standards and of their code systems, of the licence and of the form of its page; nothing of ours
    // is fetched from anywhere.
    static const std::set<std::string> known = {"json-schema.org",     "www.gnu.org",    "fsf.org",
                                                "www.w3.org",          "www.debian.org", "unitsofmeasure.org",
                                                "terminology.hl7.org", "hl7.org"};
    const std::regex address(R"(https?://([A-Za-z0-9.\-]+))");
    Complaints complaints;
    for (const auto& file : text_files())
        for (const auto& line : lines_of(file))
            for (std::sregex_iterator at(line.begin(), line.end(), address), end; at != end; ++at)
                if (known.count((*at)[1].str()) == 0)
                    complaints.push_back(fs::relative(file, kRoot).string() + ": " + at->str());
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, EveryPageAndFileThatAPageNamesExists)
{
    static const std::regex named(R"(`((docs|tests|fixtures|acquisition|analysis|gui)/[A-Za-z0-9_./\-]+)`)");
    Complaints complaints;
    for (const auto& file : text_files()) {
        if (file.extension() != ".md")
            continue;
        for (const auto& line : lines_of(file))
            for (std::sregex_iterator at(line.begin(), line.end(), named), end; at != end; ++at)
                if (!fs::exists(kRoot / (*at)[1].str()))
                    complaints.push_back(fs::relative(file, kRoot).string() + " names " + (*at)[1].str());
    }
    EXPECT_THAT(complaints, IsEmpty());
}

std::size_t letters_of(const std::string& line)
{
    return static_cast<std::size_t>(std::count_if(
        line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

bool may_be_long(const std::string& line)
{
    return line.starts_with("|") || line.starts_with("![") || line.find(' ') == std::string::npos;
}

// A row of a table and a picture's line cannot be broken; what stands in a block is pasted as it is.
TEST(Writing, NoLineOfAPageIsLongerThan120Letters)
{
    constexpr std::size_t longest = 120;
    Complaints complaints;
    for (const auto& file : text_files()) {
        bool in_block = file.extension() != ".md";
        std::size_t number = 0;
        for (const auto& line : lines_of(file)) {
            ++number;
            in_block ^= file.extension() == ".md" && line.starts_with("```");
            if (!in_block && letters_of(line) > longest && !may_be_long(line))
                complaints.push_back(fs::relative(file, kRoot).string() + ":" + std::to_string(number));
        }
    }
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(Writing, TheSearchForMachinePathsFindsOne)
{
    const TemporaryFolder folder;
    const auto file = folder / "writing.txt";
    std::ofstream(file) << "fine\nlook in /"
                        << "home/somebody\n";
    EXPECT_THAT(lines_with(file, machine_paths()), Not(IsEmpty()));
}

} // namespace
} // namespace zeroline::house
