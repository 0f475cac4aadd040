// The one rule of a sealed folder: exactly the files named, regular, once, sorted; keys and signatures canonical.

#include "gui/records/addenda.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/public_key.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/seal.hpp"
#include "tests/gui/records/sealed_record.hpp"
#include "tests/gui/records/trouble.hpp"

#include <gmock/gmock.h>

#include <fstream>

namespace zeroline::records {
namespace {

using testing::Contains;
using testing::HasSubstr;
namespace fs = std::filesystem;

std::string bytes(std::string_view hexadecimal)
{
    std::string out;
    for (std::size_t i = 0; i < hexadecimal.size(); i += 2) {
        out += static_cast<char>(std::stoi(std::string(hexadecimal.substr(i, 2)), nullptr, 16));
    }
    return out;
}

class OneRuleTest : public SealedRecordTest {
protected:
    void SetUp() override
    {
        folder_ = record("r1");
        add("2026-11-26T08:00:00+01:00");
        ASSERT_TRUE(recheck(folder_).intact());
    }

    void add(const std::string& time) const
    {
        const Addendum review{"review", {"Second Person", "lead", "reviewed", time}, "", "", "", 0, ""};
        add_addendum(folder_, review, key());
    }
    [[nodiscard]] SigningKey key() const { return SigningKey::load(request().key_file); }
    static void write(const fs::path& file, const std::string& text)
    {
        std::ofstream(file, std::ios::binary | std::ios::trunc) << text;
    }
    /// Another manifest, sealed by the right key: what only its holder could do, and what is refused all the same.
    void seal_anew(const fs::path& folder, const std::string& manifest) const
    {
        write(folder / name::manifest, manifest);
        write(folder / name::seal, seal_manifest(manifest, key()).text());
    }
    [[nodiscard]] std::vector<std::string> troubles() const { return recheck(folder_).folder.troubles; }

    fs::path folder_;
};

TEST_F(OneRuleTest, files_below_the_addenda_of_an_addendum_are_seen)
{
    fs::create_directories(folder_ / "addenda/001/addenda");
    write(folder_ / "addenda/001/addenda/note.txt", "anything");
    EXPECT_THAT(troubles(), Contains(HasSubstr("addenda/001/addenda/note.txt")));
}

TEST_F(OneRuleTest, links_in_place_of_manifest_seal_and_addenda_are_seen)
{
    for (const auto* name : {"manifest.sha256", "seal.json", "addenda", "addenda/001"}) {
        fs::rename(folder_ / name, here_ / "elsewhere");
        fs::create_symlink(here_ / "elsewhere", folder_ / name);
        EXPECT_THAT(troubles(), Contains(HasSubstr(name))) << name;
        fs::remove(folder_ / name);
        fs::rename(here_ / "elsewhere", folder_ / name);
    }
    EXPECT_TRUE(recheck(folder_).intact());
}

TEST_F(OneRuleTest, an_empty_folder_of_addenda_and_an_empty_addendum_are_seen)
{
    fs::rename(folder_ / "addenda", here_ / "kept");
    fs::create_directory(folder_ / "addenda");
    EXPECT_THAT(troubles(), Contains("addenda: is empty"));
    fs::create_directory(folder_ / "addenda/001");
    EXPECT_THAT(troubles(), Contains(HasSubstr("addenda/001/manifest.sha256")));
    fs::remove_all(folder_ / "addenda");
    fs::rename(here_ / "kept", folder_ / "addenda");
    const auto manifest = read_file(folder_ / "addenda/001/manifest.sha256");
    seal_anew(folder_ / "addenda/001", manifest.substr(0, manifest.rfind('\n', manifest.size() - 2) + 1));
    fs::remove(folder_ / "addenda/001/addendum.json");
    EXPECT_THAT(troubles(), Contains(HasSubstr("lists no file")));
}

TEST_F(OneRuleTest, doubled_and_unsorted_lines_and_names_that_lead_out_are_refused_though_sealed)
{
    const auto manifest = read_file(folder_ / name::manifest);
    const auto last = manifest.substr(manifest.rfind('\n', manifest.size() - 2) + 1);
    const auto without = manifest.substr(0, manifest.size() - last.size());
    const auto first = without.find('\n', without.rfind("\n# ") + 1) + 1;
    const auto hash = last.substr(0, 66);
    seal_anew(folder_, manifest + last);
    EXPECT_THAT(troubles(), Contains(HasSubstr("lists trace.csv twice")));
    seal_anew(folder_, without.substr(0, first) + last + without.substr(first));
    EXPECT_THAT(troubles(), Contains(HasSubstr("out of order")));
    for (const auto* name : {"../r2/trace.csv", "/etc/passwd", "x/../y", "seal.json", "./y", "x//y"}) {
        seal_anew(folder_, without.substr(0, first) + hash + name + "\n");
        EXPECT_THAT(troubles(), Contains(HasSubstr(std::string("lists ") + name))) << name;
    }
    seal_anew(folder_, without.substr(0, first) + hash + "addenda/001/addendum.json\n");
    EXPECT_THAT(troubles(), Contains("addenda/001/addendum.json: is missing")) << "what comes later is never named";
}

TEST_F(OneRuleTest, a_record_follows_no_manifest)
{
    const auto manifest = read_file(folder_ / name::manifest);
    const auto first = manifest.find('\n', manifest.rfind("\n# ") + 1) + 1;
    seal_anew(folder_,
              manifest.substr(0, first) + "# follows: " + std::string(64, 'a') + "\n" + manifest.substr(first));
    EXPECT_THAT(troubles(), Contains(HasSubstr("follows another manifest")));
}

TEST_F(OneRuleTest, an_addendum_lists_its_own_file_and_no_other)
{
    write(folder_ / "addenda/001/more.txt", "anything");
    const auto folder = OpenFolder::at(folder_ / "addenda/001");
    const auto before = parse_manifest(folder.read(name::manifest));
    seal_anew(folder_ / "addenda/001",
              make_manifest(folder, Holds::addendum, before.signature, before.key, before.follows).text());
    EXPECT_THAT(troubles(), Contains(HasSubstr("lists other files")));
}

/// The y of the points of small order, little end first: computed anew here from the curve's equation (RFC 8032, 5.1)
/// by another program.
constexpr const char* kSmallOrder[] = {"0100000000000000000000000000000000000000000000000000000000000000",
                                       "ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
                                       "0000000000000000000000000000000000000000000000000000000000000000",
                                       "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05",
                                       "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a"};

TEST_F(OneRuleTest, a_seal_under_a_key_of_small_order_which_needs_no_secret_is_refused)
{
    // Under the neutral point as the key, R the neutral point and S zero sign every message: R = S B - h A.
    const auto neutral = bytes(kSmallOrder[0]);
    const auto nothing = std::string(32, '\0');
    auto manifest = parse_manifest(read_file(folder_ / name::manifest));
    manifest.key = fingerprint(neutral);
    write(folder_ / name::manifest, manifest.text());
    write(folder_ / name::seal, Seal{sha256(manifest.text()), neutral, neutral + nothing}.text());
    EXPECT_FALSE(verifies(neutral, manifest.text(), neutral + nothing));
    EXPECT_THAT(troubles(), Contains(HasSubstr("small order")));
}

TEST_F(OneRuleTest, keys_of_small_order_or_written_in_another_way_are_none)
{
    for (const auto* y : kSmallOrder) {
        for (const int sign : {0, 0x80}) {
            auto key = bytes(y);
            key.back() = static_cast<char>(static_cast<unsigned char>(key.back()) | sign);
            EXPECT_THAT(trouble_with_key(key), HasSubstr("small order")) << y;
        }
    }
    // 2^255 - 19 and what follows it stand for 0, 1, ... a second time.
    for (const auto* head : {"ed", "ee", "ff"}) {
        const auto key = bytes(head + std::string(60, 'f') + "7f");
        EXPECT_THAT(trouble_with_key(key), HasSubstr("not written as")) << head;
    }
    EXPECT_THAT(trouble_with_key("short"), HasSubstr("32 bytes"));
    for (int i = 0; i < 200; ++i) {
        EXPECT_EQ(trouble_with_key(SigningKey::make().public_key()), "");
    }
    EXPECT_THAT(trouble([] { static_cast<void>(KeyList::parse("key " + base64(std::string(32, '\0')) + " bench\n")); }),
                HasSubstr("small order"));
}

TEST_F(OneRuleTest, a_first_addendum_that_was_cut_off_leaves_the_record_as_it_was)
{
    const auto other = record("r2");
    EXPECT_FALSE(fs::exists(other / name::addenda));
    for (const auto* left : {"r2.addendum-001.part", "r2.addendum-001.0123456789abcdef.new.part"}) {
        fs::create_directories(here_ / left / "001");
    }
    fs::create_directory(here_ / "r2.addendum-notes.part");
    const Addendum review{"review", {"Second Person", "lead", "reviewed", "2026-11-26T08:00:00+01:00"}, "", "", "", 0,
                          ""};
    add_addendum(other, review, key());
    add_addendum(other, review, key());
    const auto result = recheck(other);
    EXPECT_TRUE(result.intact()) << testing::PrintToString(result.folder.troubles);
    EXPECT_EQ(result.folder.addenda.size(), 2u);
    for (const auto& entry : fs::directory_iterator(here_.path())) {
        const auto name = entry.path().filename().string();
        EXPECT_TRUE(name == "r2.addendum-notes.part" || !name.ends_with(".part")) << name << " is left beside it";
    }
    EXPECT_TRUE(fs::exists(here_ / "r2.addendum-notes.part")) << "somebody's own";
}

} // namespace
} // namespace zeroline::records
