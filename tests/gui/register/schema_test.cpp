#include "gui/register/schema.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/unit_register.hpp"
#include "tests/gui/register/made_up_entry.hpp"
#include "tests/gui/register/register_place.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

namespace zeroline::unit_register {
namespace {

using testing::Each;
using testing::HasSubstr;
using testing::SizeIs;

/// A register as a program of an older form left it: a verification and its event, written as that program did.
class OldRegister : public testing::TestWithParam<std::size_t> {
protected:
    void write_as_the_old_program() const
    {
        const auto old = Database::open(place_);
        migrate(old, "2025-01-01T00:00:00+01:00", GetParam());
        old.insert("unit", entry_.unit);
        old.insert("instrument", entry_.instrument);
        old.insert("verification", entry_.verification);
        old.insert("figure", entry_.figures[0]);
        old.insert("event", event());
        old.insert("folder", {{"record_number", "n1"}, {"path", "/records/n1"}});
    }
    [[nodiscard]] Value event() const
    {
        Rows event{{"number", 1},
                   {"time", "2025-01-02T00:00:00+01:00"},
                   {"kind", "record"},
                   {"record_number", "n1"},
                   {"body", Value{{"verification", entry_.verification}, {"figures", entry_.figures}}.dump()},
                   {"before_sha256", ""}};
        if (is_signed())
            event["public_key"] = records::base64(key_.public_key());
        const auto sha256 = records::sha256(Value(event).dump());
        event["sha256"] = sha256;
        if (is_signed())
            event["signature"] = records::base64(key_.sign(sha256));
        return Value(event);
    }
    /// From the second form on.
    [[nodiscard]] static bool is_signed() { return GetParam() > 1; }

    const Entry entry_ = made_up("n1");
    const records::SigningKey key_ = records::SigningKey::make();
    TemporaryFolder here_;
    RegisterPlace place_{here_ / "register.db"};
};

TEST_P(OldRegister, IsBroughtToThisFormWithAllItHoldsAndGoesOn)
{
    write_as_the_old_program();
    const auto units = UnitRegister::open(place_);
    EXPECT_EQ(units.add(made_up("n2"), key_), Added::record);
    const auto checked = units.check();
    EXPECT_THAT(checked.troubles, SizeIs(2));
    EXPECT_THAT(checked.troubles, Each(HasSubstr("/records/"))) << "no folder stands behind these two";
    EXPECT_EQ(checked.unsigned_events, is_signed() ? 0u : 1u);
    EXPECT_EQ(checked.events, 2u);
    EXPECT_THAT(units.history("RC-0117"), SizeIs(2));
    EXPECT_THAT(units.figures_of("RC-0117"), SizeIs(2));
    EXPECT_THAT(units.instruments(), SizeIs(1));
    EXPECT_THAT(units.due("2027-06-01", "2027-07-01"), SizeIs(1));
    const auto raw = Database::open(place_);
    for (const auto* table : {"verification", "figure", "event"})
        EXPECT_THROW(raw.run(std::string("DELETE FROM ") + table), trace::InputError) << table;
    const auto events = raw.run("SELECT sha256, own_before_sha256 FROM event ORDER BY number");
    EXPECT_TRUE(events[0]["own_before_sha256"].is_null()) << "an event stays as it was signed";
    EXPECT_EQ(events[1]["own_before_sha256"], is_signed() ? events[0]["sha256"] : Rows("")) << "its bench goes on";
    EXPECT_EQ(raw.run("SELECT number FROM migration ORDER BY number").size(), newest_form());
}

INSTANTIATE_TEST_SUITE_P(EveryForm, OldRegister, testing::Range(std::size_t{1}, newest_form()));

} // namespace
} // namespace zeroline::unit_register
