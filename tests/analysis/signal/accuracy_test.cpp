#include "tests/analysis/signal/accuracy_study.hpp"

#include <gtest/gtest.h>

#include <string>

// The accuracy table with few draws. Every root mean square may exceed its limit by four standard deviations of what so
// few draws scatter; single errors may not. The whole table, 2000 draws a row, is the program accuracy_table
// (docs/accuracy.md), which the label `long` runs.

namespace zeroline::signal::analytic {
namespace {

constexpr int kSets = 10;
constexpr int kDraws = 2;
constexpr double kStandardDeviations = 4.0;

class Accuracy : public testing::TestWithParam<std::size_t> {};

TEST_P(Accuracy, IsKept)
{
    const Row row = accuracy_rows()[GetParam()];
    const Comparison all = compare(row, kSets, kDraws, 11);
    for (const std::string& what : judged(row, all, kStandardDeviations).broken) {
        ADD_FAILURE() << row.name << ": " << what;
    }
}

std::string name_of_row(const testing::TestParamInfo<std::size_t>& info)
{
    std::string name = accuracy_rows()[info.param].name;
    for (char& letter : name) {
        if (std::isalnum(static_cast<unsigned char>(letter)) == 0) {
            letter = '_';
        }
    }
    return name;
}

INSTANTIATE_TEST_SUITE_P(Rows, Accuracy, testing::Range<std::size_t>(0, accuracy_rows().size()), name_of_row);

} // namespace
} // namespace zeroline::signal::analytic
