#include "gui/console/asked_file.hpp"

#include <gmock/gmock.h>

namespace {

using namespace zeroline::console;
using testing::ElementsAre;
using testing::IsEmpty;
using Kind = zeroline::virtual_bench::Action::Kind;
namespace fs = std::filesystem;

class AskedFileTest : public testing::Test {
protected:
    AskedFileTest()
        : file_(asked_file(fs::path(testing::TempDir()) /
                           (std::string(testing::UnitTest::GetInstance()->current_test_info()->name()) + ".json")))
    {
        fs::remove(file_);
    }
    ~AskedFileTest() override { fs::remove(file_); }

    fs::path file_;
};

TEST_F(AskedFileTest, what_is_asked_on_one_side_arrives_once_on_the_other)
{
    AskedReader reader(file_);
    EXPECT_THAT(reader.next(), IsEmpty());
    AskedWriter writer(file_, "2026-11-25T09:00:00+00:00");
    writer.ask({{Kind::plug, 3.0, {}, 0}, {Kind::hold_insufflation, 2.5, {}, 0}});
    EXPECT_THAT(reader.next(), ElementsAre("plug 3", "hold-insufflation 2.5"));
    EXPECT_THAT(reader.next(), IsEmpty());
    writer.ask({});
    writer.ask({{Kind::automatic, 0.0, "chest infection", 0}});
    EXPECT_THAT(reader.next(), ElementsAre("automatic \"chest infection\""));
}

TEST_F(AskedFileTest, a_second_run_begins_anew_also_where_it_asks_the_same)
{
    AskedReader reader(file_);
    {
        AskedWriter first(file_, "09:00:00");
        first.ask({{Kind::open_to_air, 0.0, {}, 0}});
        EXPECT_THAT(reader.next(), ElementsAre("open-to-air"));
    }
    AskedWriter second(file_, "09:10:00");
    second.ask({{Kind::open_to_air, 0.0, {}, 0}});
    EXPECT_THAT(reader.next(), ElementsAre("open-to-air"));
}

TEST_F(AskedFileTest, what_an_earlier_run_left_is_not_asked_any_more)
{
    AskedWriter(file_, "yesterday").ask({{Kind::automatic, 0.0, "day", 0}});
    AskedReader reader(file_);
    EXPECT_THAT(reader.next(), IsEmpty());
}

} // namespace
