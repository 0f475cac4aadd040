#include "gui/records/bench_key.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/folder_hold.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/open_file.hpp"
#include "gui/records/record_folder.hpp"
#include "tests/gui/records/trouble.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <cstdlib>
#include <functional>
#include <sys/stat.h>
#include <unistd.h>

namespace {

using namespace zeroline;
using records::KeyList;
using records::SigningKey;
using records::trouble;
using testing::HasSubstr;
namespace fs = std::filesystem;

constexpr const char* kTime = "2026-11-25T10:00:00+01:00";

class BenchKeyTest : public testing::Test {
protected:
    [[nodiscard]] KeyList list() const { return KeyList::load(records::list_beside(file_)); }
    [[nodiscard]] std::string fingerprint() const
    {
        return records::fingerprint(SigningKey::load(file_).public_key()).substr(0, 16);
    }
    static records::AskPassphrase typing(const std::string& passphrase)
    {
        return [passphrase](const fs::path&) { return std::optional(passphrase); };
    }

    TemporaryFolder here_;
    fs::path file_ = here_ / "bench.key";
};

TEST_F(BenchKeyTest, the_first_key_stands_in_the_public_list_at_once)
{
    const auto key = SigningKey::load_or_make(file_);
    EXPECT_EQ(list().current(), key.public_key());
    static_cast<void>(records::public_list(file_, "workshop of the tests"));
    EXPECT_EQ(list().name_of(key.public_key()), "workshop of the tests") << "named once the name is known";
}

TEST_F(BenchKeyTest, a_missing_key_is_not_silently_replaced)
{
    const auto before = SigningKey::load_or_make(file_);
    before.save(here_ / "backup");
    fs::remove(file_);
    const auto said = trouble([&] { static_cast<void>(SigningKey::load_or_make(file_)); });
    EXPECT_THAT(said, HasSubstr("the key is missing"));
    EXPECT_THAT(said, HasSubstr("zeroline key --lost"));
    EXPECT_FALSE(fs::exists(file_));
    fs::copy(here_ / "backup", file_);
    EXPECT_EQ(SigningKey::load_or_make(file_).public_key(), before.public_key());
}

TEST_F(BenchKeyTest, a_lost_key_is_revoked_with_a_date_and_the_list_names_the_new_one)
{
    const auto lost = SigningKey::load_or_make(file_).public_key();
    fs::remove(file_);
    records::revoke_key(file_, "workshop", kTime, "laptop stolen");
    const auto key = SigningKey::load_or_make(file_).public_key();
    EXPECT_NE(key, lost);
    EXPECT_EQ(list().current(), key);
    EXPECT_EQ(list().name_of(key), "workshop");
    EXPECT_EQ(list().against(lost, "2026-11-25T08:59:59Z"), "");
    EXPECT_THAT(list().against(lost, "2026-11-25T09:00:00Z"), HasSubstr("laptop stolen"));
    EXPECT_THAT(list().against(lost, ""), HasSubstr("no time"));
}

TEST_F(BenchKeyTest, a_key_that_its_list_retired_seals_no_more)
{
    const auto old_key = SigningKey::load_or_make(file_);
    old_key.save(here_ / "backup");
    const auto kept = records::change_key(file_, old_key, kTime);
    EXPECT_EQ(SigningKey::load(kept).public_key(), old_key.public_key());
    EXPECT_EQ(list().against(old_key.public_key(), "2026-11-25T10:00:00+01:00"), "");
    EXPECT_THAT(list().against(old_key.public_key(), "2026-11-25T10:00:01+01:00"), HasSubstr("retired"));
    fs::remove(file_);
    fs::copy(here_ / "backup", file_);
    EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load_or_make(file_)); }), HasSubstr("retired"));
}

TEST_F(BenchKeyTest, a_thief_signs_no_change_after_the_key_is_revoked)
{
    const auto stolen = SigningKey::make();
    const auto thiefs = SigningKey::make();
    const auto text = records::key_line(stolen, "bench") + records::change_line(stolen, thiefs, kTime);
    EXPECT_EQ(KeyList::parse(text).name_of(thiefs.public_key()), "bench");
    const auto revoked = text + records::revoked_line(stolen.public_key(), "2026-11-20T00:00:00Z", "stolen");
    EXPECT_EQ(KeyList::parse(revoked).name_of(thiefs.public_key()), "");
}

TEST_F(BenchKeyTest, a_change_that_was_cut_off_before_the_list_names_it_is_undone)
{
    const auto key = SigningKey::load_or_make(file_);
    const auto next = SigningKey::make();
    const auto left = here_ / ("bench.key.next-" + records::fingerprint(next.public_key()).substr(0, 16));
    next.save(left);
    records::write_private_file(here_ / "bench.key.public.0123456789abcdef.new", "half");
    EXPECT_EQ(SigningKey::load_or_make(file_).public_key(), key.public_key());
    EXPECT_EQ(std::distance(fs::directory_iterator(here_.path()), {}), 2) << "key and list";
    static_cast<void>(records::change_key(file_, key, kTime));
    EXPECT_NE(SigningKey::load_or_make(file_).public_key(), key.public_key());
}

TEST_F(BenchKeyTest, a_change_that_was_cut_off_after_the_list_names_it_is_finished)
{
    const auto key = SigningKey::load_or_make(file_);
    const auto next = SigningKey::make();
    const auto mark = records::fingerprint(next.public_key()).substr(0, 16);
    const auto list_text = records::read_file(records::list_beside(file_)) + records::change_line(key, next, kTime);
    for (const bool kept_already : {false, true}) {
        fs::remove(file_);
        fs::remove(here_ / ("bench.key.before-" + mark));
        key.save(file_);
        next.save(here_ / ("bench.key.next-" + mark));
        records::write_file_whole(records::list_beside(file_), list_text);
        if (kept_already) {
            key.save(here_ / ("bench.key.before-" + mark));
        }
        EXPECT_EQ(SigningKey::load_or_make(file_).public_key(), next.public_key());
        EXPECT_EQ(SigningKey::load(here_ / ("bench.key.before-" + mark)).public_key(), key.public_key());
        EXPECT_FALSE(fs::exists(here_ / ("bench.key.next-" + mark)));
    }
}

TEST_F(BenchKeyTest, a_key_of_another_user_or_a_list_that_others_may_write_to_is_refused)
{
    static_cast<void>(SigningKey::load_or_make(file_));
    ::chmod(records::list_beside(file_).c_str(), 0666);
    EXPECT_THAT(trouble([&] { static_cast<void>(records::own_keys(file_)); }), HasSubstr("others may write"));
    ::chmod(records::list_beside(file_).c_str(), 0644);
    EXPECT_EQ(trouble([&] { static_cast<void>(records::own_keys(file_)); }), "no trouble");
    if (::geteuid() == 0) {
        ASSERT_EQ(::chown(file_.c_str(), 65534, 65534), 0);
        EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load(file_)); }), HasSubstr("another user"));
    }
}

TEST_F(BenchKeyTest, a_passphrase_locks_the_key_and_opens_it)
{
    const auto key = SigningKey::load_or_make(file_);
    records::set_passphrase(file_, key, "vier Wörter und eins");
    EXPECT_TRUE(SigningKey::is_locked(file_));
    EXPECT_EQ(SigningKey::load_or_make(file_, typing("vier Wörter und eins")).public_key(), key.public_key());
    EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load(file_, typing("another"))); }),
                HasSubstr("does not open it"));
    EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load(file_)); }), HasSubstr("none was typed"));
    EXPECT_EQ(std::distance(fs::directory_iterator(here_.path()), {}), 2) << "the open key stays nowhere";
    records::set_passphrase(file_, key, "");
    EXPECT_EQ(SigningKey::load(file_).public_key(), key.public_key());
}

TEST_F(BenchKeyTest, who_stays_in_the_folder_of_the_key_is_named_and_not_waited_for_without_end)
{
    const auto key = SigningKey::load_or_make(file_);
    const records::FolderHold another(here_.path());
    for (const auto& act : std::initializer_list<std::function<void()>>{
             [&] { static_cast<void>(SigningKey::load_or_make(file_)); },
             [&] { static_cast<void>(records::change_key(file_, key, kTime)); }}) {
        EXPECT_THAT(trouble(act), HasSubstr("process " + std::to_string(::getpid())));
    }
}

/// While somebody typed a new passphrase, another program changed the key: the new key was written over by the old one.
TEST_F(BenchKeyTest, a_new_passphrase_never_puts_an_old_key_in_the_place_of_a_new_one)
{
    const auto key = SigningKey::load_or_make(file_);
    static_cast<void>(records::change_key(file_, key, kTime));
    const auto changed = SigningKey::load_or_make(file_).public_key();
    EXPECT_THAT(trouble([&] { records::set_passphrase(file_, key, "secret"); }), HasSubstr("retired"));
    EXPECT_EQ(SigningKey::load(file_).public_key(), changed);
}

TEST_F(BenchKeyTest, a_new_passphrase_that_was_cut_off_leaves_nothing)
{
    const auto key = SigningKey::load_or_make(file_);
    key.save(records::neighbour_of(file_.string()), "secret");
    static_cast<void>(SigningKey::load_or_make(file_));
    EXPECT_EQ(std::distance(fs::directory_iterator(here_.path()), {}), 2) << "key and list";
}

TEST_F(BenchKeyTest, another_program_reads_the_locked_key_and_sees_scrypt_with_its_rounds_stated)
{
    const auto key = SigningKey::load_or_make(file_);
    records::set_passphrase(file_, key, "secret");
    const auto out = (here_ / "out").string();
    // RFC 8018 and RFC 7914 name PBES2 and scrypt; openssl shows what stands in the file.
    const auto show = "openssl asn1parse -in '" + file_.string() + "' > '" + out + "' 2>&1";
    ASSERT_EQ(std::system(show.c_str()), 0);
    const auto text = records::read_file(out);
    for (const auto* part : {"PBES2", "scrypt", "INTEGER           :4000", "INTEGER           :08",
                             "INTEGER           :05", "aes-256-cbc"}) {
        EXPECT_THAT(text, HasSubstr(part));
    }
    const auto open = "openssl pkey -in '" + file_.string() + "' -passin pass:secret -noout > '" + out + "' 2>&1";
    EXPECT_EQ(std::system(open.c_str()), 0) << records::read_file(out);
}

} // namespace
