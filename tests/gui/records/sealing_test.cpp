#include "gui/records/sealing.hpp"

#include "gui/records/addenda.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/recheck.hpp"
#include "tests/gui/records/sealed_record.hpp"
#include "tests/gui/records/trouble.hpp"

#include <gmock/gmock.h>

#include <fstream>

namespace zeroline::records {
namespace {

using nlohmann::ordered_json;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
namespace fs = std::filesystem;

ordered_json record_of(const fs::path& folder) { return ordered_json::parse(read_file(folder / name::record)); }

class SealingTest : public SealedRecordTest {};

TEST_F(SealingTest, a_complete_record_is_sealed_and_rechecks)
{
    const auto folder = record("r1");
    EXPECT_EQ(folder, here_ / "r1");
    const auto result = recheck(folder);
    EXPECT_THAT(result.folder.troubles, IsEmpty());
    EXPECT_THAT(result.differences, IsEmpty());
    EXPECT_THAT(result.remarks, IsEmpty());
    EXPECT_THAT(result.record_number, testing::MatchesRegex("2026-11-25-091204-RC-0117-[a-z2-9]{4}"));
    EXPECT_EQ(result.folder.signature, request().signature);
    EXPECT_EQ(record_of(folder)["origin"], "captured-here");
    EXPECT_EQ(record_of(folder)["verdict"], "pass") << record_of(folder)["reasons"];
}

/// ISO/IEC 17025, 7.8.2.1 and 7.8.6, and 21 CFR 11.50 (as docs/records.md lists them): what must stand in a record.
TEST_F(SealingTest, each_mandatory_field_that_is_left_out_is_named)
{
    const auto whole = record_of(record("r1"));
    ASSERT_THAT(missing_for_seal(whole), IsEmpty());
    const std::pair<const char*, const char*> fields[] = {{"/issue/organisation", "organisation"},
                                                          {"/issue/address", "address"},
                                                          {"/run/place", "place"},
                                                          {"/issue/record_number", "record number"},
                                                          {"/order/customer", "customer"},
                                                          {"/issue/method/name", "method"},
                                                          {"/issue/method/version", "version of the method"},
                                                          {"/unit/asset", "asset"},
                                                          {"/unit/serial", "serial"},
                                                          {"/unit/model", "model"},
                                                          {"/run/began", "date of the run"},
                                                          {"/issue/issued", "date of issue"},
                                                          {"/judgements", "results"},
                                                          {"/judgements/0/unit", "results with their units"},
                                                          {"/judgements/0/expanded_uncertainty", "uncertainty"},
                                                          {"/decision_rule", "decision rule"},
                                                          {"/issue/statement", "unit tested"},
                                                          {"/issue/signer", "printed name"},
                                                          {"/issue/meaning", "meaning"}};
    for (const auto& [pointer, words] : fields) {
        for (const auto& nothing : {ordered_json(nullptr), ordered_json("")}) {
            auto record = whole;
            record[ordered_json::json_pointer(pointer)] = nothing;
            EXPECT_THAT(missing_for_seal(record), ElementsAre(HasSubstr(words))) << pointer;
        }
    }
    EXPECT_EQ(missing_for_seal(ordered_json::object()).size(), std::size(fields) - 2);
}

/// 21 CFR 11.50 asks for printed name, time and meaning of a signature; a role is none of them.
TEST_F(SealingTest, a_role_may_be_left_out)
{
    auto without_role = request();
    without_role.signature.role.clear();
    const auto sealing = sealed(unfinished("r1"), without_role);
    EXPECT_THAT(sealing.missing, IsEmpty());
    EXPECT_TRUE(recheck(sealing.folder).intact());
}

TEST_F(SealingTest, what_cannot_be_sealed_stays_unfinished_and_can_be_completed)
{
    const auto part = unfinished("r1");
    auto unsigned_request = request();
    unsigned_request.signature.signer.clear();
    EXPECT_THAT(sealed(part, unsigned_request).missing, ElementsAre(HasSubstr("printed name")));
    EXPECT_FALSE(fs::exists(here_ / "r1"));
    EXPECT_EQ(record_of(part.part())["issue"], nullptr);
    EXPECT_THAT(sealed(part, request()).missing, IsEmpty());
    EXPECT_TRUE(recheck(here_ / "r1").intact());
}

TEST_F(SealingTest, a_page_is_made_before_the_seal_and_is_sealed_too)
{
    auto with_page = request();
    with_page.make_page = [](const fs::path& folder, const fs::path& pdf, const Signature&, const std::string&) {
        std::ofstream(pdf) << "a page about " << record_of(folder)["issue"]["record_number"];
    };
    const auto folder = sealed(unfinished("r1"), with_page).folder;
    EXPECT_THAT(read_file(folder / name::page), HasSubstr("2026-11-25-091204-RC-0117"));
    EXPECT_TRUE(recheck(folder).intact());
    std::ofstream(folder / name::page, std::ios::app) << ".";
    EXPECT_THAT(recheck(folder).folder.troubles, ElementsAre("record.pdf: is not the file that was sealed"));
}

/// Who signs, signs now: a signature that a save which was cut off left in the FOLDER.part is nobody's word today.
TEST_F(SealingTest, a_save_that_breaks_off_anywhere_is_finished_by_the_same_call_under_a_signature_made_then)
{
    for (const int step : {0, 1, 2, 3}) {
        const auto part = unfinished("r" + std::to_string(step));
        auto broken = request();
        broken.make_page = [](const fs::path&, const fs::path& pdf, const Signature&, const std::string&) {
            std::ofstream(pdf) << "half a pa";
            throw trace::InputError(pdf.string(), "No space left on device", "space");
        };
        EXPECT_THAT(trouble([&] { static_cast<void>(sealed(part, broken)); }), HasSubstr("No space left"));
        // What a later step would have left behind.
        const char* left[] = {"", "record.pdf", "manifest.sha256", "seal.json"};
        if (step > 0) {
            std::ofstream(part.file(left[step])) << "left";
        }
        ASSERT_EQ(record_of(part.part())["issue"]["signer"], "Operator Three");
        EXPECT_EQ(load_record_evidence(part.part()).issue, "null");
        auto completing = request();
        completing.signature = {"Second Person", "lead", "answers for it", "2026-11-26T08:00:00+01:00"};
        const auto folder = sealed(part, completing).folder;
        EXPECT_TRUE(recheck(folder).intact()) << testing::PrintToString(recheck(folder).folder.troubles);
        EXPECT_EQ(recheck(folder).folder.signature, completing.signature);
    }
}

TEST_F(SealingTest, a_signature_with_a_line_end_in_it_is_refused)
{
    auto forged = request();
    forged.signature.meaning = "review\n0000  trace.csv";
    EXPECT_THAT(trouble([&] { static_cast<void>(sealed(unfinished("r1"), forged)); }),
                HasSubstr("meaning: is no plain"));
}

TEST_F(SealingTest, reviews_and_corrections_are_added_in_a_chain_and_the_record_stays)
{
    const auto folder = record("r1");
    const auto before = read_file(folder / name::manifest);
    const auto key = SigningKey::load(request().key_file);
    Addendum review{"review", {"Second Person", "lead", "reviewed", "2026-11-26T08:00:00+01:00"}, "", "", "", 0, ""};
    EXPECT_EQ(add_addendum(folder, review, key), folder / "addenda" / "001");
    Addendum correction = review;
    correction.kind = "correction";
    EXPECT_THAT(trouble([&] { add_addendum(folder, correction, key); }), HasSubstr("--reason: missing"));
    correction.reason = "typing error";
    correction.text = "serial number K4417";
    EXPECT_EQ(add_addendum(folder, correction, key), folder / "addenda" / "002");
    EXPECT_EQ(read_file(folder / name::manifest), before);

    const auto result = recheck(folder);
    EXPECT_TRUE(result.intact()) << testing::PrintToString(result.folder.troubles);
    ASSERT_EQ(result.folder.addenda.size(), 2u);
    EXPECT_EQ(result.folder.addenda[0].signature.signer, "Second Person");
    EXPECT_EQ(result.folder.addenda[1].text, "serial number K4417");
    fs::remove_all(folder / "addenda" / "001");
    EXPECT_THAT(recheck(folder).folder.troubles, Contains(HasSubstr("one before it is missing")));
}

TEST_F(SealingTest, the_record_as_found_stands_inside_the_one_as_left)
{
    const auto found = record("found");
    const auto part = unfinished("left");
    EXPECT_THAT(trouble([&] { put_as_found(part, found, " "); }), HasSubstr("no reason"));
    put_as_found(part, found, "intake filter replaced");
    const auto folder = sealed(part, request()).folder;
    const auto result = recheck(folder);
    EXPECT_TRUE(result.intact()) << testing::PrintToString(result.folder.troubles);
    const auto earlier = record_of(folder)["issue"]["earlier"];
    EXPECT_EQ(earlier["relation"], "as-found");
    EXPECT_EQ(earlier["reason"], "intake filter replaced");
    EXPECT_EQ(earlier["verdict"], record_of(folder / name::as_found)["verdict"]);

    std::ofstream(folder / name::as_found / "trace.csv", std::ios::app) << "#\n";
    EXPECT_THAT(recheck(folder).folder.troubles, Contains(HasSubstr("as-found/trace.csv: is not the file")));
}

TEST_F(SealingTest, a_record_made_again_names_the_one_before)
{
    const auto first = record("first");
    const auto part = RecordFolder::begin(here_ / "again");
    put_recorded_evidence(part, OpenFolder::at(first));
    put_recalculated(part, first, "calibration certificate arrived later", SigningKey::load(request().key_file));
    part.put(name::instrument, read_file(first / name::instrument));
    const auto folder = sealed(part, request()).folder;
    EXPECT_TRUE(recheck(folder).intact());
    EXPECT_EQ(record_of(folder)["issue"]["earlier"]["relation"], "recalculated");
    std::ofstream(first / "trace.csv", std::ios::app) << "#\n";
    EXPECT_THAT(trouble([&] { static_cast<void>(name_earlier(first, "recalculated", "x")); }), HasSubstr("no intact"));
}

} // namespace
} // namespace zeroline::records
