#include "tests/gui/print/other_programs.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <regex>
#include <sstream>

namespace zeroline::print {

namespace fs = std::filesystem;

std::string output_of(const std::string& command)
{
    std::FILE* pipe = ::popen(command.c_str(), "r");
    if (pipe == nullptr) {
        ADD_FAILURE() << "cannot run: " << command;
        return {};
    }
    std::string output;
    std::array<char, 4096> buffer{};
    for (std::size_t count = 0; (count = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
        output.append(buffer.data(), count);
    }
    EXPECT_EQ(::pclose(pipe), 0) << command << "\n" << output;
    return output;
}

std::string text_of(const fs::path& pdf, int page)
{
    const auto only = page > 0 ? " -f " + std::to_string(page) + " -l " + std::to_string(page) : std::string();
    std::istringstream words(output_of("pdftotext -layout" + only + " '" + pdf.string() + "' -"));
    std::string text;
    for (std::string word; words >> word;) {
        text += (text.empty() ? "" : " ") + word;
    }
    return text;
}

int pages_of(const fs::path& pdf)
{
    const auto info = output_of("pdfinfo '" + pdf.string() + "'");
    std::smatch match;
    return std::regex_search(info, match, std::regex("Pages:\\s+(\\d+)")) ? std::stoi(match[1]) : 0;
}

std::vector<Word> words_of(const fs::path& pdf)
{
    const std::regex pattern(
        R"re(<page |<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*?)</word>)re");
    const auto html = output_of("pdftotext -bbox '" + pdf.string() + "' -");
    std::vector<Word> words;
    int page = 0;
    for (std::sregex_iterator at(html.begin(), html.end(), pattern), end; at != end; ++at) {
        if (!(*at)[1].matched) {
            ++page;
            continue;
        }
        words.push_back(
            {(*at)[5], page, std::stod((*at)[1]), std::stod((*at)[2]), std::stod((*at)[3]), std::stod((*at)[4])});
    }
    return words;
}

} // namespace zeroline::print
