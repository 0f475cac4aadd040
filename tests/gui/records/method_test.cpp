// Records of an older method: proved, computed again, and what comes to other values told without blaming the record.
// Those of method_1 were sealed by the program of that time and are never made anew.

#include "analysis/record/record.hpp"
#include "gui/records/key_list.hpp"
#include "gui/records/recheck.hpp"
#include "tests/gui/records/sealed_record.hpp"

namespace zeroline::records {
namespace {

namespace fs = std::filesystem;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

const fs::path kMethod1 = fs::path(ZEROLINE_SOURCE_DIR) / "tests" / "gui" / "records" / "method_1";

std::vector<fs::path> sealed_by_method_1()
{
    std::vector<fs::path> folders;
    for (const auto& entry : fs::directory_iterator(kMethod1)) {
        if (fs::exists(entry.path() / name::seal)) {
            folders.push_back(entry.path());
        }
    }
    std::sort(folders.begin(), folders.end());
    return folders;
}

class OlderMethod : public SealedRecordTest {
protected:
    fs::path copy_of(const fs::path& record)
    {
        fs::copy(record, here_ / record.filename(), fs::copy_options::recursive);
        return here_ / record.filename();
    }
};

TEST_F(OlderMethod, is_proved_by_its_seal_and_told_as_what_it_is)
{
    const auto keys = KeyList::load(kMethod1 / "bench.key.public");
    const auto folders = sealed_by_method_1();
    ASSERT_GE(folders.size(), 4u);
    for (const auto& folder : folders) {
        const auto result = recheck(folder, &keys);
        EXPECT_THAT(result.folder.troubles, IsEmpty()) << folder;
        EXPECT_THAT(result.differences, IsEmpty()) << folder;
        EXPECT_TRUE(result.intact()) << folder;
        EXPECT_FALSE(result.signed_by.empty()) << folder;
        EXPECT_THAT(result.remarks, Contains(StartsWith("measured by method 1; computed again by " +
                                                        std::to_string(record::kMethod) + ": ")))
            << folder;
    }
}

TEST_F(OlderMethod, is_no_excuse_for_a_file_that_was_changed)
{
    const auto folder = copy_of(kMethod1 / "pass");
    auto text = read_file(folder / name::record);
    const auto at = text.find("\"worst\": ");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 9, "\"worst\": 1");
    write_file_whole(folder / name::record, text);
    EXPECT_THAT(recheck(folder).folder.troubles, Contains(HasSubstr("record.json")));
    EXPECT_FALSE(recheck(folder).intact());
}

TEST_F(OlderMethod, lists_what_comes_to_other_values_as_remarks)
{
    const auto folder = copy_of(kMethod1 / "pass");
    auto tree = nlohmann::ordered_json::parse(read_file(folder / name::record));
    const double worst = tree["judgements"][0]["worst"];
    tree["judgements"][0]["worst"] = worst + 0.5;
    write_file_whole(folder / name::record, tree.dump(2) + "\n");
    const auto result = recheck(folder);
    EXPECT_THAT(result.differences, IsEmpty());
    EXPECT_THAT(result.remarks, Contains(HasSubstr(": differences listed")));
    EXPECT_THAT(result.remarks, Contains(StartsWith("/judgements/0/worst: saved ")));
}

TEST_F(OlderMethod, of_tomorrow_is_refused_naming_both)
{
    const auto folder = copy_of(kMethod1 / "pass");
    auto tree = nlohmann::ordered_json::parse(read_file(folder / name::record));
    tree["method"] = 99;
    write_file_whole(folder / name::record, tree.dump(2) + "\n");
    const auto result = recheck(folder);
    EXPECT_FALSE(result.intact());
    EXPECT_THAT(result.differences,
                Contains(testing::AllOf(HasSubstr("99"), HasSubstr(std::to_string(record::kMethod)))));
}

TEST_F(OlderMethod, within_its_own_method_a_difference_is_a_fault)
{
    auto part = unfinished("own");
    const auto evidence = load_record_evidence(part.part());
    auto tree = nlohmann::ordered_json::parse(assess(evidence).record_json);
    ASSERT_EQ(record::method_of(tree), record::kMethod);
    tree["attempt"] = 7;
    part.put(name::record, tree.dump(2) + "\n");
    EXPECT_THAT(recheck(part.part()).differences, Contains(StartsWith("/attempt: saved 7")));
}

} // namespace
} // namespace zeroline::records
