#include "gui/console/readiness.hpp"

#include "tests/acquisition/serial/captured.hpp"
#include "tests/acquisition/serial/in_child.hpp"
#include "tests/acquisition/serial/pty_pair.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <sys/stat.h>

#include <atomic>
#include <fstream>
#include <thread>

namespace zeroline::console::test {
namespace {

namespace fs = std::filesystem;
using serial::test::InstrumentEnd;
using testing::HasSubstr;
using testing::Not;

/// A whole run without them ended in 'Not sealed', and `ready` had said ready.
TEST(Readiness, is_not_given_where_a_record_could_not_be_sealed)
{
    verification::WorkOrder order;
    verification::Bench bench;
    EXPECT_FALSE(check_sealing({}, {}).ok);
    EXPECT_THAT(check_sealing(order, bench).found,
                HasSubstr("organisation that runs this bench, address of the organisation, customer"));
    bench.organisation = "workshop";
    bench.address = " ";
    EXPECT_THAT(check_sealing({}, bench).found, HasSubstr("without: address of the organisation; "));
    bench.address = "1 Example Street";
    EXPECT_TRUE(check_sealing({}, bench).ok);
    EXPECT_THAT(check_sealing(order, bench).found, HasSubstr("without: customer, or why there is none; "));
    order.customer = "ward 4";
    EXPECT_TRUE(check_sealing(order, bench).ok);
}

trace::Instrument certified()
{
    trace::Instrument instrument = serial::test::plain_instrument();
    instrument.range = {-100, 100, 0.01, trace::PressureUnit::cmH2O};
    instrument.calibration.certificate = "CAL-771";
    instrument.calibration.on = "2026-06-03";
    instrument.calibration.due = "2027-06-03";
    return instrument;
}

TEST(Readiness, takes_a_calibration_for_valid_from_its_first_day_to_the_end_of_its_last)
{
    EXPECT_TRUE(check_calibration(certified(), "2026-06-03").ok);
    EXPECT_TRUE(check_calibration(certified(), "2027-06-03").ok);
    EXPECT_FALSE(check_calibration(certified(), "2026-06-02").ok);
    const auto lapsed = check_calibration(certified(), "2027-06-04");
    EXPECT_FALSE(lapsed.ok);
    EXPECT_THAT(lapsed.found, HasSubstr("CAL-771 was valid to 2027-06-03, not on 2027-06-04"));
}

TEST(Readiness, does_not_take_the_templates_example_for_a_certificate)
{
    auto instrument = certified();
    instrument.calibration.certificate = "CAL-0001";
    const auto check = check_calibration(instrument, "2026-06-03");
    EXPECT_FALSE(check.ok);
    EXPECT_THAT(check.found, HasSubstr("an example's"));
}

// 4 May to 3 June is 30 days by the calendar.
TEST(Readiness, mentions_a_calibration_that_ends_soon)
{
    EXPECT_THAT(check_calibration(certified(), "2027-05-04").found, HasSubstr("it ends within 30 days"));
    EXPECT_THAT(check_calibration(certified(), "2027-05-03").found, Not(HasSubstr("ends within")));
}

TEST(Readiness, misses_a_calibration_that_does_not_reach_the_prescribed_pressure)
{
    auto instrument = certified();
    instrument.calibration.low = -50;
    instrument.calibration.high = 50;
    verification::WorkOrder order;
    order.presets.resize(1);
    order.presets[0].name = "day";
    order.presets[0].insufflation.pressure_cmH2O = 50;
    order.presets[0].exsufflation.pressure_cmH2O = -50;
    EXPECT_TRUE(check_range(order, instrument).ok);
    order.presets[0].exsufflation.pressure_cmH2O = -51;
    const auto check = check_range(order, instrument);
    EXPECT_FALSE(check.ok);
    EXPECT_THAT(check.found, HasSubstr("preset 'day' asks for"));
}

TEST(Readiness, names_the_group_where_a_port_may_not_be_opened)
{
    const InstrumentEnd instrument;
    EXPECT_TRUE(check_permission(instrument.path()).ok);
    ::chmod(instrument.path().c_str(), 0);
    const auto said = serial::test::in_child([&] {
        constexpr uid_t kNobody = 65534; // the super-user may open everything
        return ::geteuid() == 0 && ::setuid(kNobody) != 0 ? "cannot change user"
                                                          : check_permission(instrument.path()).found;
    });
    EXPECT_THAT(said, HasSubstr("you may not open it; it belongs to group "));
}

TEST(Readiness, sees_the_sensor_on_the_second_port_when_the_first_says_nothing)
{
    const InstrumentEnd silent;
    const InstrumentEnd talking;
    std::atomic<bool> done = false;
    std::thread writer([&] {
        while (!done) {
            talking.write("1.5\n");
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
    });
    const auto check = check_sensor({silent.path(), talking.path()}, certified(), 0.2);
    done = true;
    writer.join();
    EXPECT_TRUE(check.ok);
    EXPECT_THAT(check.found, HasSubstr("reads on " + talking.path()));
}

TEST(Readiness, says_why_no_sensor_is_seen)
{
    const InstrumentEnd silent;
    const auto check = check_sensor({silent.path()}, certified(), 0.2);
    EXPECT_FALSE(check.ok);
    EXPECT_THAT(check.found, HasSubstr("no byte for 0.2 s on " + silent.path()));
    EXPECT_THAT(check_sensor({}, certified(), 0.2).found, HasSubstr("no serial port is there"));
    EXPECT_THAT(check_sensor({"/dev/ttyNOWHERE0"}, certified(), 0.2).found, HasSubstr("there is no such port"));
}

TEST(Readiness, wants_room_and_the_right_to_write)
{
    EXPECT_FALSE(check_disk("/no/such/folder").ok);
    EXPECT_FALSE(check_disk("/proc").ok);
    const TemporaryFolder folder;
    EXPECT_THAT(check_disk(folder / "").found, HasSubstr("MB free in"));
}

void put_supply(const fs::path& supplies, const std::string& name, const std::string& type, const std::string& capacity,
                const std::string& scope = {})
{
    fs::create_directories(supplies / name);
    std::ofstream(supplies / name / "type") << type << '\n';
    if (!capacity.empty()) {
        std::ofstream(supplies / name / "capacity") << capacity << '\n';
    }
    if (!scope.empty()) {
        std::ofstream(supplies / name / "scope") << scope << '\n';
    }
}

// Files as the kernel's documentation has them (Documentation/ABI/testing/sysfs-class-power).
TEST(Readiness, reads_the_charge_of_the_computers_own_battery)
{
    const TemporaryFolder folder;
    const auto supplies = folder / "power_supply";
    fs::create_directories(supplies);
    put_supply(supplies, "AC", "Mains", "");
    put_supply(supplies, "hidpp_battery_0", "Battery", "5", "Device");
    EXPECT_THAT(check_battery(supplies).found, HasSubstr("needs the mains"));
    EXPECT_TRUE(check_battery(supplies).ok);
    put_supply(supplies, "BAT0", "Battery", "93");
    EXPECT_THAT(check_battery(supplies).found, HasSubstr("93 %"));
    put_supply(supplies, "BAT1", "Battery", "49");
    const auto low = check_battery(supplies);
    EXPECT_FALSE(low.ok);
    EXPECT_THAT(low.found, HasSubstr("charged to 49 %, at least 50 % are wanted"));
    EXPECT_TRUE(check_battery(folder / "none").ok);
}

} // namespace
} // namespace zeroline::console::test
