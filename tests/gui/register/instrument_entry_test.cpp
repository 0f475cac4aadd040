#include "gui/register/instrument_entry.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/instrument_checks.hpp"
#include "gui/register/unit_register.hpp"
#include "tests/gui/records/sealed_record.hpp"
#include "tests/gui/register/register_place.hpp"

#include <gmock/gmock.h>

namespace zeroline::unit_register {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class InstrumentEntryTest : public records::SealedRecordTest {
protected:
    [[nodiscard]] UnitRegister opened() const { return UnitRegister::open(place_); }
    [[nodiscard]] Database raw() const { return Database::open(place_); }
    /// What only the owner of a file or a database can do.
    void change_a_check() const
    {
        raw().run(raw().is_on_server() ? "DROP TRIGGER instrument_check_keeps ON instrument_check"
                                       : "DROP TRIGGER instrument_check_keeps_UPDATE");
        raw().run("UPDATE instrument_check SET indicated = 20 WHERE kind = 'second gauge' AND place = 0");
    }
    /// Each off by so much, held near 20, 40, -20 and -40.
    [[nodiscard]] fs::path checks_file_with(const std::vector<std::pair<std::string, double>>& checks,
                                            bool simulated) const
    {
        const auto instrument = here_ / (simulated ? "simulated.json" : "my.json");
        fs::remove(records::checks_file(instrument));
        for (const auto& [on, off_cmH2O] : checks) {
            verification::InstrumentCheck check;
            check.on = on;
            check.due = verification::later_day(on, 91);
            check.gauge = "water column 2";
            check.gauge_uncertainty_cmH2O = 0.2;
            check.simulated = simulated;
            for (const double at_cmH2O : {21.3, 38.0, -20.4, -41.0})
                check.points.push_back({at_cmH2O + off_cmH2O, at_cmH2O, 0.25});
            auto all = records::load_instrument_checks(instrument);
            all.instrument = "bench transducer 2";
            all.serial = "PT-3310";
            records::append_instrument_check(instrument, all, check);
        }
        return records::checks_file(instrument);
    }

    const records::SigningKey key_ = records::SigningKey::make();
    RegisterPlace place_{here_ / "data" / "register.db"};
};

TEST_F(InstrumentEntryTest, KeepsWhatAnInstrumentShowedAtEachOfItsCalibrations)
{
    const auto units = opened();
    const auto entry = read_entry(record("r1"));
    ASSERT_THAT(entry.instrument_checks, SizeIs(3)) << "the points of the demonstration's instrument";
    EXPECT_EQ(units.add(entry, key_), Added::record);
    EXPECT_EQ(units.add(entry, key_), Added::nothing);
    const auto checks = units.calibrations_of("bench transducer 2", "PT-3310");
    ASSERT_THAT(checks, SizeIs(3));
    EXPECT_EQ(checks[0]["preset"], "-60 cmH2O");
    EXPECT_EQ(checks[0]["mean"], -60.05);
    EXPECT_EQ(checks[0]["target"], -60.0);
    EXPECT_EQ(checks[0]["mean_uncertainty"], 0.2);
    EXPECT_EQ(checks[0]["next_due"], "2036-06-03");
    EXPECT_TRUE(checks[0]["lower_limit"].is_null()) << "its file allows for no drift";
    EXPECT_THAT(units.calibrations_of("another", "PT-3310"), IsEmpty());
    EXPECT_THAT(units.gauge_checks_of("bench transducer 2", "PT-3310"), IsEmpty()) << "a certificate is none";
    EXPECT_THROW(raw().run("DELETE FROM instrument_check"), trace::InputError) << "the register only grows";
}

/// Two benches with a file of their own each, and the same gauge on the same day.
TEST_F(InstrumentEntryTest, KeepsTheChecksOfTwoBenchesOnOneDay)
{
    const auto units = opened();
    const auto one = read_instrument_entry(checks_file_with({{"2026-11-30", 0.1}}, false));
    const auto other = read_instrument_entry(checks_file_with({{"2026-11-30", -0.2}}, false));
    EXPECT_TRUE(units.add_instrument(one, key_));
    EXPECT_TRUE(units.add_instrument(other, key_));
    EXPECT_FALSE(units.add_instrument(one, key_)) << "once more";
    EXPECT_FALSE(units.add_instrument(other, key_)) << "once more, though its points stand at other places";
    EXPECT_THAT(units.gauge_checks_of("bench transducer 2", "PT-3310"), SizeIs(8));
    EXPECT_THAT(units.check().troubles, IsEmpty());
    auto twice = other;
    twice.checks.push_back(twice.checks.front());
    EXPECT_TRUE(units.add_instrument(twice, key_)) << "a point that was met twice is two points";
    EXPECT_THAT(units.gauge_checks_of("bench transducer 2", "PT-3310"), SizeIs(9));
}

TEST_F(InstrumentEntryTest, KeepsWhatAnInstrumentShowedBesideASecondGauge)
{
    const auto units = opened();
    const auto file = checks_file_with({{"2026-01-05", 0.2}, {"2026-01-05", 0.3}, {"2026-04-05", 0.4}}, false);
    const auto entry = read_instrument_entry(file);
    ASSERT_THAT(entry.checks, SizeIs(12)) << "four points each; two checks of one day are two";
    EXPECT_TRUE(units.add_instrument(entry, key_));
    EXPECT_FALSE(units.add_instrument(entry, key_));
    const auto checks = units.gauge_checks_of("bench transducer 2", "PT-3310");
    ASSERT_THAT(checks, SizeIs(12));
    EXPECT_EQ(checks[0]["preset"], "20 cmH2O") << "held at 21.3";
    EXPECT_EQ(checks[0]["compared_with"], "second gauge");
    EXPECT_NEAR(checks[0]["mean"].get<double>() - checks[0]["target"].get<double>(), 0.2, 1e-9);
    EXPECT_NEAR(checks[0]["upper_limit"].get<double>() - checks[0]["target"].get<double>(), 1.0, 1e-9);
    EXPECT_EQ(units.instruments()[0]["gauge_check_due"], "2026-07-05");
    EXPECT_EQ(units.instruments()[0]["certificate"], "") << "no instrument file stands beside it";
    EXPECT_EQ(units.add(read_entry(record("r1")), key_), Added::record);
    EXPECT_NE(units.instruments()[0]["certificate"], "") << "the record says it";
    EXPECT_TRUE(units.add_instrument(read_instrument_entry(checks_file_with({{"2026-05-05", 9.0}}, true)), key_));
    EXPECT_THAT(units.gauge_checks_of("bench transducer 2", "PT-3310"), SizeIs(12)) << "simulated ones do not count";
    EXPECT_THAT(units.check().troubles, IsEmpty());
    change_a_check();
    EXPECT_THAT(units.check().troubles,
                ElementsAre(HasSubstr("is not what was registered"), HasSubstr("that nobody registered")));
}

} // namespace
} // namespace zeroline::unit_register
