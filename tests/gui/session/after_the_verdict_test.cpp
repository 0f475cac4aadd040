// What was done with the unit: its words, and who may say it.

#include "gui/session/after_the_verdict.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/record/record.hpp"
#include "gui/session/result_view.hpp"
#include "tests/gui/session/played_run.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::session {
namespace {

using metrology::Outcome;
using testing::ElementsAre;
using testing::HasSubstr;
using Unit = verification::Disposition::Unit;

verification::Disposition released()
{
    verification::Disposition said;
    said.unit = Unit::released;
    return said;
}

verification::Disposition kept_out(const std::string& reason, const std::string& loaner = {})
{
    return {Unit::kept_out, reason, loaner, {}, false};
}

ResultView with(const verification::Disposition& said, Outcome verdict, bool critical = false)
{
    verification::Assessment assessment;
    assessment.verdict = assessment.unit_accuracy = verdict;
    assessment.critical = critical;
    const auto order = short_order();
    verification::RunLog log;
    log.disposition = said;
    verification::Evidence evidence;
    evidence.order = &order;
    evidence.run = &log;
    const auto tree = record::to_json(evidence, assessment, {}, record::Parts::without_cycles);
    return result_view(RecordTree(nlohmann::json(tree)), Reader::terminal);
}

TEST(AfterTheVerdict, says_what_became_of_the_unit_and_nothing_where_nobody_said_it)
{
    EXPECT_TRUE(with({}, Outcome::pass).after.isEmpty());
    EXPECT_THAT(with(released(), Outcome::pass).after, ElementsAre(QString("The unit: released for use.")));
    EXPECT_THAT(with(kept_out("weak", "RC-0200"), Outcome::fail).after,
                ElementsAre(QString("The unit: kept out of use (weak)."), QString("Loaner arranged: RC-0200.")));
    EXPECT_THAT(with(kept_out("weak"), Outcome::fail).after, testing::Contains(QString("No loaner was arranged.")));
    EXPECT_THAT(with({Unit::not_said, {}, {}, "J. Example", true}, Outcome::pass).after,
                ElementsAre(QString("Adjusted before this run by J. Example, authorised to do so.")));
    EXPECT_THAT(with({Unit::not_said, {}, {}, "J. Example", false}, Outcome::pass).after.join(' ').toStdString(),
                HasSubstr("nobody said that they were authorised"));
}

TEST(AfterTheVerdict, never_calls_a_unit_released_that_did_not_pass)
{
    for (const auto outcome : {Outcome::fail, Outcome::incomplete, Outcome::conditional_fail}) {
        const auto result = with(released(), outcome);
        EXPECT_THAT(result.after.join(' ').toStdString(), HasSubstr("not released"));
        EXPECT_THROW(refuse_disposition(released(), result), trace::InputError);
        EXPECT_NO_THROW(refuse_disposition(kept_out("weak"), result));
    }
    EXPECT_THROW(refuse_disposition(released(), with({}, Outcome::pass, true)), trace::InputError) << "critical";
    EXPECT_NO_THROW(refuse_disposition(released(), with({}, Outcome::pass)));
    EXPECT_NO_THROW(refuse_disposition(released(), with({}, Outcome::conditional_pass)));
    EXPECT_THROW(refuse_disposition(kept_out(""), with({}, Outcome::pass)), trace::InputError) << "no reason";
}

} // namespace
} // namespace zeroline::session
