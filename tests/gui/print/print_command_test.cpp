// `zeroline print` as a person types it.

#include "gui/records/bench_key.hpp"
#include "tests/gui/print/made_record.hpp"
#include "tests/gui/print/other_programs.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <sys/wait.h>

namespace zeroline::print {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;

struct Ended {
    int status = 0;
    std::string out, trouble;
};

class PrintCommand : public testing::Test {
protected:
    PrintCommand()
    {
        make_record(healthy(), here_ / "record");
        fs::create_directory(here_ / "desk");
    }

    /// Runs the command in the folder "desk", beside the record, without a display.
    Ended print(const std::string& words)
    {
        const auto command = "cd '" + (here_ / "desk").string() +
                             "' && env -u DISPLAY -u WAYLAND_DISPLAY XDG_DATA_HOME='" + (here_ / "share").string() +
                             "' XDG_CONFIG_HOME='" + (here_ / "none").string() + "' " ZEROLINE_PROGRAM " print " +
                             words + " >../out 2>../err </dev/null";
        const int status = std::system(command.c_str());
        return {WEXITSTATUS(status), output_of("cat '" + (here_ / "out").string() + "'"),
                output_of("cat '" + (here_ / "err").string() + "'")};
    }

    [[nodiscard]] std::ptrdiff_t files_on_desk() const
    {
        return std::distance(fs::directory_iterator(here_ / "desk"), fs::directory_iterator());
    }

    TemporaryFolder here_;
};

TEST_F(PrintCommand, writes_into_the_current_folder_and_names_the_file)
{
    const auto ended = print("../record/");
    EXPECT_EQ(ended.status, 0);
    EXPECT_EQ(ended.out, "record-record.pdf\n");
    EXPECT_EQ(ended.trouble, "");
    EXPECT_EQ(pages_of(here_ / "desk/record-record.pdf"), 1);
}

TEST_F(PrintCommand, gives_the_same_bytes_in_every_process)
{
    for (const auto* name : {"1.pdf", "2.pdf", "3.pdf"}) {
        EXPECT_EQ(print(std::string("../record --out ") + name).status, 0);
    }
    const auto desk = (here_ / "desk").string();
    EXPECT_THAT(output_of("cd '" + desk + "' && cmp 1.pdf 2.pdf && cmp 1.pdf 3.pdf && echo same"), HasSubstr("same"));
}

TEST_F(PrintCommand, overwrites_nothing)
{
    std::ofstream(here_ / "desk/mine.pdf") << "mine";
    const auto ended = print("../record --out mine.pdf");
    EXPECT_EQ(ended.status, 2);
    EXPECT_THAT(ended.trouble, HasSubstr("is there already"));
    EXPECT_EQ(fs::file_size(here_ / "desk/mine.pdf"), 4u);
}

TEST_F(PrintCommand, adds_nothing_to_a_record)
{
    const auto ended = print("../record --out ../record/page.pdf");
    EXPECT_EQ(ended.status, 2);
    EXPECT_THAT(ended.trouble, HasSubstr("lies inside a record folder"));
    EXPECT_FALSE(fs::exists(here_ / "record/page.pdf"));
}

TEST_F(PrintCommand, refuses_what_it_does_not_know_with_one_line)
{
    for (const auto* words : {"../record --what poster", "../record --paper a3", "../nowhere", "../record --what"}) {
        const auto ended = print(words);
        EXPECT_EQ(ended.status, 2) << words;
        EXPECT_EQ(std::count(ended.trouble.begin(), ended.trouble.end(), '\n'), 1) << ended.trouble;
    }
    EXPECT_EQ(files_on_desk(), 0);
}

TEST_F(PrintCommand, says_why_a_record_allows_no_label)
{
    auto made = healthy();
    made.run["origin"] = "simulated";
    make_record(made, here_ / "simulated");
    const auto ended = print("../simulated --what label");
    EXPECT_EQ(ended.status, 2);
    EXPECT_THAT(ended.trouble, AllOf(HasSubstr("allows no label"), HasSubstr("simulated")));
    EXPECT_EQ(files_on_desk(), 0);
    EXPECT_THAT(print("../record --what label").trouble, HasSubstr("allows no label")) << "nobody sealed it";
    const auto key = here_ / "share/zeroline/bench.key";
    fs::create_directories(key.parent_path());
    seal_record(healthy(), here_ / "sealed", key);
    static_cast<void>(records::public_list(key, "workshop of the tests"));
    EXPECT_EQ(print("../sealed --what label").status, 0);
    EXPECT_EQ(print("../record --what home --language de").status, 0);
    EXPECT_EQ(files_on_desk(), 2);
}

} // namespace
} // namespace zeroline::print
