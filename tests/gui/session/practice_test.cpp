#include "gui/session/practice.hpp"

#include "fixtures/virtual_bench/virtual_bench.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/run_files.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

namespace zeroline::session {
namespace {

using testing::HasSubstr;
using testing::Not;

verification::WorkOrder demonstration_order()
{
    return order_from_text(records::read_file(ZEROLINE_SOURCE_DIR "/fixtures/demonstration/order.json")).meaning;
}

std::map<std::string, int> drawn(const verification::WorkOrder& order)
{
    std::map<std::string, int> count;
    for (std::uint64_t seed = 1; seed <= 3000; ++seed)
        ++count[draw_task(order, seed).code];
    return count;
}

TEST(Practice, DrawsEveryFaultThatARunCanShowAndNowAndThenNone)
{
    auto count = drawn(demonstration_order());
    EXPECT_NEAR(count[""], 500, 100) << "a healthy unit";
    for (const auto& fault : virtual_bench::known_faults()) {
        const bool left_out = fault.code == "worn-blower" || fault.code == "clock-error" || fault.code == "unplugged" ||
                              fault.code == "oscillation-weak";
        EXPECT_EQ(count[fault.code] == 0, left_out) << fault.code << " " << count[fault.code];
    }
}

TEST(Practice, DrawsAMissingOscillationOnlyWhereOneIsPrescribed)
{
    auto order = demonstration_order();
    order.presets.front().oscillation.emplace();
    EXPECT_GT(drawn(order)["oscillation-weak"], 0);
}

TEST(Practice, DrawsSizesOfTheListAndTheSameForTheSameSeed)
{
    const auto order = demonstration_order();
    const auto& known = virtual_bench::known_faults();
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
        const auto task = draw_task(order, seed);
        EXPECT_EQ(task.faults(), draw_task(order, seed).faults());
        if (task.code.empty())
            continue;
        const auto fault = virtual_bench::parse_fault(task.faults().front());
        const auto one = std::find_if(known.begin(), known.end(), [&](const auto& k) { return k.code == fault.code; });
        ASSERT_NE(one, known.end());
        EXPECT_EQ(fault.size.has_value(), !one->unit.empty()) << fault.code;
        EXPECT_THAT(fault.size.value_or(one->small), testing::AnyOf(one->small, one->middle, one->large)) << fault.code;
    }
}

TEST(Practice, OrderBearsTheMarkAndIsElseTheSame)
{
    const auto order = demonstration_order();
    const auto marked = practice_order(order);
    EXPECT_EQ(marked.meaning.work_order, "PRACTICE");
    EXPECT_THAT(marked.text, HasSubstr("PRACTICE"));
    EXPECT_EQ(marked.meaning.presets.front().insufflation.pressure_cmH2O,
              order.presets.front().insufflation.pressure_cmH2O);
}

TEST(Practice, AnswerIsRightAlikeOrWrong)
{
    const PracticeTask leak{"leak", 15.0, "%", 1};
    EXPECT_EQ(judge_guess(leak, "leak"), Guess::right);
    EXPECT_EQ(judge_guess(leak, "weak-blower"), Guess::alike);
    EXPECT_EQ(judge_guess(leak, "residual"), Guess::wrong);
    EXPECT_EQ(judge_guess(leak, ""), Guess::wrong);
    EXPECT_EQ(judge_guess({}, ""), Guess::right) << "healthy";
    EXPECT_EQ(judge_guess({}, "leak"), Guess::wrong);
}

TEST(Practice, TellsWhatItWasAndByWhichFindings)
{
    ResultView result;
    result.findings.push_back({"residual-pressure", "caution", "Pressure stays in the pause.", Tone::none});
    const PracticeTask task{"residual", 3.0, "cmH2O", 1};
    const auto told = practice_told(task, "leak", result, Reader::terminal).join(u'\n').toStdString();
    EXPECT_THAT(told, HasSubstr("something else"));
    EXPECT_THAT(told, HasSubstr("residual, 3 cmH2O: a stuck valve leaves this pressure in the pauses"));
    EXPECT_THAT(told, HasSubstr("caution: Pressure stays in the pause."));
    const auto unseen = practice_told(task, "residual", {}, Reader::terminal).join(u'\n').toStdString();
    EXPECT_THAT(unseen, HasSubstr("Right."));
    EXPECT_THAT(unseen, HasSubstr("Nothing in this run told it"));
    const auto healthy = practice_told({}, "", {}, Reader::terminal).join(u'\n').toStdString();
    EXPECT_THAT(healthy, HasSubstr("a healthy unit"));
    EXPECT_THAT(healthy, Not(HasSubstr("too small")));
}

TEST(Practice, OffersAHealthyUnitAndEveryFaultAsAnAnswer)
{
    const auto answers = practice_answers(Reader::terminal);
    EXPECT_EQ(answers.size(), virtual_bench::known_faults().size() + 1);
    EXPECT_EQ(answers.front().code, "");
    for (const auto& answer : answers)
        EXPECT_FALSE(answer.does.isEmpty()) << answer.code;
}

} // namespace
} // namespace zeroline::session
