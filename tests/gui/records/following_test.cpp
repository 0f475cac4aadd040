// Records that follow one another: as found and as left, attempts, the same trace calculated again.

#include "gui/records/attempts.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/sources.hpp"
#include "tests/gui/records/sealed_record.hpp"

#include <gmock/gmock.h>

namespace zeroline::records {
namespace {

using nlohmann::ordered_json;
using testing::HasSubstr;
using testing::IsEmpty;
using verification::Replaces;
namespace fs = std::filesystem;

class FollowingTest : public SealedRecordTest {
protected:
    /// A new run of the same order and unit, as `verify` and the window begin one.
    [[nodiscard]] RecordFolder begun(const std::string& name, const std::optional<AsFound>& as_found = {},
                                     const std::optional<Replaces>& replaces = {}) const
    {
        KeptAttempt one;
        one.folder = here_ / name;
        one.work_order = "WO-2041";
        one.asset = "RC-0117";
        const auto before = attempts_before(one, as_found, nullptr);
        auto part = unfinished(name);
        put_followed(part, before, as_found, replaces);
        auto run = ordered_json::parse(read_file(part.file(name::run)));
        run["attempt"] = before.empty() ? 1 : before.back().attempt.number + 1;
        if (replaces) {
            run["replaces"] = {
                {"attempt", replaces->attempt}, {"cause", replaces->cause}, {"evidence", replaces->evidence}};
        }
        part.put(name::run, run.dump(2) + "\n");
        return part;
    }

    /// The exsufflation that the unit should have given: another one than it does, so that it fails.
    static void make_fail(const RecordFolder& part)
    {
        auto order = ordered_json::parse(read_file(part.file(name::order)));
        order["prescription"]["presets"][0]["exsufflation"]["pressure"] = -48;
        part.put(name::order, order.dump(2) + "\n");
    }

    [[nodiscard]] fs::path found() const
    {
        const auto part = begun("found");
        make_fail(part);
        return sealed(part, request()).folder;
    }

    [[nodiscard]] static ordered_json tree_of(const fs::path& folder)
    {
        return ordered_json::parse(read_file(folder / name::record));
    }
};

TEST_F(FollowingTest, found_left_and_tried_again_are_one_record_in_the_end)
{
    const AsFound as_found{found(), "intake filter replaced"};
    const auto first = begun("left", as_found);
    make_fail(first);
    const auto left = sealed(first, request()).folder;
    EXPECT_EQ(tree_of(left)["attempt"], 1) << "the run as found is no attempt as left";
    const auto again = sealed(begun("again", {}, Replaces{1, "plug", "it leaked"}), request()).folder;
    EXPECT_EQ(tree_of(again)["attempt"], 2) << "after a repair an attempt is one as left, said or not";
    EXPECT_EQ(tree_of(again)["issue"]["earlier"]["relation"], "attempt");
    EXPECT_EQ(tree_of(again)["issue"]["earlier"]["reason"], "plug: it leaked");
    EXPECT_EQ(tree_of(again / name::attempt_before), tree_of(left));
    EXPECT_EQ(tree_of(again / name::attempt_before / name::as_found), tree_of(as_found.folder));
    const auto checked = recheck(again);
    EXPECT_TRUE(checked.intact()) << testing::PrintToString(checked.folder.troubles)
                                  << testing::PrintToString(checked.differences);

    EXPECT_EQ(why_not_standing(again, nullptr), "");
    EXPECT_THAT(why_not_standing(left, nullptr),
                HasSubstr("Attempt 2 stands: pass; attempt 1 is replaced by attempt 2 (plug"));
    EXPECT_THAT(why_not_standing(as_found.folder, nullptr), HasSubstr("as found; as left: "));
    fs::remove_all(left);
    fs::remove_all(as_found.folder);
    EXPECT_EQ(why_not_standing(again, nullptr), "") << "what it holds says the same";
}

TEST_F(FollowingTest, a_pass_after_a_fail_without_a_cause_does_not_stand_wherever_the_fail_lies)
{
    const auto fail = found();
    const auto pass = sealed(begun("second"), request()).folder;
    EXPECT_EQ(tree_of(pass)["verdict"], "pass");
    EXPECT_THAT(why_not_standing(pass, nullptr), HasSubstr("Attempt 1 stands: fail"));
    EXPECT_EQ(why_not_standing(fail, nullptr), "");
    fs::remove_all(fail);
    EXPECT_THAT(why_not_standing(pass, nullptr), HasSubstr("Attempt 1 stands: fail")) << "it is held inside";
}

TEST_F(FollowingTest, files_that_anybody_can_put_beside_a_record_decide_nothing_and_are_listed)
{
    const auto pass = record("pass");
    const auto known = KeyList::parse(key_line(SigningKey::load(request().key_file), "bench of the tests"));
    fs::create_directory(here_ / "forged");
    for (const auto& file : {name::order, name::run, name::record}) {
        fs::copy_file(pass / file, here_ / "forged" / file);
    }
    auto tree = tree_of(here_ / "forged");
    tree["verdict"] = "fail";
    write_file_whole(here_ / "forged" / name::record, tree.dump());
    // A stranger's record, whole in itself, that says it is the same unit as left.
    auto strangers = request();
    strangers.key_file = here_ / "stranger.key";
    auto left = unfinished("left");
    make_fail(left);
    put_as_found(left, pass, "nothing at all");
    const auto strange = sealed(left, strangers).folder;
    EXPECT_EQ(why_not_standing(pass, &known), "");
    EXPECT_THAT(why_not_standing(pass, nullptr), HasSubstr("as left: ")) << "where every key is known";
    const auto listed = attempts_beside(*kept_attempt(pass), &known);
    ASSERT_EQ(listed.size(), 3u);
    EXPECT_EQ(listed[0].manifest_sha256, kept_attempt(pass)->manifest_sha256) << "found once, beside or inside another";
    EXPECT_EQ(listed[0].counts, Counts::proven);
    EXPECT_EQ(listed[1].counts, Counts::not_at_all);
    EXPECT_EQ(listed[1].why_not, "never sealed, and without a capture journal");
    EXPECT_EQ(listed[2].why_not, "its key is not known here");
    EXPECT_EQ(listed[2].folder, strange);
}

TEST_F(FollowingTest, a_sealed_record_that_was_changed_decides_nothing)
{
    const auto pass = record("pass");
    const auto other = sealed(begun("second"), request()).folder;
    auto tree = tree_of(other);
    tree["verdict"] = "fail";
    write_file_whole(other / name::record, tree.dump());
    EXPECT_EQ(why_not_standing(pass, nullptr), "");
}

TEST_F(FollowingTest, a_record_that_is_calculated_again_and_one_of_the_same_second_have_numbers_of_their_own)
{
    const auto first = record("first");
    const auto second = record("second");
    const auto part = begin_from_record(here_ / "again", first, first / name::instrument, "certificate arrived later",
                                        [&] { return SigningKey::load(request().key_file); });
    const auto again = sealed(part, request()).folder;
    const auto number = [](const fs::path& folder) { return tree_of(folder)["issue"]["record_number"].dump(); };
    EXPECT_NE(number(first), number(second));
    EXPECT_NE(number(first), number(again));
}

TEST_F(FollowingTest, an_attempt_that_was_not_sealed_is_counted_but_not_held)
{
    const auto unsealed = begun("first");
    journal(unsealed, SigningKey::load_or_make(request().key_file));
    const auto second = begun("second");
    EXPECT_FALSE(fs::exists(second.file(name::earlier)));
    EXPECT_EQ(ordered_json::parse(read_file(second.file(name::run)))["attempt"], 2);
}

TEST_F(FollowingTest, an_unsealed_attempt_as_left_hands_the_record_as_found_on)
{
    const AsFound as_found{found(), "intake filter replaced"};
    journal(begun("left", as_found), SigningKey::load_or_make(request().key_file));
    const auto again = sealed(begun("again"), request()).folder;
    EXPECT_EQ(tree_of(again)["issue"]["earlier"]["relation"], "as-found");
    EXPECT_EQ(tree_of(again)["issue"]["earlier"]["reason"], "intake filter replaced");
    EXPECT_TRUE(recheck(again).intact());
}

TEST_F(FollowingTest, a_record_that_was_calculated_again_stands_no_more)
{
    const auto first = record("first");
    const auto part = begin_from_record(here_ / "again", first, first / name::instrument, "certificate arrived later",
                                        [&] { return SigningKey::load(request().key_file); });
    const auto again = sealed(part, request()).folder;
    EXPECT_THAT(why_not_standing(first, nullptr), HasSubstr("calculated again: " + again.string()));
    EXPECT_EQ(why_not_standing(again, nullptr), "");
}

TEST_F(FollowingTest, what_is_wrong_in_a_held_record_is_named_with_its_place)
{
    const AsFound as_found{found(), "intake filter replaced"};
    const auto left = sealed(begun("left", as_found), request()).folder;
    ASSERT_TRUE(recheck(left).intact());
    // Sealed by the right key, but its trace does not give that result.
    auto tree = tree_of(left / name::as_found);
    tree["judgements"][0]["mean"] = 41.5;
    write_file_whole(left / name::as_found / name::record, tree.dump(2) + "\n");
    const auto checked = recheck(left);
    EXPECT_THAT(checked.differences, testing::Contains(HasSubstr("as-found/judgements/0/mean: saved 41.5")));
    EXPECT_THAT(checked.folder.troubles, testing::Contains(HasSubstr("as-found/record.json: is not the file")));
}

/// A copy of the evidence that is cut off: the FOLDER.part says where the rest is.
TEST_F(FollowingTest, evidence_that_was_half_copied_is_fetched_again)
{
    const auto from = unfinished("from");
    const EvidenceFiles files{from.file(name::order), from.file(name::trace), from.file(name::instrument),
                              from.file(name::run), from.file(name::bench)};
    const auto whole = begin_from_files(here_ / "whole", files, load_evidence(files));
    EXPECT_FALSE(fs::exists(whole.file("sources.json")));
    std::string sources;
    try {
        static_cast<void>(RecordFolder::begin_with(here_ / "stopped", "x", [&](const RecordFolder& part) {
            sources = read_file(part.file("sources.json"));
            throw trace::InputError("disk", "full", "room");
        }));
    } catch (const trace::InputError&) {
        EXPECT_EQ(sources, "x");
    }
    EXPECT_FALSE(fs::exists(here_ / "stopped.part")) << "a copy that fails leaves nothing";
    const auto half = RecordFolder::begin(here_ / "half");
    half.put(name::order, read_file(files.order));
    half.put("sources.json", ordered_json{{"schema", "zeroline/sources/1"},
                                          {"order", files.order.string()},
                                          {"trace", files.trace.string()},
                                          {"run", files.run->string()}}
                                 .dump());
    const auto nobody = [&]() -> SigningKey { throw trace::InputError("key", "asked for", "no need of it"); };
    fill_from_sources(half, nobody);
    EXPECT_EQ(read_file(half.file(name::trace)), read_file(files.trace));
    EXPECT_TRUE(fs::exists(half.file(name::run)));
    EXPECT_FALSE(fs::exists(half.file("sources.json")));
    fill_from_sources(half, nobody); // nothing left to do
}

} // namespace
} // namespace zeroline::records
