#include "gui/register/unit_register.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/addenda.hpp"
#include "gui/register/schema.hpp"
#include "tests/gui/records/sealed_record.hpp"

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

/// An entry that no folder stands behind.
Entry made_up(const std::string& number, const std::string& asset = "RC-0117",
              const std::string& began = "2026-03-01T09:00:00Z")
{
    Entry entry;
    entry.unit = {{"asset", asset}, {"serial", "K4417"}, {"model", "unit A"}};
    entry.instrument = {{"name", "bench transducer 2"},
                        {"serial", "PT-3310"},
                        {"certificate", "CAL-771"},
                        {"calibrated_on", "2026-01-01"},
                        {"calibration_due", "2027-01-01"}};
    entry.verification = {{"record_number", number},
                          {"asset", asset},
                          {"instrument_name", "bench transducer 2"},
                          {"instrument_serial", "PT-3310"},
                          {"work_order", "WO-1"},
                          {"occasion", "periodic"},
                          {"day", began.substr(0, 10)},
                          {"began_utc", began},
                          {"verdict", "pass"},
                          {"unit_accuracy", "pass"},
                          {"critical", 0},
                          {"origin", "captured-here"},
                          {"signer", "Operator Three"},
                          {"signed", "2026-03-01T09:10:00+00:00"},
                          {"signing_key", "aa"},
                          {"manifest_sha256", "m-" + number},
                          {"next_due", "2027-03-01"}};
    entry.figures.push_back({{"record_number", number},
                             {"place", 0},
                             {"measurand", "insufflation-pressure"},
                             {"preset", "day"},
                             {"compared_with", "prescribed"},
                             {"unit", "cmH2O"},
                             {"target", 40.0},
                             {"lower_limit", 38.0},
                             {"upper_limit", nullptr},
                             {"mean", 40.1},
                             {"mean_uncertainty", 0.2},
                             {"worst", 1.0 / 3.0},
                             {"worst_uncertainty", 0.3},
                             {"verdict", "pass"}});
    entry.folder = "/records/" + number;
    return entry;
}

class UnitRegisterTest : public records::SealedRecordTest {
protected:
    [[nodiscard]] fs::path file() const { return here_ / "data" / "register.db"; }
    [[nodiscard]] UnitRegister opened() const { return UnitRegister::open(file()); }
    [[nodiscard]] Database raw() const { return Database::open(file()); }
    template <typename Work> static std::string refusal(Work work)
    {
        try {
            work();
        } catch (const InputError& error) {
            return error.what();
        }
        return "nothing was refused";
    }
};

TEST_F(UnitRegisterTest, KeepsWhatASealedRecordSaysAndOnlyOnce)
{
    const auto folder = record("r1");
    const auto units = opened();
    EXPECT_EQ(units.add(read_entry(folder)), Added::record);
    EXPECT_EQ(units.add(read_entry(folder)), Added::nothing);
    const auto history = units.history("RC-0117");
    ASSERT_THAT(history, SizeIs(1));
    EXPECT_EQ(history[0]["day"], "2026-11-25");
    EXPECT_EQ(history[0]["signer"], "Operator Three");
    EXPECT_EQ(history[0]["folder"], folder.string());
    const auto saved = records::load_json(folder / "record.json");
    EXPECT_EQ(history[0]["verdict"], saved["verdict"]);
    EXPECT_EQ(units.figures_of("RC-0117").size(), saved["judgements"].size());
    EXPECT_EQ(units.figures_of("RC-0117")[0]["worst"], saved["judgements"][0]["worst"]);
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
    EXPECT_EQ(units.add(read_entry(folder)), Added::record);
    EXPECT_THAT(units.check().troubles, IsEmpty());
    // The last addendum, removed from the folder: the folder alone does not show it.
    fs::remove_all(place.parent_path().filename() == "addenda" ? place.parent_path() : place);
    EXPECT_THAT(units.check().troubles, ElementsAre(HasSubstr("addendum that was registered is gone")));
    fs::remove_all(folder);
    EXPECT_THAT(units.check().troubles, SizeIs(1));
}

TEST_F(UnitRegisterTest, RefusesAnotherRecordUnderANumberItKnows)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("n1")), Added::record);
    auto other = made_up("n1");
    other.verification["manifest_sha256"] = "another";
    EXPECT_THAT(refusal([&] { (void)units.add(other); }), HasSubstr("registered with another manifest"));
    EXPECT_THAT(units.history("RC-0117"), SizeIs(1));
}

TEST_F(UnitRegisterTest, LetsNoRowBeChangedOrRemoved)
{
    EXPECT_EQ(opened().add(made_up("n1")), Added::record);
    for (const auto* statement :
         {"UPDATE verification SET verdict = 'fail'", "DELETE FROM verification", "UPDATE figure SET worst = 0",
          "DELETE FROM figure", "UPDATE event SET body = ''", "DELETE FROM event"})
        EXPECT_THAT(refusal([&] { raw().run(statement); }), HasSubstr("the register only grows")) << statement;
}

TEST_F(UnitRegisterTest, ShowsByItsChainWhatSomebodyChangedWithTheTriggersTakenAway)
{
    const auto units = opened();
    for (const auto* number : {"n1", "n2", "n3"})
        EXPECT_EQ(units.add(made_up(number)), Added::record);
    const auto of_rows = [&] {
        auto troubles = units.check().troubles;
        std::erase_if(troubles, [](const auto& line) { return line.find("/records/") != std::string::npos; });
        return troubles;
    };
    EXPECT_THAT(of_rows(), IsEmpty());
    raw().run("DROP TRIGGER verification_keeps_UPDATE");
    raw().run("UPDATE verification SET next_due = '2030-01-01' WHERE record_number = 'n2'");
    EXPECT_THAT(of_rows(), ElementsAre(HasSubstr("record n2: its row is not what was registered")));
    raw().run("UPDATE verification SET next_due = '2027-03-01' WHERE record_number = 'n2'");
    EXPECT_THAT(of_rows(), IsEmpty());
    raw().run("DROP TRIGGER event_keeps_DELETE");
    raw().run("DELETE FROM event WHERE record_number = 'n2'");
    EXPECT_THAT(of_rows(), testing::Contains(HasSubstr("does not follow the event before")));
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
        EXPECT_EQ(units.add(entry), Added::record);
    const auto due = units.due("2026-06-01", "2026-07-01");
    ASSERT_THAT(due, SizeIs(3));
    EXPECT_EQ(due[0]["asset"], "RC-0120");
    EXPECT_EQ(due[0]["state"], "not released");
    EXPECT_EQ(due[1]["state"], "never checked here");
    EXPECT_EQ(due[2]["asset"], "RC-0117");
    EXPECT_EQ(due[2]["state"], "overdue");
    EXPECT_THAT(units.due("2026-06-01", "2027-03-01"), SizeIs(4));
}

TEST_F(UnitRegisterTest, FindsEveryRecordAnInstrumentTouchedSinceADay)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("a", "RC-1", "2026-01-05T09:00:00Z")), Added::record);
    EXPECT_EQ(units.add(made_up("b", "RC-2", "2026-02-05T09:00:00Z")), Added::record);
    EXPECT_THAT(units.touched_by("PT-3310", ""), SizeIs(2));
    EXPECT_THAT(units.touched_by("bench transducer 2", "2026-02-01"), SizeIs(1));
    EXPECT_THAT(refusal([&] { (void)units.touched_by("PT-9", ""); }), HasSubstr("is no instrument of this register"));
}

TEST_F(UnitRegisterTest, GivesItsListsInPartsAndByWhatIsLookedFor)
{
    const auto units = opened();
    for (const auto* asset : {"RC-1", "RC-2", "RC-3", "50%_done!"})
        EXPECT_EQ(units.add(made_up(std::string("n") + asset, asset)), Added::record);
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
    ASSERT_THAT(units.instruments({"pt-33"}), SizeIs(1));
    EXPECT_EQ(units.instruments()[0]["verifications"], 4);
    EXPECT_THAT(units.instruments({"another"}), IsEmpty());
}

TEST_F(UnitRegisterTest, KnowsTheLastVerificationOfAUnitBeforeAMoment)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("a", "RC-1", "2026-01-05T09:00:00Z")), Added::record);
    EXPECT_EQ(units.add(made_up("b", "RC-1", "2026-02-05T09:00:00Z")), Added::record);
    auto simulated = made_up("c", "RC-1", "2026-03-05T09:00:00Z");
    simulated.verification["origin"] = "simulated";
    EXPECT_EQ(units.add(simulated), Added::record);
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
        EXPECT_EQ(units.add(made_up("n of " + asset, asset)), Added::record);
    for (const auto& asset : assets) {
        ASSERT_THAT(units.history(asset), SizeIs(1));
        EXPECT_EQ(units.history(asset)[0]["asset"], asset);
    }
    EXPECT_THAT(units.units(), SizeIs(assets.size()));
}

TEST_F(UnitRegisterTest, WritesABackupThatIsARegisterAndOverwritesNothing)
{
    const auto units = opened();
    EXPECT_EQ(units.add(made_up("n1")), Added::record);
    const auto copy = here_ / "it's a copy.db";
    units.backup(copy);
    EXPECT_THAT(UnitRegister::open(copy).history("RC-0117"), SizeIs(1));
    EXPECT_THAT(refusal([&] { units.backup(copy); }), HasSubstr("is there already"));
}

TEST_F(UnitRegisterTest, SaysThatAFileIsNoRegisterOrOfANewerProgram)
{
    fs::create_directories(file().parent_path());
    records::write_file_whole(here_ / "other.db", std::string(4096, 'z'));
    EXPECT_THAT(refusal([&] { (void)UnitRegister::open(here_ / "other.db"); }), HasSubstr("other.db"));
    (void)opened();
    raw().run("INSERT INTO migration (number, time) VALUES (?, ?)", {99, "2026-01-01"});
    EXPECT_THAT(refusal([&] { (void)opened(); }), HasSubstr("has form 99 of a newer program"));
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
                EXPECT_EQ(units.add(made_up(std::to_string(w) + "-" + std::to_string(i))), Added::record);
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
                (void)units.add(made_up(std::to_string(round) + "-" + std::to_string(i)));
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(40 + 17 * round));
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
