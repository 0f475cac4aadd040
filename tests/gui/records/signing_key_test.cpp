#include "gui/records/signing_key.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/bench_key.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/key_list.hpp"
#include "gui/records/record_folder.hpp"
#include "tests/gui/records/trouble.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <sys/stat.h>

namespace {

using namespace zeroline;
using records::KeyList;
using records::SigningKey;
using records::trouble;
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

struct Vector {
    const char *secret, *public_key, *message, *signature;
};
// RFC 8032, section 7.1: TEST 1 and TEST 2 as published; TEST 3 from memory, reproduced with another build of OpenSSL.
constexpr Vector kVectors[] = {
    {"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
     "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
     "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe246"
     "551"
     "41438e7a100b"},
    {"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
     "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
     "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb"
     "00d"
     "291612bb0c00"},
    {"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
     "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
     "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc"
     "027"
     "beceea1ec40a"},
};

class SigningKeyTest : public testing::Test {
protected:
    TemporaryFolder here_;
};

TEST_F(SigningKeyTest, signs_as_rfc_8032_says)
{
    for (const auto& vector : kVectors) {
        const auto key = SigningKey::from_secret(bytes(vector.secret));
        EXPECT_EQ(key.public_key(), bytes(vector.public_key));
        EXPECT_EQ(key.sign(bytes(vector.message)), bytes(vector.signature));
        EXPECT_TRUE(records::verifies(bytes(vector.public_key), bytes(vector.message), bytes(vector.signature)));
    }
}

TEST_F(SigningKeyTest, refuses_another_message_another_key_another_signature)
{
    const auto& vector = kVectors[1];
    const auto key = bytes(vector.public_key);
    const auto signature = bytes(vector.signature);
    EXPECT_FALSE(records::verifies(key, bytes("73"), signature));
    EXPECT_FALSE(records::verifies(bytes(kVectors[0].public_key), bytes(vector.message), signature));
    EXPECT_FALSE(records::verifies(key, bytes(vector.message), signature.substr(1)));
    EXPECT_FALSE(records::verifies("short", bytes(vector.message), signature));
    for (std::size_t i = 0; i < signature.size(); ++i) {
        auto other = signature;
        other[i] = static_cast<char>(other[i] ^ 1);
        EXPECT_FALSE(records::verifies(key, bytes(vector.message), other)) << i;
    }
}

TEST_F(SigningKeyTest, refuses_the_same_signature_written_with_the_group_order_added)
{
    // RFC 8032, 5.1.7: S must lie below L. Otherwise anybody could write a second signature for the same message.
    const auto order = bytes("edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010");
    auto signature = bytes(kVectors[1].signature);
    int carry = 0;
    for (std::size_t i = 0; i < 32; ++i) {
        const int sum = static_cast<unsigned char>(signature[32 + i]) + static_cast<unsigned char>(order[i]) + carry;
        signature[32 + i] = static_cast<char>(sum & 0xff);
        carry = sum >> 8;
    }
    EXPECT_FALSE(records::verifies(bytes(kVectors[1].public_key), bytes("72"), signature));
}

TEST_F(SigningKeyTest, is_made_on_first_use_for_its_owner_only_and_then_stays)
{
    const auto file = here_ / "new" / "bench.key";
    const auto first = SigningKey::load_or_make(file).public_key();
    struct stat state {};
    ASSERT_EQ(::stat(file.c_str(), &state), 0);
    EXPECT_EQ(state.st_mode & 0777, 0600u);
    EXPECT_EQ(SigningKey::load_or_make(file).public_key(), first);
    EXPECT_EQ(std::distance(fs::directory_iterator(file.parent_path()), {}), 2)
        << "the key and the list of public keys";
}

TEST_F(SigningKeyTest, refuses_a_key_that_others_may_read_and_what_is_no_key)
{
    const auto file = here_ / "bench.key";
    SigningKey::make().save(file);
    ::chmod(file.c_str(), 0644);
    EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load(file)); }), HasSubstr("chmod 600"));
    EXPECT_THAT(trouble([&] { SigningKey::make().save(file); }), HasSubstr("not there yet"));
    records::write_private_file(here_ / "other", "no key\n");
    EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load(here_ / "other")); }), HasSubstr("Ed25519"));
    EXPECT_THAT(trouble([&] { static_cast<void>(SigningKey::load(here_ / "none")); }), HasSubstr("No such file"));
}

TEST_F(SigningKeyTest, a_backup_signs_as_the_key_does)
{
    const auto key = SigningKey::load_or_make(here_ / "bench.key");
    key.save(here_ / "backup");
    EXPECT_EQ(SigningKey::load(here_ / "backup").sign("text"), key.sign("text"));
}

TEST_F(SigningKeyTest, after_a_change_of_key_whoever_knows_the_old_key_knows_the_new_one)
{
    const auto file = here_ / "bench.key";
    const auto first = SigningKey::load_or_make(file).public_key();
    const auto handed_out = KeyList::load(records::public_list(file, "workshop of the tests"));
    const auto kept = records::change_key(file, SigningKey::load(file), "2026-11-25T10:00:00+01:00");
    const auto second = SigningKey::load(file).public_key();
    static_cast<void>(records::change_key(file, SigningKey::load(file), "2026-11-26T10:00:00+01:00"));
    const auto third = SigningKey::load(file).public_key();

    EXPECT_NE(first, second);
    EXPECT_EQ(SigningKey::load(kept).public_key(), first);
    const auto list = KeyList::load(records::public_list(file, ""));
    for (const auto& key : {first, second, third}) {
        EXPECT_EQ(list.name_of(key), "workshop of the tests");
    }
    EXPECT_EQ(handed_out.name_of(second), "");
}

TEST_F(SigningKeyTest, a_change_that_the_old_key_did_not_sign_or_of_an_unknown_key_brings_nothing)
{
    const auto known = SigningKey::make();
    const auto stranger = SigningKey::make();
    const auto next = SigningKey::make();
    auto forged = records::change_line(stranger, next, "2026-11-25T10:00:00+01:00");
    const auto by_stranger = KeyList::parse(records::key_line(known, "bench") + forged);
    EXPECT_EQ(by_stranger.name_of(next.public_key()), "");
    // The stranger's signature under the known key's name.
    forged.replace(forged.find(' ') + 1, 44, records::base64(known.public_key()));
    EXPECT_THAT(trouble([&] { static_cast<void>(KeyList::parse(records::key_line(known, "bench") + forged)); }),
                HasSubstr("line 2: the old key did not sign"));
    EXPECT_THAT(trouble([&] { static_cast<void>(KeyList::parse("# a remark\n\nkey nonsense\n")); }),
                HasSubstr("line 3"));
}

TEST(Digest, is_that_of_fips_180_4)
{
    // The examples of FIPS 180-4 (values from memory, reproduced with sha256sum).
    EXPECT_EQ(records::sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    EXPECT_EQ(records::sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(records::sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(records::sha256(std::string(1'000'000, 'a')),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    EXPECT_EQ(records::sha256("\xbd"), "68325720aabd7c82f30f554b313d0570c95accbb7dc4b5aae11204c08ffe732b");
}

TEST(Base64, is_that_of_rfc_4648)
{
    // RFC 4648, section 10.
    for (const auto& [text, code] : {std::pair("", ""), std::pair("f", "Zg=="), std::pair("fo", "Zm8="),
                                     std::pair("foo", "Zm9v"), std::pair("foobar", "Zm9vYmFy")}) {
        EXPECT_EQ(records::base64(text), code);
        EXPECT_EQ(records::from_base64(code), text);
    }
    for (const auto* wrong : {"Zg", "Zg=", "Zh==", "Zm9v\n", " Zm9v   ", "Zm9v====", "Z===", "Zm9*", "=m9v", "===="}) {
        EXPECT_EQ(records::from_base64(wrong), std::nullopt) << wrong;
    }
}

} // namespace
