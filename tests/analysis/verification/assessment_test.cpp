// Every rule of docs/method.md, judgement, on runs drawn on paper (synthetic.hpp).

#include "tests/analysis/verification/synthetic.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using metrology::Outcome;
using synthetic::bench;
using synthetic::find;
using synthetic::has_finding;
using synthetic::has_reason;
using synthetic::Plan;
using testing::DoubleNear;
using testing::Optional;

std::string said(const Assessment& assessment)
{
    std::string out;
    for (const auto& reason : assessment.reasons) {
        out += reason.code + ": " + reason.text + "\n";
    }
    for (const auto& finding : assessment.findings) {
        out += "finding " + finding.code + ": " + finding.text + "\n";
    }
    return out;
}

TEST(Assessment, a_healthy_unit_with_all_evidence_passes)
{
    const auto result = bench().result();
    EXPECT_EQ(result.verdict, Outcome::pass) << said(result);
    EXPECT_EQ(result.unit_accuracy, Outcome::pass);
    EXPECT_FALSE(result.critical);
    const auto* pressure = find(result, measurand::insufflation_pressure);
    ASSERT_NE(pressure, nullptr);
    EXPECT_EQ(pressure->n, 6);
    EXPECT_THAT(pressure->mean, Optional(DoubleNear(40.0, 0.02)));
    EXPECT_THAT(find(result, measurand::exsufflation_duration)->mean, Optional(DoubleNear(1.5, 0.005)));
    EXPECT_THAT(find(result, measurand::pause_duration)->mean, Optional(DoubleNear(2.0, 0.005)));
}

} // namespace
} // namespace zeroline::verification
