#include "gui/records/record_folder.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/folder_hold.hpp"
#include "gui/records/json_file.hpp"
#include "tests/gui/records/trouble.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <sys/stat.h>

namespace {

using namespace zeroline;
using records::RecordFolder;
using records::trouble;
using testing::HasSubstr;
namespace fs = std::filesystem;

class RecordFolderTest : public testing::Test {
protected:
    TemporaryFolder here_;
};

TEST_F(RecordFolderTest, everything_is_written_beside_and_appears_with_one_rename)
{
    const auto record = RecordFolder::begin(here_ / "r1");
    record.put("order.json", "{}\n");
    EXPECT_FALSE(fs::exists(here_ / "r1"));
    EXPECT_TRUE(fs::exists(here_ / "r1.part" / "order.json"));
    record.finish();
    EXPECT_FALSE(fs::exists(here_ / "r1.part"));
    EXPECT_EQ(records::read_file(here_ / "r1" / "order.json"), "{}\n");
}

TEST_F(RecordFolderTest, a_folder_that_is_there_is_refused_and_not_touched)
{
    fs::create_directory(here_ / "r1");
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r1")); }), HasSubstr("is there already"));
    EXPECT_TRUE(fs::is_empty(here_ / "r1"));
    EXPECT_FALSE(fs::exists(here_ / "r1.part"));
}

TEST_F(RecordFolderTest, a_file_or_a_dangling_link_of_that_name_is_refused_too)
{
    std::ofstream(here_ / "file") << "x";
    fs::create_symlink(here_ / "nowhere", here_ / "link");
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "file")); }),
                HasSubstr("is there already"));
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "link")); }),
                HasSubstr("is there already"));
}

TEST_F(RecordFolderTest, a_part_without_a_reading_does_not_block_its_name)
{
    const std::string header = "arrival_s,pressure_cmH2O,note\n";
    for (const auto& trace : {std::string(), header}) {
        RecordFolder::begin(here_ / "r1").put("order.json", "{}\n");
        std::ofstream(here_ / "r1.part" / "trace.csv") << trace;
        const auto again = RecordFolder::begin(here_ / "r1");
        EXPECT_TRUE(fs::is_empty(again.part())) << trace;
        again.discard();
    }
}

TEST_F(RecordFolderTest, a_part_with_one_reading_or_with_a_file_of_somebodys_own_is_kept)
{
    const std::string row = "arrival_s,pressure_cmH2O,note\n0.01,1.5,\n";
    RecordFolder::begin(here_ / "r1").put("trace.csv", row);
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r1")); }), HasSubstr("was left there"));
    EXPECT_EQ(records::read_file(here_ / "r1.part" / "trace.csv"), row);
    RecordFolder::begin(here_ / "r2").put("notes.txt", "mine");
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r2")); }), HasSubstr("was left there"));
    EXPECT_EQ(records::read_file(here_ / "r2.part" / "notes.txt"), "mine");
}

TEST_F(RecordFolderTest, a_left_part_is_kept_and_named)
{
    RecordFolder::begin(here_ / "r1").put("trace.csv", "rows");
    const auto text = trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "r1")); });
    EXPECT_THAT(text, HasSubstr((here_ / "r1.part").string()));
    EXPECT_THAT(text, HasSubstr("assess"));
    EXPECT_EQ(records::read_file(here_ / "r1.part" / "trace.csv"), "rows");
}

TEST_F(RecordFolderTest, a_left_part_can_be_taken_up_and_finished)
{
    static_cast<void>(RecordFolder::begin(here_ / "r1"));
    const auto record = RecordFolder::take_up(here_ / "r1.part/");
    record.put("record.json", "{}");
    record.finish();
    EXPECT_TRUE(fs::exists(here_ / "r1" / "record.json"));
}

TEST_F(RecordFolderTest, a_folder_that_appears_meanwhile_is_not_replaced)
{
    const auto record = RecordFolder::begin(here_ / "r1");
    fs::create_directory(here_ / "r1");
    EXPECT_THAT(trouble([&] { record.finish(); }), HasSubstr("is there already"));
    EXPECT_TRUE(fs::exists(here_ / "r1.part"));
}

TEST_F(RecordFolderTest, what_a_save_left_that_was_killed_before_its_part_appeared_is_cleared_away)
{
    fs::create_directory(here_ / "r1.part.0123456789abcdef.new");
    std::ofstream(here_ / "r1.part.0123456789abcdef.new" / "sources.json") << "{}";
    fs::create_directory(here_ / "r1.part.fedcba9876543210.new");
    fs::create_directory(here_ / "r2.part.0123456789abcdef.new");
    const records::FolderHold at_work(here_ / "r1.part.fedcba9876543210.new");
    static_cast<void>(RecordFolder::begin_with(here_ / "r1", "{}", [](const RecordFolder&) {}));
    EXPECT_FALSE(fs::exists(here_ / "r1.part.0123456789abcdef.new"));
    EXPECT_TRUE(fs::exists(here_ / "r1.part.fedcba9876543210.new")) << "another program's";
    EXPECT_TRUE(fs::exists(here_ / "r2.part.0123456789abcdef.new")) << "another record's";
}

TEST_F(RecordFolderTest, a_trailing_slash_names_the_same_record)
{
    const auto record = RecordFolder::begin((here_ / "r1").string() + "/");
    EXPECT_EQ(record.folder(), here_ / "r1");
    EXPECT_EQ(record.part(), here_ / "r1.part");
}

TEST_F(RecordFolderTest, names_that_cannot_be_a_record_are_refused)
{
    for (const auto* name : {"", ".", "..", "r1.part"}) {
        EXPECT_NE(trouble([&] { static_cast<void>(RecordFolder::begin(name)); }), "no trouble") << name;
    }
}

TEST_F(RecordFolderTest, a_place_that_is_not_there_is_named)
{
    EXPECT_THAT(trouble([&] { static_cast<void>(RecordFolder::begin(here_ / "no" / "r1")); }),
                HasSubstr("No such file or directory"));
}

TEST_F(RecordFolderTest, discarding_leaves_nothing)
{
    const auto record = RecordFolder::begin(here_ / "r1");
    record.put("order.json", "{}");
    record.discard();
    EXPECT_TRUE(fs::is_empty(here_.path()));
}

TEST_F(RecordFolderTest, a_file_that_cannot_be_replaced_keeps_its_old_content_and_no_neighbour_is_left)
{
    fs::create_directory(here_ / "taken");
    EXPECT_NE(trouble([&] { records::write_file_whole(here_ / "taken", "text"); }), "no trouble");
    EXPECT_EQ(std::distance(fs::directory_iterator(here_.path()), {}), 1);
}

} // namespace
