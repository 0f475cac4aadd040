#include "gui/records/addenda.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/seal.hpp"
#include "tests/gui/records/sealed_record.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <functional>
#include <map>
#include <random>

namespace zeroline::records {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
namespace fs = std::filesystem;

/// The files of a sealed record, to be changed and put back.
class Tampering : public SealedRecordTest {
protected:
    void take(const fs::path& folder)
    {
        folder_ = folder;
        ASSERT_TRUE(recheck(folder_).intact());
        for (const auto& entry : fs::recursive_directory_iterator(folder_)) {
            if (entry.is_regular_file()) {
                files_[entry.path()] = read_file(entry.path());
            }
        }
    }

    static void review(const fs::path& folder, const SigningKey& key)
    {
        const Addendum review{
            "review", {"Second Person", "lead", "reviewed", "2026-11-26T08:00:00+01:00"}, "", "", "", 0, ""};
        add_addendum(folder, review, key);
    }

    static void write(const fs::path& file, const std::string& text)
    {
        std::ofstream(file, std::ios::binary | std::ios::trunc) << text;
    }
    void restore(const fs::path& file) { write(file, files_.at(file)); }
    [[nodiscard]] bool seen() const { return !check_folder(folder_).troubles.empty(); }

    void change_bytes(int changes)
    {
        std::size_t total = 0;
        for (const auto& [file, text] : files_) {
            total += text.size();
        }
        std::mt19937_64 dice(20261125);
        for (int i = 0; i < changes; ++i) {
            auto at = std::uniform_int_distribution<std::size_t>(0, total - 1)(dice);
            auto it = files_.begin();
            for (; at >= it->second.size(); ++it) {
                at -= it->second.size();
            }
            auto text = it->second;
            text[at] = static_cast<char>(text[at] ^ std::uniform_int_distribution<int>(1, 255)(dice));
            write(it->first, text);
            EXPECT_TRUE(seen()) << it->first << " at " << at;
            restore(it->first);
        }
        EXPECT_FALSE(seen());
    }

    void truncate(std::size_t cuts)
    {
        for (const auto& [file, text] : files_) {
            for (std::size_t i = 0; i < cuts; ++i) {
                write(file, text.substr(0, text.size() * i / cuts));
                EXPECT_TRUE(seen()) << file << " cut to " << text.size() * i / cuts;
            }
            write(file, text.substr(0, text.size() - 1));
            EXPECT_TRUE(seen()) << file << " without its last byte";
            write(file, text + "\n");
            EXPECT_TRUE(seen()) << file << " with a byte more";
            restore(file);
        }
    }

    void remove_each()
    {
        for (const auto& [file, text] : files_) {
            fs::remove(file);
            EXPECT_TRUE(seen()) << file;
            restore(file);
        }
    }

    void swap_each(const fs::path& other)
    {
        for (const auto& [file, text] : files_) {
            const auto theirs = read_file(other / file.lexically_relative(folder_));
            ASSERT_NE(theirs, text) << file << " is the same in both";
            write(file, theirs);
            EXPECT_TRUE(seen()) << file;
            restore(file);
        }
    }

    /// Another record, every file of which is another one.
    [[nodiscard]] RecordFolder different(const std::string& name)
    {
        auto part = unfinished(name);
        const auto key = SigningKey::load_or_make(request().key_file);
        put_text(part, name::run, "place", "another workshop", key);
        put_text(part, name::order, "customer", "another ward", key);
        put_text(part, name::instrument, "serial", "PT-2", key);
        put_text(part, name::bench, "address", "elsewhere", key);
        part.put(name::trace, drawn_trace() + "#\n");
        return part;
    }

    [[nodiscard]] SealRequest later() const
    {
        auto later = request();
        later.signature.time = "2026-11-25T10:15:00+01:00";
        return later;
    }

    fs::path folder_;
    std::map<fs::path, std::string> files_;
};

/// A sealed record with a review.
class TamperTest : public Tampering {
protected:
    void SetUp() override
    {
        const auto folder = record("r1");
        review(folder, SigningKey::load(request().key_file));
        take(folder);
    }
};

/// A record that holds the attempt before it, which holds the record as found, which was reviewed.
class TamperedInside : public Tampering {
protected:
    [[nodiscard]] fs::path nested(const std::string& name, const std::function<RecordFolder(const std::string&)>& begin,
                                  const SealRequest& request)
    {
        const auto found = sealed(begin(name + "-found"), request).folder;
        review(found, SigningKey::load(request.key_file));
        auto left = begin(name + "-left");
        put_as_found(left, found, "filter replaced in " + name);
        auto again = begin(name);
        put_attempt_before(again, sealed(left, request).folder, "plug: it leaked in " + name);
        return sealed(again, request).folder;
    }
};

TEST_F(TamperTest, every_single_byte_that_is_changed_is_seen) { change_bytes(2000); }

TEST_F(TamperTest, every_byte_of_manifest_seal_and_addendum_matters)
{
    // By chance few of the changes above fall into the small files: here every byte has its turn.
    for (const auto& [file, text] : files_) {
        const auto name = file.filename();
        if (name != name::manifest && name != name::seal && name != name::addendum) {
            continue;
        }
        for (std::size_t at = 0; at < text.size(); ++at) {
            auto other = text;
            other[at] = static_cast<char>(other[at] ^ 1);
            write(file, other);
            EXPECT_TRUE(seen()) << file << " at " << at;
        }
        restore(file);
    }
}

TEST_F(TamperTest, every_truncation_is_seen) { truncate(50); }

TEST_F(TamperTest, every_file_that_is_missing_is_named_or_breaks_the_chain) { remove_each(); }

/// Each file is hashed with all that hold it: fewer places here, in every file all the same.
TEST_F(TamperedInside, changes_cuts_losses_and_swaps_are_seen_at_every_depth)
{
    take(nested(
        "r1", [&](const std::string& name) { return unfinished(name); }, request()));
    change_bytes(400);
    truncate(8);
    remove_each();
    swap_each(nested(
        "r2", [&](const std::string& name) { return different(name); }, later()));
}

TEST_F(TamperTest, what_does_not_belong_there_is_named)
{
    for (const auto* extra : {"note.txt", "as-found/x", "addenda/001/x", "addenda/x", "addenda/002/x"}) {
        fs::create_directories((folder_ / extra).parent_path());
        write(folder_ / extra, "x");
        EXPECT_TRUE(seen()) << extra;
        fs::remove(folder_ / extra);
        for (const auto* made : {"as-found", "addenda/002"}) {
            fs::remove(folder_ / made);
        }
    }
    fs::create_directory(folder_ / "empty");
    EXPECT_TRUE(seen());
    fs::remove(folder_ / "empty");
    fs::create_symlink("trace.csv", folder_ / "link.csv");
    EXPECT_TRUE(seen());
    fs::remove(folder_ / "link.csv");
    fs::remove(folder_ / "trace.csv");
    fs::create_symlink(here_ / "elsewhere.csv", folder_ / "trace.csv");
    write(here_ / "elsewhere.csv", files_.at(folder_ / "trace.csv"));
    EXPECT_TRUE(seen()) << "the same bytes, but behind a link";
}

TEST_F(TamperTest, every_file_swapped_with_another_records_is_seen)
{
    const auto other = sealed(different("r2"), later()).folder;
    const Addendum another{"review", {"Third Person", "lead", "reviewed", "2026-11-26T08:00:00+01:00"}, "", "", "", 0,
                           ""};
    add_addendum(other, another, SigningKey::load(request().key_file));
    swap_each(other);
    // A signature moved as a whole: manifest and seal of the other record.
    for (const auto& name : {name::manifest, name::seal}) {
        write(folder_ / name, read_file(other / name));
    }
    EXPECT_TRUE(seen());
}

TEST_F(TamperTest, another_name_or_time_needs_another_seal_and_that_another_key)
{
    auto manifest = files_.at(folder_ / name::manifest);
    for (const auto& [from, to] : {std::pair("Operator Three", "Operator Four"), std::pair("T09:15:00", "T08:15:00")}) {
        auto changed = manifest;
        changed.replace(changed.find(from), std::string(from).size(), to);
        write(folder_ / name::manifest, changed);
        EXPECT_THAT(check_folder(folder_).troubles, Contains(HasSubstr("seal.json: belongs to another manifest")));
        // Sealed anew by a stranger: the record and the list of known keys both speak against it.
        const auto stranger = SigningKey::make();
        write(folder_ / name::seal, seal_manifest(changed, stranger).text());
        EXPECT_THAT(check_folder(folder_).troubles, Contains(HasSubstr("names another key")));
        EXPECT_THAT(check_folder(folder_).troubles, Contains(HasSubstr("is not what the manifest says")));
        restore(folder_ / name::manifest);
        restore(folder_ / name::seal);
    }
}

TEST_F(TamperTest, a_record_made_up_with_a_strangers_key_is_seen_by_whoever_knows_the_keys)
{
    const auto own = KeyList::parse(key_line(SigningKey::load(request().key_file), "bench of the tests"));
    EXPECT_EQ(recheck(folder_, &own).signed_by, "bench of the tests");
    EXPECT_TRUE(recheck(folder_, &own).intact());
    auto strangers = request();
    strangers.key_file = here_ / "stranger.key";
    const auto made_up = sealed(unfinished("r2"), strangers).folder;
    EXPECT_TRUE(recheck(made_up).intact()) << "in itself it is whole";
    const auto checked = recheck(made_up, &own);
    EXPECT_TRUE(checked.intact()) << "whoever made it, nothing in it was changed";
    EXPECT_EQ(checked.signed_by, "");
    EXPECT_THAT(checked.unknown_keys,
                testing::ElementsAre(fingerprint(SigningKey::load(strangers.key_file).public_key())));
}

TEST_F(TamperTest, a_result_that_its_own_trace_does_not_give_is_named_place_by_place_though_sealed_by_the_right_key)
{
    const auto part = unfinished("r2");
    journal(part, SigningKey::load(request().key_file));
    const auto evidence = load_record_evidence(part.part());
    auto better = assess(evidence);
    auto tree = nlohmann::ordered_json::parse(better.record_json);
    tree["judgements"][0]["mean"] = 40.0;
    tree["zero"]["before"] = 0.0;
    better.record_json = tree.dump(2) + "\n";
    const auto folder = seal_and_rename(part, evidence, better, request()).folder;
    const auto result = recheck(folder);
    EXPECT_TRUE(result.folder.troubles.empty());
    EXPECT_THAT(result.differences, Contains(HasSubstr("/judgements/0/mean: saved 40.0, now 39.")));
    EXPECT_THAT(result.differences, Contains(HasSubstr("/zero/before: saved 0.0, now ")));
    EXPECT_EQ(result.differences.size(), 2u);
}

TEST_F(TamperTest, another_build_may_differ_by_rounding_and_is_named)
{
    const auto part = unfinished("r2");
    journal(part, SigningKey::load(request().key_file));
    const auto evidence = load_record_evidence(part.part());
    auto other = assess(evidence);
    auto tree = nlohmann::ordered_json::parse(other.record_json);
    tree["software"]["version"] = "0.0.9";
    tree["judgements"][0]["mean"] = tree["judgements"][0]["mean"].get<double>() * (1.0 + 1e-10);
    other.record_json = tree.dump(2) + "\n";
    const auto folder = seal_and_rename(part, evidence, other, request()).folder;
    const auto result = recheck(folder);
    EXPECT_TRUE(result.intact()) << testing::PrintToString(result.differences);
    EXPECT_THAT(result.remarks, Contains(HasSubstr("made by version 0.0.9")));
}

} // namespace
} // namespace zeroline::records
