// The same figures, computed on the fly by SciPy (a general-purpose library that shares no code with Boost.Math).

#include "analysis/metrology/decision.hpp"
#include "analysis/metrology/drift.hpp"
#include "analysis/metrology/uncertainty.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <map>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace zeroline::metrology {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kRelative = 1e-8;

std::string output_of(const std::string& command)
{
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string text;
    std::array<char, 4096> block{};
    while (const std::size_t got = std::fread(block.data(), 1, block.size(), pipe.get()))
        text.append(block.data(), got);
    return text;
}

using Arguments = std::vector<double>;
using Figure = std::function<double(const Arguments&)>;

WeightedLine line_through(const Arguments& y)
{
    const Arguments x{0, 1, 2, 3, 4, 5, 6};
    return fit_line(x, y).value();
}

const std::map<std::string, Figure>& figures()
{
    static const std::map<std::string, Figure> all{
        {"student", [](const Arguments& a) { return student_factor(a[0], a[1]); }},
        {"normal", [](const Arguments& a) { return student_factor(a[0], kInfinite); }},
        {"outside",
         [](const Arguments& a) {
             return probability_outside(a[0], a[1], a[2], {38.0, 42.0});
         }},
        {"welch",
         [](const Arguments& a) {
             return welch_satterthwaite(std::array{a[0], a[1]}, std::array{a[2], a[3]});
         }},
        {"trapezoid",
         [](const Arguments& a) {
             return combine({{"wide", a[0], Distribution::rectangular}, {"narrow", a[1], Distribution::rectangular}},
                            0.95)
                 .expanded_uncertainty;
         }},
        {"line", [](const Arguments& a) { return line_through(a).slope; }},
        {"line_u", [](const Arguments& a) { return line_through(a).slope_u; }}};
    return all;
}

TEST(SciPy, agrees_on_every_figure)
{
    std::istringstream lines(output_of("/usr/bin/python3 " ZEROLINE_SOURCE_DIR "/tests/outside/scipy_figures.py"));
    std::map<std::string, int> compared;
    for (std::string line, name; std::getline(lines, line);) {
        std::istringstream words(line);
        words >> name;
        Arguments numbers;
        for (double number = 0; words >> number;)
            numbers.push_back(number);
        const double expected = numbers.back();
        numbers.pop_back();
        EXPECT_NEAR(figures().at(name)(numbers), expected, kRelative * std::abs(expected) + 1e-14) << line;
        ++compared[name];
    }
    EXPECT_EQ(compared, (std::map<std::string, int>{{"student", 60},
                                                    {"normal", 4},
                                                    {"outside", 60},
                                                    {"welch", 30},
                                                    {"trapezoid", 20},
                                                    {"line", 20},
                                                    {"line_u", 20}}));
}

} // namespace
} // namespace zeroline::metrology
