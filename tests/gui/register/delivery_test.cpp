#include "gui/register/delivery.hpp"

#include "gui/register/unit_register.hpp"
#include "tests/gui/records/sealed_record.hpp"

#include <gmock/gmock.h>

#include <fstream>

namespace zeroline::unit_register {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// A bench whose key, and so its register, lies in the test's own folder.
class DeliveryTest : public records::SealedRecordTest {
protected:
    void SetUp() override
    {
        std::ofstream(bench_) << R"({"schema": "zeroline/bench/1", "key_file": "keys/bench.key"})";
    }
    [[nodiscard]] std::size_t registered() const
    {
        return UnitRegister::open(register_file(bench_)).history("RC-0117").size();
    }
    [[nodiscard]] fs::path waiting() const { return here_ / "keys" / "register.db.waiting"; }

    fs::path bench_ = here_ / "bench.json";
};

TEST_F(DeliveryTest, RegistersWhatWasSavedAndForgetsTheNote)
{
    expect_record(bench_, here_ / "r1");
    EXPECT_FALSE(fs::is_empty(waiting()));
    EXPECT_THAT(deliver(bench_), IsEmpty()); // nothing is sealed yet, and nothing is made
    EXPECT_FALSE(fs::exists(register_file(bench_)));
    const auto folder = record("r1");
    EXPECT_THAT(deliver(bench_, folder), IsEmpty());
    EXPECT_EQ(registered(), 1u);
    EXPECT_TRUE(fs::is_empty(waiting()));
}

TEST_F(DeliveryTest, DeliversAtTheNextStartWhatAKilledProgramLeft)
{
    expect_record(bench_, here_ / "r1");
    (void)record("r1"); // sealed, and the program is gone
    EXPECT_THAT(deliver(bench_), IsEmpty());
    EXPECT_THAT(deliver(bench_), IsEmpty());
    EXPECT_EQ(registered(), 1u);
}

TEST_F(DeliveryTest, SaysInOneLineThatTheRegisterIsOutOfReachAndDeliversLaterOnce)
{
    fs::create_directories(here_ / "keys");
    fs::create_directory(register_file(bench_)); // a folder stands where the register should
    expect_record(bench_, here_ / "r1");
    const auto folder = record("r1");
    EXPECT_THAT(deliver(bench_, folder), ElementsAre(HasSubstr("not registered yet")));
    EXPECT_THAT(deliver(bench_), SizeIs(1));
    fs::remove(register_file(bench_));
    EXPECT_THAT(deliver(bench_), IsEmpty());
    EXPECT_EQ(registered(), 1u);
}

TEST_F(DeliveryTest, RegistersARecordThatCouldNotBeNotedBefore)
{
    const auto folder = record("r1");
    EXPECT_THAT(deliver(bench_, folder), IsEmpty());
    EXPECT_EQ(registered(), 1u);
}

TEST_F(DeliveryTest, NamesARunThatWasNotedAndIsNotSealed)
{
    expect_record(bench_, here_ / "r1");
    EXPECT_THAT(unsigned_runs(register_file(bench_), {}), IsEmpty());
    const auto part = unfinished("r1");
    EXPECT_THAT(unsigned_runs(register_file(bench_), {}), ElementsAre(part.part()));
}

} // namespace
} // namespace zeroline::unit_register
