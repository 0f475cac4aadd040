#include "gui/records/dates.hpp"

#include "analysis/verification/civil_time.hpp"
#include "gui/records/recheck.hpp"
#include "tests/gui/records/sealed_record.hpp"

#include <gmock/gmock.h>

namespace zeroline::records {
namespace {

using nlohmann::json;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

json dated(const std::string& began, const std::string& issued)
{
    return {{"run", {{"began", began}}},
            {"order", {{"ordered_on", "2026-11-20"}}},
            {"instrument", {{"calibrated_on", "2026-03-02"}}},
            {"issue", {{"issued", issued}}}};
}

TEST(Dates, that_can_be_are_not_spoken_of)
{
    EXPECT_THAT(impossible_dates(dated("2026-11-25T09:12:04+01:00", "2026-11-25T09:15:00+01:00")), IsEmpty());
    EXPECT_THAT(impossible_dates(dated("2026-11-20T00:00:00+01:00", "2026-11-19T23:00:00Z")), IsEmpty());
    EXPECT_THAT(impossible_dates(json::object()), IsEmpty());
    EXPECT_THAT(impossible_dates({{"run", {{"began", "some day"}}}, {"order", nullptr}}), IsEmpty());
}

TEST(Dates, that_cannot_be_are_named)
{
    EXPECT_THAT(impossible_dates(dated("2026-11-19T23:59:59+01:00", "2026-11-25T09:15:00+01:00")),
                Contains(HasSubstr("before the prescription was ordered on 2026-11-20")));
    EXPECT_THAT(impossible_dates(dated("2026-03-01T09:00:00+01:00", "2026-11-25T09:15:00+01:00")),
                Contains(HasSubstr("before the instrument was calibrated on 2026-03-02")));
    EXPECT_THAT(impossible_dates(dated("2036-11-25T09:12:04+01:00", "2026-11-25T09:15:00+01:00")),
                Contains(HasSubstr("was signed 2026-11-25T09:15:00+01:00, before the run began 2036-11-25")));
    EXPECT_THAT(impossible_addition("2026-11-25T09:15:00+01:00", "2026-11-25T09:14:59+01:00"),
                Contains(HasSubstr("addendum")));
}

TEST(Instants, are_compared_whatever_their_offset)
{
    using verification::epoch_s_of;
    // The examples of RFC 3339, 5.8; their seconds since 1970 by GNU date.
    EXPECT_EQ(epoch_s_of("1985-04-12T23:20:50.52Z"), 482196050);
    EXPECT_EQ(epoch_s_of("1996-12-19T16:39:57-08:00"), 851042397);
    EXPECT_EQ(epoch_s_of("1937-01-01T12:00:27.87+00:20"), -1041337173);
    EXPECT_EQ(epoch_s_of("2026-11-25T09:12:04+01:00"), epoch_s_of("2026-11-25T08:12:04Z"));
}

using RecheckedDates = SealedRecordTest;

TEST_F(RecheckedDates, an_intact_record_with_dates_that_cannot_be_says_so)
{
    auto signs = request();
    signs.signature.time = "2016-11-25T09:15:00+01:00";
    const auto folder = sealed(unfinished("r1"), signs).folder;
    const auto result = recheck(folder);
    EXPECT_TRUE(result.intact());
    EXPECT_THAT(result.dates, Contains(HasSubstr("before the run began")));
    EXPECT_THAT(recheck(record("r2")).dates, IsEmpty());
}

} // namespace
} // namespace zeroline::records
