#include "gui/console/recheck_json.hpp"

#include "gui/records/json_file.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace zeroline::console {
namespace {

std::vector<std::string> keys_of(const std::string& line)
{
    std::vector<std::string> keys;
    const auto tree = records::parse_ordered_json(line);
    for (const auto& [key, value] : tree.items()) {
        keys.push_back(key);
    }
    return keys;
}

TEST(RecheckJson, HasTheSameKeysWhateverWasFound)
{
    records::Recheck intact;
    intact.record_number = "2026-11-25-091204-RC-0117-k7qd";
    intact.folder.signature = {"A. Person", "lead", "performed", "2026-11-25T09:15:00+01:00"};
    intact.folder.addenda.push_back({intact.folder.signature, "correction", "typing error", "serial K4417"});
    const auto line = recheck_json("r1", intact, ExitStatus::pass);
    EXPECT_EQ(line.find('\n'), line.size() - 1) << "a line for each record";
    EXPECT_EQ(keys_of(line), keys_of(recheck_json("r2", {}, ExitStatus::fail)));
    EXPECT_EQ(keys_of(line), keys_of(unreadable_json("r3", "r3: is no record")));
}

TEST(RecheckJson, TellsIntactAndNotIntactAndUnreadableApart)
{
    records::Recheck changed;
    changed.folder.troubles = {"trace.csv: is not the file that was sealed"};
    const auto found = records::parse_json(recheck_json("r1", changed, ExitStatus::fail));
    EXPECT_EQ(found["outcome"], "not-intact");
    EXPECT_EQ(found["status"], 1);
    EXPECT_EQ(found["troubles"][0], "trace.csv: is not the file that was sealed");
    EXPECT_TRUE(found["signature"].is_null());
    const auto unread = records::parse_json(unreadable_json("r2", "r2: is no folder"));
    EXPECT_EQ(unread["outcome"], "unreadable");
    EXPECT_EQ(unread["status"], 2);
    EXPECT_EQ(unread["troubles"][0], "r2: is no folder");
}

TEST(RecheckJson, CallsARecordByAnUnknownKeyIntact)
{
    records::Recheck stranger;
    stranger.folder.public_key = std::string(32, 'k');
    stranger.unknown_keys = {"89ab"};
    const auto found = records::parse_json(recheck_json("r1", stranger, ExitStatus::pass));
    EXPECT_EQ(found["outcome"], "intact");
    EXPECT_TRUE(found["known_as"].is_null());
    EXPECT_EQ(found["unknown_keys"][0], "89ab");
    EXPECT_EQ(found["key"].get<std::string>().size(), 64u);
}

} // namespace
} // namespace zeroline::console
