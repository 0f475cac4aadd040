#include "analysis/record/difference.hpp"
#include "analysis/record/record.hpp"
#include "tests/analysis/verification/synthetic.hpp"

#include <gtest/gtest.h>

namespace zeroline::record {
namespace {

using nlohmann::ordered_json;
using verification::synthetic::bench;
using verification::synthetic::Plan;

ordered_json record_of(const verification::synthetic::Bench& subject)
{
    return to_json(subject.evidence(), subject.result(), {"0.1.0", "test build"});
}

std::vector<std::string> keys_of(const ordered_json& tree)
{
    std::vector<std::string> keys;
    for (const auto& [key, value] : tree.items()) {
        keys.push_back(key);
    }
    return keys;
}

void expect_keys(const ordered_json& tree, std::initializer_list<const char*> keys)
{
    for (const auto* key : keys) {
        EXPECT_TRUE(tree.contains(key)) << key;
    }
}

TEST(Record, has_every_key_of_the_format)
{
    const auto record = record_of(bench());
    expect_keys(record, {"schema",       "verdict",       "unit_accuracy", "critical", "reasons",  "origin",
                         "attempt",      "decision_rule", "lead_cycles",   "zero",     "sampling", "software",
                         "not_tested",   "cycles",        "judgements",    "findings", "order",    "unit",
                         "prescription", "instrument",    "run",           "house"});
    expect_keys(record["zero"], {"before", "after", "drift", "noise"});
    expect_keys(record["sampling"], {"rate_hz", "rate_error_ppm", "residual_s", "lost"});
    const auto& cycle = record["cycles"].back();
    expect_keys(cycle, {"index", "preset", "span", "start_s", "judged", "why_not_judged"});
    expect_keys(cycle["insufflation"],
                {"start_s", "duration_s", "mid_level_duration_s", "duration_uncertainty_s", "plateau_cmH2O",
                 "plateau_uncertainty_cmH2O", "settled", "peak_cmH2O", "overshoot_percent", "rise_time_s",
                 "droop_cmH2O_per_s", "ripple_cmH2O", "cut"});
    expect_keys(cycle["exsufflation"], {"swing_time_s", "plateau_cmH2O", "duration_s", "cut"});
    expect_keys(cycle["pause"],
                {"start_s", "duration_s", "duration_uncertainty_s", "residual_cmH2O", "residual_uncertainty_cmH2O",
                 "release_time_s", "return_to_zero_s", "returned", "cut"});
    expect_keys(record["judgements"][0], {"measurand",
                                          "preset",
                                          "against",
                                          "unit",
                                          "prescribed",
                                          "set",
                                          "displayed",
                                          "lower",
                                          "upper",
                                          "basis",
                                          "n",
                                          "mean",
                                          "mean_uncertainty",
                                          "repeatability",
                                          "worst",
                                          "worst_cycle",
                                          "expanded_uncertainty",
                                          "coverage_factor",
                                          "ratio",
                                          "probability_outside",
                                          "verdict",
                                          "critical",
                                          "reason"});
}

TEST(Record, says_what_the_assessment_says)
{
    const auto record = record_of(bench());
    EXPECT_EQ(record["verdict"], "pass");
    EXPECT_EQ(record["origin"], "imported");
    EXPECT_EQ(record["cycles"].size(), 11U) << "four toggles and seven cycles";
    EXPECT_EQ(record["judgements"][0]["measurand"], "insufflation-pressure");
    EXPECT_EQ(record["judgements"][0]["displayed"], 40.0);
    EXPECT_EQ(record["judgements"][0]["reason"], nullptr);
    EXPECT_EQ(record["unit"]["asset"], "A-1");
    EXPECT_EQ(keys_of(record).front(), "schema") << "keys keep their order of writing";
    EXPECT_EQ(keys_of(record).back(), "findings");
}

TEST(Record, gives_every_null_of_a_cycle_its_reason)
{
    const auto check = [](const ordered_json& phase) {
        if (!phase.is_object()) {
            return;
        }
        for (const auto& [key, value] : phase.items()) {
            if (value.is_null() && key != "oscillation") {
                EXPECT_TRUE(phase["null_because"].contains(key)) << key << " in " << phase.dump();
            }
        }
    };
    Plan plan;
    plan.rate_hz = 60.0;
    plan.cycles[3].exsufflation_s = 0.0;
    const auto record = record_of(bench(plan));
    for (const auto& cycle : record["cycles"]) {
        check(cycle["insufflation"]);
        check(cycle["exsufflation"]);
        check(cycle["pause"]);
    }
    const auto& first = record["cycles"][4];
    EXPECT_EQ(first["insufflation"]["rise_time_s"], nullptr);
    EXPECT_EQ(first["insufflation"]["null_because"]["rise_time_s"], "sampling-rate");
}

TEST(Record, is_the_same_to_the_last_bit_when_it_is_made_again)
{
    const auto subject = bench();
    const auto one = record_of(subject);
    const auto other = ordered_json::parse(record_of(subject).dump(2));
    EXPECT_TRUE(differences(one, other, Alike::exactly).empty());
}

TEST(Record, prints_budgets_that_come_to_its_uncertainties)
{
    const auto subject = bench();
    const auto result = subject.result();
    const auto budgets = budgets_to_json(result);
    ASSERT_EQ(budgets.size(), result.cycles.size());
    const auto& level = budgets.back()["quantities"]["insufflation-pressure"];
    double sum = 0.0;
    for (const auto& line : level["contributions"]) {
        sum += std::pow(line["share"].get<double>(), 2);
    }
    EXPECT_NEAR(std::sqrt(sum), level["standard_uncertainty"].get<double>(), 1e-12);
    EXPECT_EQ(level["expanded_uncertainty"],
              record_of(subject)["cycles"].back()["insufflation"]["plateau_uncertainty_cmH2O"]);
}

TEST(Difference, names_each_place_with_both_values)
{
    const auto saved = ordered_json::parse(R"({"a": 1.0, "b": [1, 2], "c": {"d/e": "x"}, "gone": null})");
    const auto now = ordered_json::parse(R"({"c": {"d/e": "y"}, "a": 1.0, "b": [1, 3, 4], "new": true})");
    const auto found = differences(saved, now, Alike::exactly);
    ASSERT_EQ(found.size(), 5U);
    EXPECT_EQ(found[0].pointer, "/b/1");
    EXPECT_EQ(found[0].saved, "2");
    EXPECT_EQ(found[0].now, "3");
    EXPECT_EQ(found[1].pointer, "/b/2");
    EXPECT_EQ(found[1].saved, "(missing)");
    EXPECT_EQ(found[2].pointer, "/c/d~1e");
    EXPECT_EQ(found[3].pointer, "/gone");
    EXPECT_EQ(found[4].pointer, "/new");
}

TEST(Difference, between_builds_allows_rounding_and_nothing_else)
{
    const auto saved =
        ordered_json::parse(R"({"x": 40.0, "zero": 0.0, "verdict": "pass", "software": {"build": "a"}})");
    const auto now =
        ordered_json::parse(R"({"x": 40.00000003, "zero": 5e-13, "verdict": "pass", "software": {"build": "b"}})");
    EXPECT_TRUE(differences(saved, now, Alike::to_rounding).empty());
    EXPECT_EQ(differences(saved, now, Alike::exactly).size(), 3U);
    auto farther = now;
    farther["x"] = 40.0000001;
    farther["verdict"] = "fail";
    EXPECT_EQ(differences(saved, farther, Alike::to_rounding).size(), 2U);
}

} // namespace
} // namespace zeroline::record
