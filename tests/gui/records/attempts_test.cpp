#include "gui/records/attempts.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <fstream>

namespace {

using namespace zeroline;
using namespace zeroline::records;
using metrology::Outcome;
using nlohmann::json;
namespace fs = std::filesystem;

class AttemptsTest : public testing::Test {
protected:
    AttemptsTest()
        : place_(fs::path(testing::TempDir()) /
                 ("attempts-" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name())))
    {
        fs::remove_all(place_);
    }
    ~AttemptsTest() override { fs::remove_all(place_); }

    fs::path keep(const std::string& folder, int number, const json& record, json replaces = nullptr,
                  const std::string& order = "WO-1", const std::string& origin = "captured-here")
    {
        fs::create_directories(place_ / folder);
        write(folder, "order.json", {{"work_order", order}, {"unit", {{"asset", "RC-1"}}}});
        json run{{"attempt", number}, {"origin", origin}};
        if (!replaces.is_null()) {
            run["replaces"] = std::move(replaces);
        }
        write(folder, "run.json", run);
        if (!record.is_null()) {
            write(folder, "record.json", record);
        }
        return place_ / folder;
    }
    /// Those beside, as if all of them counted: what does is tested with real seals (following_test.cpp).
    static std::vector<KeptAttempt> beside_all(const KeptAttempt& one)
    {
        auto all = attempts_beside(one, nullptr);
        for (auto& kept : all) {
            kept.counts = Counts::proven;
        }
        return all;
    }
    void write(const std::string& folder, const std::string& name, const json& tree)
    {
        std::ofstream(place_ / folder / name) << tree.dump();
    }

    fs::path place_;
};

const json kFail{{"verdict", "fail"}, {"unit_accuracy", "pass"}};
const json kPass{{"verdict", "pass"}, {"unit_accuracy", "pass"}};

TEST_F(AttemptsTest, are_found_beside_a_new_record_in_the_order_of_their_numbers)
{
    keep("b.part", 1, kFail);
    const auto newest = keep("a.part", 2, kPass);
    keep("another order.part", 1, kPass, nullptr, "WO-2");
    keep("a simulated one.part", 1, kPass, nullptr, "WO-1", "simulated");
    fs::create_directories(place_ / "no record at all");
    const auto beside = beside_all(kept_attempt(newest).value());
    ASSERT_EQ(beside.size(), 2u);
    EXPECT_EQ(beside[0].folder.filename(), "b.part");
    EXPECT_EQ(beside[0].attempt.verdict, Outcome::fail);
    EXPECT_EQ(beside[1].attempt.number, 2);
}

TEST_F(AttemptsTest, a_fail_stands_beside_a_later_pass)
{
    keep("1.part", 1, kFail);
    const auto beside = beside_all(*kept_attempt(keep("2.part", 2, kPass)));
    EXPECT_EQ(beside[standing(beside).value()].attempt.number, 1);
}

TEST_F(AttemptsTest, a_fail_with_a_named_cause_in_the_set_up_is_replaced)
{
    keep("1.part", 1, kFail);
    const auto beside =
        attempts_beside(*kept_attempt(keep("2.part", 2, kPass,
                                           {{"attempt", 1}, {"cause", "plug"}, {"evidence", "leaked at 3 cmH2O/s"}})),
                        nullptr);
    EXPECT_EQ(beside[standing(beside).value()].attempt.number, 2);
}

TEST_F(AttemptsTest, an_unfinished_run_is_an_attempt_too)
{
    keep("1.part", 1, nullptr);
    const auto beside = beside_all(*kept_attempt(keep("2.part", 2, kPass)));
    ASSERT_EQ(beside.size(), 2u);
    EXPECT_EQ(beside[0].attempt.verdict, Outcome::incomplete);
    EXPECT_EQ(beside[standing(beside).value()].attempt.number, 2) << "it said nothing about the unit";
}

TEST_F(AttemptsTest, a_number_that_no_run_may_have_leaves_room_for_the_next)
{
    for (const json& number : {json(2147483647), json(9223372036854775807), json(-5), json(1000), json(1e300)}) {
        const auto folder = keep("1", 1, kPass);
        write("1", "run.json", {{"attempt", number}, {"origin", "captured-here"}});
        EXPECT_EQ(kept_attempt(folder)->attempt.number, 1) << number;
    }
}

TEST_F(AttemptsTest, a_run_stopped_early_after_a_pass_stands_for_nothing)
{
    keep("1.part", 1, kPass);
    const auto beside = beside_all(*kept_attempt(keep("2.part", 2, nullptr)));
    ASSERT_EQ(beside.size(), 2u);
    EXPECT_EQ(beside[standing(beside).value()].attempt.number, 1);
}

TEST_F(AttemptsTest, what_was_never_sealed_and_has_no_journal_does_not_count)
{
    keep("1.part", 1, kPass);
    keep("forged", 2, kFail);
    const auto beside = attempts_beside(*kept_attempt(place_ / "1.part"), nullptr);
    ASSERT_EQ(beside.size(), 2u);
    for (const auto& one : beside) {
        EXPECT_EQ(one.counts, Counts::not_at_all);
        EXPECT_EQ(one.why_not, "never sealed, and without a capture journal");
    }
}

TEST_F(AttemptsTest, a_folder_that_is_no_record_or_a_broken_one_is_none)
{
    fs::create_directories(place_ / "x");
    EXPECT_FALSE(kept_attempt(place_ / "x"));
    EXPECT_FALSE(kept_attempt(place_ / "not there"));
    keep("y.part", 1, kPass);
    std::ofstream(place_ / "y.part" / "order.json") << "{";
    EXPECT_FALSE(kept_attempt(place_ / "y.part"));
}

} // namespace
