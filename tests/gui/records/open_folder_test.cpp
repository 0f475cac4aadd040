#include "gui/records/open_folder.hpp"

#include "gui/records/earlier.hpp"
#include "gui/records/recheck.hpp"
#include "tests/gui/records/sealed_record.hpp"
#include "tests/gui/records/trouble.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <sys/stat.h>

namespace zeroline::records {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
namespace fs = std::filesystem;

class OpenFolderTest : public SealedRecordTest {
protected:
    void write(const std::string& name, const std::string& text) const
    {
        fs::create_directories((here_ / name).parent_path());
        std::ofstream(here_ / name, std::ios::binary) << text;
    }
};

TEST_F(OpenFolderTest, reads_what_stands_in_it_whatever_becomes_of_its_name)
{
    write("a/inner/file", "first");
    const auto folder = OpenFolder::at(here_ / "a");
    fs::rename(here_ / "a", here_ / "b");
    write("a/inner/file", "another");
    EXPECT_EQ(folder.read("inner/file"), "first");
    EXPECT_EQ(folder.folder("inner").read("file"), "first");
    EXPECT_THAT(folder.names(), ElementsAre("inner"));
}

TEST_F(OpenFolderTest, follows_nothing_and_reads_nothing_but_regular_files)
{
    write("outside/file", "secret");
    fs::create_directory(here_ / "a");
    fs::create_symlink(here_ / "outside" / "file", here_ / "a" / "link");
    fs::create_directory_symlink(here_ / "outside", here_ / "a" / "inner");
    fs::create_directory(here_ / "a" / "folder");
    ASSERT_EQ(::mkfifo((here_ / "a" / "pipe").c_str(), 0600), 0);
    const auto folder = OpenFolder::at(here_ / "a");
    for (const auto& [name, said] : {std::pair("link", "is a link"), std::pair("pipe", "is a pipe"),
                                     std::pair("folder", "is a folder"), std::pair("inner/file", "is no folder"),
                                     std::pair("../outside/file", "is no folder"), std::pair("none", "No such file")}) {
        const auto text = trouble([&, name = name] { static_cast<void>(folder.read(name)); });
        EXPECT_THAT(text, HasSubstr(said)) << name;
        EXPECT_THAT(text, HasSubstr(name));
    }
    EXPECT_THAT(trouble([&] { static_cast<void>(folder.folder("inner")); }), HasSubstr("is no folder"));
}

TEST_F(OpenFolderTest, a_pipe_that_a_person_names_is_not_waited_for)
{
    ASSERT_EQ(::mkfifo((here_ / "order.json").c_str(), 0600), 0);
    EXPECT_THAT(trouble([&] { static_cast<void>(load_work_order(here_ / "order.json")); }), HasSubstr("is a pipe"));
}

TEST_F(OpenFolderTest, a_link_that_a_person_names_is_followed)
{
    write("order.json", "{}");
    fs::create_symlink("order.json", here_ / "link.json");
    EXPECT_EQ(read_file(here_ / "link.json"), "{}");
}

TEST_F(OpenFolderTest, a_link_laid_where_a_file_is_written_is_replaced_and_what_it_leads_to_stays)
{
    const auto part = unfinished("r1");
    write("victim", "precious");
    fs::create_symlink(here_ / "victim", part.part() / "record.json");
    fs::create_symlink(here_ / "victim", part.part() / "record.json.new");
    fs::create_symlink(here_ / "victim", part.part() / "order.json.new");
    put_text(part, name::order, "customer", "ward 7", SigningKey::load_or_make(request().key_file));
    const auto folder = sealed(part, request()).folder;
    EXPECT_EQ(read_file(here_ / "victim"), "precious");
    EXPECT_TRUE(recheck(folder).intact());
    EXPECT_TRUE(fs::is_regular_file(fs::symlink_status(folder / name::record)));
}

TEST_F(OpenFolderTest, a_pipe_in_a_record_keeps_no_recheck_waiting_and_is_named)
{
    const auto folder = record("r1");
    for (const auto& file : {name::trace, name::record, name::manifest, name::seal, name::order}) {
        const auto text = read_file(folder / file);
        fs::remove(folder / file);
        ASSERT_EQ(::mkfifo((folder / file).c_str(), 0600), 0);
        EXPECT_THAT(recheck(folder).folder.troubles, Contains(HasSubstr(file))) << file;
        fs::remove(folder / file);
        std::ofstream(folder / file, std::ios::binary) << text;
    }
    EXPECT_TRUE(recheck(folder).intact());
}

TEST_F(OpenFolderTest, a_record_that_holds_a_link_is_not_put_into_another)
{
    const auto found = record("found");
    fs::rename(found / name::trace, here_ / "trace.csv");
    fs::create_symlink(here_ / "trace.csv", found / name::trace);
    const auto left = unfinished("left");
    EXPECT_THAT(trouble([&] { put_as_found(left, found, "filter replaced"); }), HasSubstr("is no intact record"));
}

} // namespace
} // namespace zeroline::records
