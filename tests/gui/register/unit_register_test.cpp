#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/addenda.hpp"
#include "gui/records/digest.hpp"
#include "gui/register/approved.hpp"
#include "gui/register/last_event.hpp"
#include "gui/register/released.hpp"
#include "gui/register/schema.hpp"
#include "gui/register/unit_standing.hpp"
#include "tests/gui/records/sealed_record.hpp"
#include "tests/gui/register/made_up_entry.hpp"
#include "tests/gui/register/register_place.hpp"

#include <gmock/gmock.h>

#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace zeroline::unit_register {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using trace::InputError;

class UnitRegisterTest : public records::SealedRecordTest {
protected:
    [[nodiscard]] UnitRegister opened() const { return UnitRegister::open(place_); }
    [[nodiscard]] Database raw() const { return Database::open(place_); }
    /// What only the owner of a file or a database can do.
    void take_triggers_away(const std::string& table) const
    {
        if (raw().is_on_server()) {
            raw().run("DROP TRIGGER " + table + "_keeps ON " + table);
            return;
        }
        raw().run("DROP TRIGGER " + table + "_keeps_UPDATE");
        raw().run("DROP TRIGGER " + table + "_keeps_DELETE");
    }
    /// What a check says of the rows; no folders stand behind them.
    static std::vector<std::string> of_rows(const UnitRegister& units)
    {
        auto lines = units.check().troubles;
        std::erase_if(lines, [](const auto& line) { return line.find("/records/") != std::string::npos; });
        return lines;
    }
    template <typename Work> static std::string refusal(Work work)
    {
        try {
            work();
        } catch (const InputError& error) {
            return error.what();
        }
        return "nothing was refused";
    }

    const records::SigningKey key_ = records::SigningKey::make();
    RegisterPlace place_{here_ / "data" / "register.db"};
};

TEST_F(UnitRegisterTest, KeepsWhatASealedRecordSaysAndOnlyOnce)
{
    const auto folder = record("r1");
    const auto units = opened();
    EXPECT_EQ(units.add(read_entry(folder), key_), Added::record);
    EXPECT_EQ(units.add(read_entry(folder), key_), Added::nothing);
    const auto history = units.history("RC-0117");
    ASSERT_THAT(history, SizeIs(1));
    EXPECT_EQ(history[0]["day"], "2026-11-25");
    EXPECT_EQ(history[0]["signer"], "Operator Three");
    EXPECT_EQ(history[0]["folder"], folder.string());
    EXPECT_TRUE(history[0]["procedure"].is_null());
    const auto saved = records::load_json(folder / "record.json");
    EXPECT_EQ(history[0]["verdict"], saved["verdict"].get<std::string>());
    EXPECT_EQ(units.figures_of("RC-0117").size(), saved["judgements"].size());
    EXPECT_EQ(units.figures_of("RC-0117")[0]["worst"], saved["judgements"][0]["worst"].get<double>());
    const auto checked = units.check();
    EXPECT_THAT(checked.troubles, IsEmpty());
    EXPECT_EQ(checked.records, 1u);
}

TEST_F(UnitRegisterTest, SaysWhatWasDoneToARecordAfterItWasRegistered)
{
    const auto units = opened();
    const auto folder = record("r1");
    records::Addendum addendum;
    addendum.kind = "review";
    addendum.signature = {"A. Lead", "lead", "review", "2026-11-26T10:00:00+01:00"};
    const auto place =
        records::add_addendum(folder, addendum, records::SigningKey::load_or_make(here_ / "keys" / "bench.key"));
    EXPECT_EQ(units.add(read_entry(folder), key_), Added::record);
    EXPECT_THAT(units.check().troubles, IsEmpty());
    EXPECT_EQ(units.history("RC-0117")[0]["signer"], "Operator Three, A. Lead (review)");
    // The last addendum, removed from the folder: the folder alone does not show it.
    fs::remove_all(place.parent_path().filename() == "addenda" ? place.parent_path() : place);
    EXPECT_THAT(units.check().troubles, ElementsAre(HasSubstr("addendum that was registered is gone")));
    fs::remove_all(folder);
    EXPECT_THAT(units.check().troubles, SizeIs(1));
}

TEST_F(UnitRegisterTest, ShowsASignatureThatIsNotInTheRecord)
{
    const auto units = opened();
    EXPECT_EQ(units.add(read_entry(record("r1")), key_), Added::record);
    EXPECT_THAT(units.check().troubles, IsEmpty());
    take_triggers_away("signature");
    raw().run("UPDATE signature SET signer = 'Somebody Else'");
    EXPECT_THAT(units.check().troubles,
                ElementsAre(HasSubstr("a signature of \"Somebody Else\" that is not in the record")));
}

TEST_F(UnitRegisterTest, RefusesAnotherRecordUnderANumberItKnows)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("n1"), key_), Added::record);
    auto other = made_up("n1");
    other.verification["manifest_sha256"] = "another";
    EXPECT_THAT(refusal([&] { (void)units.add(other, key_); }), HasSubstr("registered with another manifest"));
    EXPECT_THAT(units.history("RC-0117"), SizeIs(1));
}

TEST_F(UnitRegisterTest, LetsNoRowBeChangedOrRemoved)
{
    EXPECT_EQ(opened().add(made_up("n1"), key_), Added::record);
    for (const auto* statement :
         {"UPDATE verification SET verdict = 'fail'", "DELETE FROM verification", "UPDATE figure SET worst = 0",
          "DELETE FROM figure", "UPDATE event SET body = ''", "DELETE FROM event"})
        EXPECT_THAT(refusal([&] { raw().run(statement); }), HasSubstr("the register only grows")) << statement;
}

TEST_F(UnitRegisterTest, ShowsByItsChainWhatSomebodyChangedWithTheTriggersTakenAway)
{
    const auto units = opened();
    for (const auto* number : {"n1", "n2", "n3"})
        EXPECT_EQ(units.add(made_up(number), key_), Added::record);
    take_triggers_away("verification");
    raw().run("UPDATE verification SET next_due = '2030-01-01' WHERE record_number = 'n2'");
    EXPECT_THAT(of_rows(units), ElementsAre(HasSubstr("record n2: its row is not what was registered")));
    raw().run("UPDATE verification SET next_due = '2027-03-01' WHERE record_number = 'n2'");
    EXPECT_THAT(of_rows(units), IsEmpty());
    take_triggers_away("event");
    raw().run("DELETE FROM event WHERE record_number = 'n2'");
    EXPECT_THAT(of_rows(units), testing::Contains(HasSubstr("does not follow the event before")));
}

/// Each bench's events follow one another whatever the others write, and stand together in the chain of all.
TEST_F(UnitRegisterTest, ShowsAUnitsRowThatSaysSomethingElseThanItsRecords)
{
    const auto units = opened();
    (void)units.add(made_up("n1"), key_);
    for (const auto* change : {"next_due = '2030-01-01'", "state = 'no interval set'", "listed = 0",
                               "held_record = NULL", "verifications = 7", "words = 'rc-0117'"}) {
        raw().run(std::string("UPDATE unit SET ") + change);
        EXPECT_THAT(of_rows(units), ElementsAre(HasSubstr("unit RC-0117: its row is not what its")));
        keep_every_standing(raw());
        EXPECT_THAT(of_rows(units), IsEmpty()) << change;
    }
}

TEST_F(UnitRegisterTest, HasAChainOfItsOwnForEachBench)
{
    const auto units = opened();
    const auto other = records::SigningKey::make();
    EXPECT_EQ(units.add(made_up("a1"), key_), Added::record);
    EXPECT_EQ(units.add(made_up("b1"), other), Added::record);
    EXPECT_EQ(units.add(made_up("a2"), key_), Added::record);
    EXPECT_EQ(units.add(made_up("b2"), other), Added::record);
    EXPECT_THAT(units.check().troubles, testing::Each(HasSubstr("/records/")));
    const auto events = raw().run("SELECT sha256, own_before_sha256 FROM event ORDER BY number");
    EXPECT_EQ(events[1]["own_before_sha256"], "") << "its first";
    EXPECT_EQ(events[2]["own_before_sha256"], events[0]["sha256"]);
    EXPECT_EQ(events[3]["own_before_sha256"], events[1]["sha256"]);
    take_triggers_away("event");
    raw().run("DELETE FROM event WHERE number = 1");
    EXPECT_THAT(units.check().troubles,
                testing::IsSupersetOf({HasSubstr("event 2: does not follow the event before"),
                                       HasSubstr("event 3: does not follow the event that its bench wrote before")}));
}

TEST_F(UnitRegisterTest, ShowsAnEventThatWasMadeAnewWithoutTheBenchsKey)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("n1"), key_), Added::record);
    const auto whole = units.check();
    EXPECT_EQ(whole.signed_by, (std::map<std::string, std::size_t>{{key_.public_key(), 1}}));
    EXPECT_EQ(whole.unsigned_events, 0u);
    take_triggers_away("event");
    auto forged = raw().run("SELECT * FROM event")[0];
    forged["time"] = "2020-01-01T00:00:00+00:00";
    raw().run("UPDATE event SET time = ?, sha256 = ?", {forged["time"], event_sha256(forged)});
    EXPECT_THAT(units.check().troubles, testing::Contains(HasSubstr("event 1: its signature is not of its key")));
    forged["public_key"] = "";
    raw().run("UPDATE event SET public_key = '', signature = '', sha256 = ?", {event_sha256(forged)});
    EXPECT_EQ(units.check().unsigned_events, 1u) << "as an older program left it";
    EXPECT_EQ(units.add(made_up("n2"), key_), Added::record);
    raw().run("UPDATE event SET public_key = '', signature = '' WHERE number = 2");
    EXPECT_EQ(units.add(made_up("n3"), key_), Added::record);
    EXPECT_THAT(units.check().troubles, testing::Contains(HasSubstr("event 2: was changed")));
}

TEST_F(UnitRegisterTest, RemarksAClockThatRanBack)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("n1"), key_), Added::record);
    EXPECT_EQ(clock_that_ran_back(units, moment_now()), "");
    EXPECT_THAT(clock_that_ran_back(units, "2020-01-01T00:00:00+01:00"), HasSubstr("one of them is wrong"));
    take_triggers_away("event");
    raw().run("UPDATE event SET time = '2099-01-01T00:00:00+01:00'");
    EXPECT_EQ(units.add(made_up("n2"), key_), Added::record);
    EXPECT_THAT(units.check().remarks, ElementsAre(HasSubstr("event 2: written at ")));
}

TEST_F(UnitRegisterTest, MissesEventsThatTheBenchSawAndThatAreTakenOffTheEnd)
{
    const auto units = opened();
    const auto own = here_ / "keys" / "register.db";
    fs::create_directories(own.parent_path());
    EXPECT_EQ(units.add(made_up("n1"), key_), Added::record);
    EXPECT_EQ(lost_events(own, units), "") << "none was kept";
    EXPECT_EQ(units.add_units({{{"asset", "RC-9"}, {"serial", ""}, {"model", ""}}}, key_), 1u);
    remember_last_event(own, units);
    EXPECT_EQ(lost_events(own, units), "");
    take_triggers_away("event");
    raw().run("DELETE FROM event WHERE number = 2");
    EXPECT_THAT(units.check().troubles, testing::Each(HasSubstr("/records/"))) << "the chain alone does not show it";
    EXPECT_THAT(lost_events(own, units), HasSubstr("event 2, which this bench saw"));
}

TEST_F(UnitRegisterTest, ListsAUnitThatWasAddedByHandAsNeverChecked)
{
    const auto units = opened();
    const std::vector<Value> two{{{"asset", "RC-8"}, {"serial", "K8"}, {"model", "unit B"}},
                                 {{"asset", "RC-9"}, {"serial", ""}, {"model", ""}}};
    EXPECT_EQ(units.add_units(two, key_), 2u);
    EXPECT_EQ(units.add_units(two, key_), 0u);
    EXPECT_EQ(units.add(made_up("n8", "RC-8"), key_), Added::record);
    const auto due = units.due("2026-06-01", "2026-07-01");
    ASSERT_THAT(due, SizeIs(1));
    EXPECT_EQ(due[0]["asset"], "RC-9");
    EXPECT_EQ(due[0]["state"], "never checked here");
    EXPECT_EQ(units.unit("RC-9")["verifications"], 0);
    EXPECT_THAT(refusal([&] { (void)units.unit("RC-7"); }), HasSubstr("is no unit of this register"));
    EXPECT_THAT(refusal([&] { (void)units.add_units({{{"asset", ""}}}, key_); }), HasSubstr("no asset number"));
}

TEST_F(UnitRegisterTest, SaysThatARecordWasMadeByAnotherFileThanTheApprovedOnes)
{
    const auto units = opened();
    const auto entry = read_entry(record("r1"));
    EXPECT_THAT(not_approved(entry, units), IsEmpty()) << "none was ever approved";
    const auto demonstration = fs::path(ZEROLINE_SOURCE_DIR) / "fixtures" / "demonstration";
    for (const auto* name : {"instrument.json", "bench.json"}) {
        units.approve(approvable(demonstration / name), key_);
    }
    EXPECT_THAT(not_approved(entry, units), IsEmpty());
    auto other = entry;
    other.files["instrument.json"] = std::string(64, '0');
    EXPECT_THAT(not_approved(other, units), ElementsAre(HasSubstr("its instrument.json is not one that was approved")));
    EXPECT_THAT(units.approved(), SizeIs(2));
    EXPECT_THAT(refusal([&] { (void)approvable(demonstration / "order.json"); }), HasSubstr("work-order"));
}

TEST_F(UnitRegisterTest, HasOneRuleOfWhatReleasesAUnit)
{
    const auto units = opened();
    int number = 0;
    for (const auto* verdict : {"pass", "conditional-pass", "fail", "not-judged", "conditional-fail"})
        for (const auto* accuracy : {"pass", "conditional-pass", "not-judged", "fail"})
            for (const bool critical : {false, true}) {
                const auto name = std::to_string(++number);
                auto entry = made_up("n" + name, "u" + name);
                entry.verification.update(
                    {{"verdict", verdict}, {"unit_accuracy", accuracy}, {"critical", critical ? 1 : 0}});
                (void)units.add(entry, key_);
                const auto found =
                    raw().run("SELECT 1 FROM verification h WHERE h.record_number = ? AND " + released_in_sql("h"),
                              {entry.record_number()});
                EXPECT_EQ(!found.empty(), is_released(verdict, accuracy, critical)) << verdict << accuracy << critical;
            }
}

TEST_F(UnitRegisterTest, ClearsADueDateOnlyByWhatWasCapturedHere)
{
    const auto units = opened();
    auto here = made_up("a");
    here.verification["next_due"] = "2026-04-01";
    auto simulated = made_up("b", "RC-0117", "2026-05-01T09:00:00Z");
    simulated.verification["origin"] = "simulated";
    simulated.verification["next_due"] = nullptr;
    auto imported = made_up("c", "RC-0118");
    imported.verification["origin"] = "imported";
    imported.verification["next_due"] = nullptr;
    auto only_simulated = simulated;
    only_simulated = made_up("d", "RC-0119");
    only_simulated.verification["origin"] = "simulated";
    auto failed = made_up("e", "RC-0120");
    failed.verification["verdict"] = "fail";
    failed.verification["next_due"] = nullptr;
    auto later = made_up("f", "RC-0121");
    for (const auto& entry : {here, simulated, imported, only_simulated, failed, later})
        EXPECT_EQ(units.add(entry, key_), Added::record);
    const auto due = units.due("2026-06-01", "2026-07-01");
    ASSERT_THAT(due, SizeIs(3));
    EXPECT_EQ(due[0]["asset"], "RC-0120");
    EXPECT_EQ(due[0]["state"], "not released");
    EXPECT_EQ(due[1]["state"], "never checked here");
    EXPECT_EQ(due[2]["asset"], "RC-0117");
    EXPECT_EQ(due[2]["state"], "overdue");
    EXPECT_THAT(units.due("2026-06-01", "2027-03-01"), SizeIs(4));
}

TEST_F(UnitRegisterTest, ListsAUnitThatIsKeptOutOfUseFirstUntilItIsCheckedAgain)
{
    const auto units = opened();
    auto failed = made_up("a", "RC-0116");
    failed.verification["verdict"] = "fail";
    failed.verification["next_due"] = nullptr;
    auto kept_out = made_up("b"); // it passed, and is not due for long
    kept_out.kept_out = {{"reason", "cord is cut"}, {"loaner", "RC-0200"}};
    for (const auto& entry : {failed, kept_out})
        EXPECT_EQ(units.add(entry, key_), Added::record);
    const auto due = units.due("2026-06-01", "2026-07-01");
    ASSERT_THAT(due, SizeIs(2));
    EXPECT_EQ(due[0]["asset"], "RC-0117");
    EXPECT_EQ(due[0]["state"], "kept out of use");
    EXPECT_EQ(due[1]["state"], "not released");
    EXPECT_THAT(units.check().troubles, testing::Each(HasSubstr("No such file"))) << "the event says it too";
    EXPECT_EQ(units.add(made_up("c", "RC-0117", "2026-05-01T09:00:00Z"), key_), Added::record);
    EXPECT_THAT(units.due("2026-06-01", "2026-07-01"), SizeIs(1));
}

TEST_F(UnitRegisterTest, FindsEveryRecordAnInstrumentTouchedSinceADay)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("a", "RC-1", "2026-01-05T09:00:00Z"), key_), Added::record);
    EXPECT_EQ(units.add(made_up("b", "RC-2", "2026-02-05T09:00:00Z"), key_), Added::record);
    EXPECT_THAT(units.touched_by("PT-3310", ""), SizeIs(2));
    EXPECT_GT(units.touched_by("PT-3310", "")[0]["day"], units.touched_by("PT-3310", "")[1]["day"]) << "newest first";
    EXPECT_THAT(units.touched_by("bench transducer 2", "2026-02-01"), SizeIs(1));
    EXPECT_THAT(refusal([&] { (void)units.touched_by("PT-9", ""); }), HasSubstr("is no instrument of this register"));
}

TEST_F(UnitRegisterTest, GivesItsListsInPartsAndByWhatIsLookedFor)
{
    const auto units = opened();
    for (const auto* asset : {"RC-1", "RC-2", "RC-3", "50%_done!"})
        EXPECT_EQ(units.add(made_up(std::string("n") + asset, asset), key_), Added::record);
    const auto assets = [](const Rows& rows) {
        std::vector<std::string> all;
        for (const auto& row : rows)
            all.push_back(row["asset"]);
        return all;
    };
    EXPECT_THAT(assets(units.units({"rc-", 1, 2})), ElementsAre("RC-2", "RC-3"));
    EXPECT_THAT(assets(units.units({"%_D", 0})), ElementsAre("50%_done!")) << "a text, no pattern";
    EXPECT_THAT(units.units({"c-%"}), IsEmpty());
    EXPECT_THAT(units.units({"k44"}), SizeIs(4)) << "the serial number";
    EXPECT_THAT(assets(units.due("2027-06-01", "2027-07-01", {"RC", 2, 5})), ElementsAre("RC-3"));
    EXPECT_THAT(assets(units.units({"nrc-2"})), ElementsAre("RC-2")) << "the number of a record";
    auto ordered = made_up("n5", "RC-2", "2020-01-01T00:00:00Z");
    ordered.verification["work_order"] = "WO-77_b";
    EXPECT_EQ(units.add(ordered, key_), Added::record);
    EXPECT_THAT(assets(units.units({"wo-77_"})), ElementsAre("RC-2")) << "an order, of whichever visit";
    EXPECT_THAT(assets(units.due("2027-06-01", "2027-07-01", {"77_B"})), ElementsAre("RC-2"));
    EXPECT_THAT(units.units({"wo-778"}), IsEmpty());
    EXPECT_THAT(units.touched_by("PT-3310", "", {"o-77"}), SizeIs(1));
    ASSERT_THAT(units.instruments({"pt-33"}), SizeIs(1));
    EXPECT_EQ(units.instruments()[0]["verifications"], 5);
    EXPECT_THAT(units.instruments({"another"}), IsEmpty());
}

TEST_F(UnitRegisterTest, KnowsTheLastVerificationOfAUnitBeforeAMoment)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("a", "RC-1", "2026-01-05T09:00:00Z"), key_), Added::record);
    EXPECT_EQ(units.add(made_up("b", "RC-1", "2026-02-05T09:00:00Z"), key_), Added::record);
    auto simulated = made_up("c", "RC-1", "2026-03-05T09:00:00Z");
    simulated.verification["origin"] = "simulated";
    EXPECT_EQ(units.add(simulated, key_), Added::record);
    EXPECT_EQ(units.last_of("RC-1")[0]["record_number"], "c");
    EXPECT_EQ(units.last_of("RC-1", "captured-here")[0]["record_number"], "b");
    EXPECT_EQ(units.last_of("RC-1", {}, "2026-02-05T11:00:00+02:00")[0]["record_number"], "a") << "09:00 is no earlier";
    EXPECT_THAT(units.last_of("RC-1", {}, "2026-01-05T09:00:00Z"), IsEmpty());
    EXPECT_THAT(units.last_of("RC-9"), IsEmpty());
}

TEST_F(UnitRegisterTest, TakesTextAsTextWhateverStandsInIt)
{
    const auto units = opened();
    const std::vector<std::string> assets = {"'; DROP TABLE unit; --",
                                             "\" OR 1=1 --",
                                             "? ?1 :name $1",
                                             "=cmd|' /C calc'!A0",
                                             "\xd9\x88\xd8\xad\xd8\xaf\xd8\xa9 \xe2\x80\xae 17",
                                             "\xf0\x9f\xab\x81",
                                             std::string(10000, 'x')};
    for (const auto& asset : assets)
        EXPECT_EQ(units.add(made_up("n of " + asset, asset), key_), Added::record);
    for (const auto& asset : assets) {
        ASSERT_THAT(units.history(asset), SizeIs(1));
        EXPECT_EQ(units.history(asset)[0]["asset"], asset);
        ASSERT_THAT(units.units({asset}), SizeIs(1)) << "searched for";
        EXPECT_EQ(units.units({asset})[0]["asset"], asset);
        EXPECT_THAT(units.due("2027-06-01", "2027-07-01", {asset}), SizeIs(1));
    }
    EXPECT_THAT(units.units(), SizeIs(assets.size()));
}

TEST_F(UnitRegisterTest, WritesABackupThatIsARegisterAndOverwritesNothing)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("n1"), key_), Added::record);
    const auto copy = here_ / "it's a copy.db";
    units.backup(copy);
    EXPECT_THAT(UnitRegister::open(copy).history("RC-0117"), SizeIs(1));
    EXPECT_THAT(refusal([&] { units.backup(copy); }), HasSubstr("is there already"));
}

TEST_F(UnitRegisterTest, SaysThatAFileIsNoRegister)
{
    records::write_file_whole(here_ / "other.db", std::string(4096, 'z'));
    EXPECT_THAT(refusal([&] { (void)UnitRegister::open(here_ / "other.db"); }), HasSubstr("other.db"));
}

TEST_F(UnitRegisterTest, IsNotTouchedByAnOlderProgram)
{
    (void)opened();
    raw().run("INSERT INTO migration (number, time) VALUES (?, ?)", {99, "2026-01-01"});
    EXPECT_THAT(refusal([&] { (void)opened(); }), HasSubstr("has form 99 of a newer program"));
}

TEST_F(UnitRegisterTest, TellsARefusedRowFromADatabaseThatCannotBeUsedNow)
{
    const auto units = opened();
    auto wrong = made_up("n1");
    wrong.verification["origin"] = "elsewhere";
    EXPECT_THROW(
        try { (void)units.add(wrong, key_); } catch (const NotUsableNow&) { FAIL() << "it will never take that"; },
        InputError);
    EXPECT_THROW(raw().run("SELECT * FROM nothing"), NotUsableNow);
    EXPECT_THROW((void)UnitRegister::open("postgresql://zeroline@127.0.0.1:1/units"), NotUsableNow);
    EXPECT_THROW((void)UnitRegister::open(here_.path()), NotUsableNow) << "a folder";
}

TEST_F(UnitRegisterTest, RefusesInWordsATextThatNoDatabaseHolds)
{
    const auto units = opened();
    EXPECT_THAT(refusal([&] { (void)units.add(made_up(std::string("n\0 1", 4)), key_); }),
                HasSubstr("a NUL character"));
    EXPECT_THAT(units.units(), IsEmpty());
}

TEST_F(UnitRegisterTest, LosesAndDoublesNothingWhenSeveralWriteAtOnce)
{
    (void)opened();
    constexpr int kWriters = 4, kEach = 25;
    std::vector<std::thread> writers;
    for (int w = 0; w < kWriters; ++w)
        writers.emplace_back([&, w] {
            const auto units = opened();
            for (int i = 0; i < kEach; ++i)
                EXPECT_EQ(units.add(made_up(std::to_string(w) + "-" + std::to_string(i)), key_), Added::record);
        });
    for (auto& writer : writers)
        writer.join();
    const auto checked = opened().check();
    EXPECT_EQ(checked.records, static_cast<std::size_t>(kWriters * kEach));
    EXPECT_EQ(checked.events, static_cast<std::size_t>(kWriters * kEach));
    EXPECT_THAT(checked.troubles, testing::Each(HasSubstr("/records/"))); // no folder stands behind these
}

TEST_F(UnitRegisterTest, IsWholeAfterItsWriterWasKilledAtAnyMoment)
{
    (void)opened();
    for (int round = 0; round < 12; ++round) {
        const auto child = ::fork();
        ASSERT_GE(child, 0);
        if (child == 0) {
            const auto units = opened();
            for (int i = 0;; ++i)
                (void)units.add(made_up(std::to_string(round) + "-" + std::to_string(i)), key_);
        }
        const int until_it_writes_ms = test_server().empty() ? 40 : 400;
        std::this_thread::sleep_for(std::chrono::milliseconds(until_it_writes_ms + 17 * round));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        const auto checked = opened().check();
        EXPECT_EQ(checked.records, checked.events);
        EXPECT_THAT(checked.troubles, testing::Each(HasSubstr("/records/")));
    }
    EXPECT_GT(opened().check().records, 0u);
}

} // namespace
} // namespace zeroline::unit_register
