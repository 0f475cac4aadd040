// Every command that a page shows exists, with every option shown; blocks marked "sh tried" are run as they stand.

#include "tests/house/house_rules.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <memory>
#include <regex>
#include <sstream>

namespace zeroline::house {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;

const fs::path kRoot = ZEROLINE_SOURCE_DIR;
const fs::path kProgram = ZEROLINE_PROGRAM;

struct Outcome {
    int status = -1;
    std::string output;
};

Outcome run(const std::string& command)
{
    Outcome outcome;
    FILE* pipe = popen((command + " 2>&1 </dev/null").c_str(), "r");
    if (pipe == nullptr)
        return outcome;
    std::array<char, 4096> block{};
    while (const auto count = fread(block.data(), 1, block.size(), pipe))
        outcome.output.append(block.data(), count);
    const int raw = pclose(pipe);
    outcome.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
    return outcome;
}

struct Example {
    std::string command; ///< first word after the program's name
    std::vector<std::string> options;
    std::string place;
};

/// "zeroline verify --order F --out G" -> verify, {--order, --out}; what follows a pipe or a redirection is not ours.
Example parse(const std::string& text, const std::string& place)
{
    Example example;
    example.place = place + ": zeroline " + text;
    std::istringstream words(text.substr(0, text.find_first_of("|><;&#")));
    for (std::string word; words >> word;) {
        word = word.substr(0, word.find('='));
        word.erase(std::remove_if(word.begin(), word.end(), [](char c) { return c == '[' || c == ']' || c == '.'; }),
                   word.end());
        if (word.starts_with("--") && word.size() > 2)
            example.options.push_back(word);
        else if (example.command.empty() && !word.starts_with("-"))
            example.command = word;
    }
    return example;
}

std::vector<Example> examples_in(std::istream& page, const std::string& name)
{
    static const std::regex in_block(R"(^\s*(\$ )?(\S*/)?zeroline\s+(.*?)\\?\s*$)");
    static const std::regex inline_code("`zeroline ([^`]+)`");
    std::vector<Example> examples;
    bool inside = false;
    std::string line;
    for (std::size_t number = 1; std::getline(page, line); ++number) {
        const auto place = name + ":" + std::to_string(number);
        if (line.starts_with("```")) {
            inside = !inside;
        } else if (std::smatch match; inside && std::regex_match(line, match, in_block)) {
            examples.push_back(parse(match[3].str(), place));
        } else if (!inside) {
            for (std::sregex_iterator at(line.begin(), line.end(), inline_code), end; at != end; ++at)
                examples.push_back(parse((*at)[1].str(), place));
        }
    }
    return examples;
}

std::vector<fs::path> pages()
{
    std::vector<fs::path> found = {kRoot / "README.md", kRoot / "DEVELOPERS.md"};
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / "docs"))
        if (entry.path().extension() == ".md")
            found.push_back(entry.path());
    std::sort(found.begin(), found.end());
    return found;
}

std::vector<Example> all_examples()
{
    std::vector<Example> all;
    for (const auto& page : pages()) {
        std::ifstream in(page);
        const auto more = examples_in(in, fs::relative(page, kRoot).string());
        all.insert(all.end(), more.begin(), more.end());
    }
    return all;
}

bool names_option(const std::string& help, const std::string& option)
{
    return std::regex_search(help, std::regex(option + R"((?![\w-]))"));
}

Complaints complaints_about(const Example& example, const std::string& general_help, const Outcome& help)
{
    if (!example.command.empty() && help.status != 0)
        return {example.place + ": no such command"};
    Complaints complaints;
    for (const auto& option : example.options)
        if (!names_option(help.output, option) && !names_option(general_help, option))
            complaints.push_back(example.place + ": " + option + " is not in its help");
    return complaints;
}

/// Consecutive lines of blocks that begin with ```sh tried, one script a block.
std::vector<std::string> tried_blocks(std::istream& page)
{
    std::vector<std::string> blocks;
    bool inside = false;
    for (std::string line; std::getline(page, line);) {
        if (line.starts_with("```")) {
            inside = line == "```sh tried";
            if (inside)
                blocks.emplace_back();
        } else if (inside) {
            blocks.back() += line + "\n";
        }
    }
    return blocks;
}

TEST(DocExamples, EveryCommandShownExistsWithItsOptions)
{
    const auto general = run(kProgram.string() + " --help");
    ASSERT_EQ(general.status, 0) << general.output;
    std::map<std::string, Outcome> helps;
    Complaints complaints;
    const auto examples = all_examples();
    EXPECT_GE(examples.size(), 5U) << "the pages show hardly a command: are they read at all?";
    for (const auto& example : examples) {
        auto& help = helps[example.command];
        if (help.status == -1)
            help = run(kProgram.string() + " " + example.command + " --help");
        const auto more = complaints_about(example, general.output, help);
        complaints.insert(complaints.end(), more.begin(), more.end());
    }
    EXPECT_THAT(complaints, IsEmpty());
}

TEST(DocExamples, BlocksMarkedAsTriedRunAsTheyStand)
{
    const TemporaryFolder place;
    fs::create_directory_symlink(kRoot / "fixtures", place / "fixtures");
    for (const auto& page : pages()) {
        std::ifstream in(page);
        for (const auto& block : tried_blocks(in)) {
            std::ofstream(place / "example.sh") << "set -e\nPATH=\"" << kProgram.parent_path().string() << ":$PATH\"\n"
                                                << block;
            const auto outcome = run("cd '" + place.path().string() + "' && timeout 150 sh example.sh");
            EXPECT_EQ(outcome.status, 0) << page << "\n" << block << "\n" << outcome.output;
        }
    }
}

TEST(DocExamples, AnUnknownOptionIsNamed)
{
    std::istringstream page("```\nzeroline verify --order a.json --wrong=1 --out b | cat --number\n```\n"
                            "and `zeroline ports --json`\n");
    const auto examples = examples_in(page, "page.md");
    ASSERT_EQ(examples.size(), 2U);
    EXPECT_EQ(examples[0].command, "verify");
    EXPECT_THAT(examples[0].options, ElementsAre("--order", "--wrong", "--out"));
    EXPECT_EQ(examples[1].place, "page.md:4: zeroline ports --json");
    EXPECT_THAT(complaints_about(examples[0], "--help", {0, "--order F --out G --wrongly"}),
                ElementsAre(testing::HasSubstr("--wrong is not in its help")));
    EXPECT_THAT(complaints_about(examples[1], "", {2, ""}), ElementsAre(testing::HasSubstr("no such command")));
}

TEST(DocExamples, OnlyMarkedBlocksAreRun)
{
    std::istringstream page("```\nfalse\n```\n```sh tried\ntrue\nls\n```\ntext\n```sh tried\npwd\n```\n");
    EXPECT_THAT(tried_blocks(page), ElementsAre("true\nls\n", "pwd\n"));
}

} // namespace
} // namespace zeroline::house
