// Records that were sealed by earlier builds and must keep rechecking (method_1/README.md).

#include "gui/records/recheck.hpp"

#include <gmock/gmock.h>

namespace zeroline::records {
namespace {

namespace fs = std::filesystem;
using testing::IsEmpty;

const fs::path kPlace = fs::path(ZEROLINE_SOURCE_DIR) / "tests" / "gui" / "records" / "method_1";

TEST(KeptRecords, files_seal_and_key_of_the_first_method_hold)
{
    const auto known = KeyList::load(kPlace / "bench.key.public");
    for (const auto* name : {"pass", "fail", "critical", "oscillation"}) {
        const auto result = recheck(kPlace / name, &known);
        EXPECT_TRUE(result.folder.sealed) << name;
        EXPECT_THAT(result.folder.troubles, IsEmpty()) << name;
        EXPECT_THAT(result.dates, IsEmpty()) << name;
        EXPECT_THAT(result.unknown_keys, IsEmpty()) << name;
    }
}

TEST(KeptRecords, what_was_added_to_a_record_of_the_first_method_is_read)
{
    EXPECT_EQ(check_folder(kPlace / "fail").addenda.size(), 2u);
}

TEST(KeptRecords, an_unfinished_record_of_the_first_method_is_a_draft)
{
    EXPECT_FALSE(check_folder(kPlace / "imported.part").sealed);
}

} // namespace
} // namespace zeroline::records
