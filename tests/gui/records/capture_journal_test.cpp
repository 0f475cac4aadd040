#include "gui/records/capture_journal.hpp"

#include "gui/records/digest.hpp"
#include "gui/records/journal_check.hpp"
#include "gui/records/journal_line.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/sources.hpp"
#include "tests/gui/records/sealed_record.hpp"
#include "tests/gui/records/trouble.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <sys/stat.h>

namespace zeroline::records {
namespace {

using nlohmann::ordered_json;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
namespace fs = std::filesystem;

std::vector<std::string> lines_of(const std::string& text)
{
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < text.size();) {
        const auto end = std::min(text.find('\n', begin), text.size() - 1);
        lines.push_back(text.substr(begin, end + 1 - begin));
        begin = end + 1;
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines)
{
    std::string text;
    for (const auto& line : lines) {
        text += line;
    }
    return text;
}

class CaptureJournalTest : public SealedRecordTest {
protected:
    CaptureJournalTest() : key_(SigningKey::load_or_make(request().key_file)) {}

    /// A run that broke off after its last mark: the trace in four marks of a quarter, the log in two entries.
    [[nodiscard]] RecordFolder captured(const std::string& name, bool ended = true)
    {
        auto part = unfinished(name);
        double now_s = 0.0;
        CaptureJournal journal(part, key_, {verification::Origin::captured_here, "2026-11-25T09:12:04+01:00"},
                               [&] { return now_s; });
        const auto trace = read_file(part.file(name::trace));
        auto log = load_json(part.file(name::run));
        first_log_ = log;
        first_log_["confirmed"] = {"no-patient-connected"};
        journal.log(first_log_);
        for (std::size_t i = 0; i < 4; ++i) {
            now_s += 1.0;
            EXPECT_EQ(journal.trace_grew(
                          trace.substr(trace.size() * i / 4, trace.size() * (i + 1) / 4 - trace.size() * i / 4)),
                      "");
        }
        journal.log(log);
        if (ended) {
            journal.end("completed");
        }
        return part;
    }

    [[nodiscard]] std::vector<std::string> settled(const RecordFolder& part)
    {
        return settle_with_journal(part, known_beside(request().key_file));
    }

    void change(const RecordFolder& part, const std::string& file, const char* pointer, const nlohmann::json& value)
    {
        auto tree = ordered_json::parse(read_file(part.file(file)));
        tree[nlohmann::ordered_json::json_pointer(pointer)] = value;
        part.put(file, tree.dump(2) + "\n");
    }

    SigningKey key_;
    nlohmann::json first_log_;
};

TEST_F(CaptureJournalTest, tells_of_origin_files_trace_and_log_in_a_chain_that_the_files_agree_with)
{
    const auto part = captured("r1");
    const auto journal = read_journal(part.opened());
    EXPECT_EQ(journal.origin, "captured-here");
    EXPECT_EQ(journal.public_key, key_.public_key());
    EXPECT_EQ(journal.files.at(name::order).sha256, std::vector{part.opened().sha256(name::order)});
    EXPECT_EQ(journal.files.size(), 3u);
    ASSERT_EQ(journal.marks.size(), 4u);
    EXPECT_EQ(journal.marks.back().bytes, fs::file_size(part.file(name::trace)));
    EXPECT_EQ(journal.runs, (std::vector{first_log_, load_json(part.file(name::run))}));
    EXPECT_TRUE(journal.ended);
    EXPECT_THAT(troubles_with_journal(part.opened(), journal), IsEmpty());
    EXPECT_THAT(settled(part), IsEmpty());
    const auto folder = sealed(part, request()).folder;
    EXPECT_TRUE(recheck(folder).intact()) << testing::PrintToString(recheck(folder).folder.troubles);
    EXPECT_THAT(recheck(folder).remarks, IsEmpty());
}

TEST_F(CaptureJournalTest, marks_the_trace_at_most_every_200_ms_and_once_more_at_the_end)
{
    const auto part = unfinished("r1");
    double now_s = 0.0;
    CaptureJournal journal(part, key_, {verification::Origin::simulated, "2026-11-25T09:12:04+01:00"},
                           [&] { return now_s; });
    for (int i = 0; i < 100; ++i, now_s += 0.05) {
        EXPECT_EQ(journal.trace_grew("1,2\n"), "");
    }
    journal.end("completed");
    const auto marks = read_journal(part.opened()).marks;
    EXPECT_LE(marks.size(), 26u) << "5 s, and the end";
    EXPECT_GE(marks.size(), 21u) << "within a tick of 200 ms";
    EXPECT_EQ(marks.back().bytes, 400u);
}

TEST_F(CaptureJournalTest, no_line_of_it_can_be_changed_left_out_doubled_or_moved)
{
    const auto part = captured("r1");
    const auto file = part.file(name::journal);
    const auto lines = lines_of(read_file(file));
    ASSERT_EQ(lines.size(), 8u);
    const auto refused = [&](std::vector<std::string> forged, const std::string& what) {
        write_file_whole(file, joined(forged));
        EXPECT_THROW(static_cast<void>(read_journal(part.opened())), trace::InputError) << what;
    };
    for (std::size_t i = 0; i < lines.size(); ++i) {
        for (std::size_t at = 0; at < lines[i].size(); at += 7) {
            auto forged = lines;
            forged[i][at] = forged[i][at] == 'x' ? 'y' : 'x';
            refused(forged, "line " + std::to_string(i + 1) + ", column " + std::to_string(at));
        }
        if (i + 1 < lines.size()) {
            auto without = lines;
            without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
            refused(without, "without line " + std::to_string(i + 1));
            auto swapped = lines;
            std::swap(swapped[i], swapped[i + 1]);
            refused(swapped, "swapped at " + std::to_string(i + 1));
        }
        auto doubled = lines;
        doubled.insert(doubled.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
        refused(doubled, "line " + std::to_string(i + 1) + " twice");
    }
}

TEST_F(CaptureJournalTest, a_chain_that_somebody_else_made_anew_does_not_pass_for_the_benchs)
{
    const auto part = captured("r1");
    const auto file = part.file(name::journal);
    const auto thief = SigningKey::make();
    std::string forged, before;
    for (const auto& line : lines_of(read_file(file))) {
        auto body = ordered_json::parse(line);
        body.erase("signature");
        forged += journal_line(body, before, thief);
        before = sha256(lines_of(forged).back());
    }
    write_file_whole(file, forged);
    EXPECT_THAT(trouble([&] { static_cast<void>(read_journal(part.opened())); }),
                HasSubstr("the signature does not hold"));
}

/// A sealed record was renamed to .part, changed, and sealed again as 'intact' under the first signer's name.
TEST_F(CaptureJournalTest, a_sealed_record_that_is_taken_up_again_and_changed_is_refused)
{
    const std::tuple<std::string, const char*, nlohmann::json> forgeries[] = {
        {name::order, "/tolerances/pressure/absolute", 9.0},
        {name::order, "/unit/serial", "K9999"},
        {name::instrument, "/calibration/due", "2031-01-01"},
        {name::run, "/began", "2026-11-26T09:12:04+01:00"},
        {name::run, "/displayed/0/insufflation", 44},
        {name::run, "/confirmed", {"no-patient-connected", "trigger-off"}},
        {name::run, "/operator", "operator 4"}};
    for (const auto& [file, pointer, value] : forgeries) {
        const auto folder = sealed(captured("r1"), request()).folder;
        fs::rename(folder, here_ / "r1.part");
        const auto part = RecordFolder::take_up(here_ / "r1.part");
        change(part, file, pointer, value);
        EXPECT_THAT(trouble([&] { static_cast<void>(settled(part)); }), HasSubstr("was changed since the capture"))
            << file << pointer;
        EXPECT_THROW(static_cast<void>(sealed(part, request())), trace::InputError) << file << pointer;
        fs::remove_all(part.part());
    }
}

TEST_F(CaptureJournalTest, a_reading_that_was_changed_in_the_trace_is_refused)
{
    const auto part = captured("r1", false);
    auto trace = read_file(part.file(name::trace));
    trace[trace.size() / 2] = trace[trace.size() / 2] == '1' ? '2' : '1';
    part.put(name::trace, trace);
    EXPECT_THAT(trouble([&] { static_cast<void>(settled(part)); }), HasSubstr("trace.csv: was changed"));
    EXPECT_EQ(read_file(part.file(name::trace)), trace) << "nothing was put right in passing";
}

TEST_F(CaptureJournalTest, bytes_after_the_last_entry_are_kept_and_not_judged)
{
    const auto part = captured("r1", false);
    const auto whole = read_file(part.file(name::trace));
    std::ofstream(part.file(name::trace), std::ios::app) << "32.50,0.01\n32.5";
    EXPECT_THAT(settled(part), ElementsAre(HasSubstr("the last 15 bytes of trace.csv came after")));
    EXPECT_EQ(read_file(part.file(name::trace)), whole);
    EXPECT_EQ(read_file(part.file(name::after)), "32.50,0.01\n32.5");
    const auto folder = sealed(part, request()).folder;
    EXPECT_TRUE(recheck(folder).intact()) << testing::PrintToString(recheck(folder).folder.troubles);
    EXPECT_THAT(recheck(folder).remarks, ElementsAre(HasSubstr("the capture was cut off")));
}

/// A power cut may take rows whose entry had reached the disk; a journal with its end was written after all of them.
TEST_F(CaptureJournalTest, rows_that_did_not_reach_the_disk_take_the_run_back_to_the_last_entry_that_fits)
{
    const auto part = captured("r1", false);
    const auto marks = read_journal(part.opened()).marks;
    fs::resize_file(part.file(name::trace), marks[3].bytes - 5);
    const auto said = settled(part);
    EXPECT_THAT(said, Contains(HasSubstr("did not reach the disk")));
    EXPECT_EQ(fs::file_size(part.file(name::trace)), marks[2].bytes);
    EXPECT_EQ(fs::file_size(part.file(name::after)), marks[3].bytes - 5 - marks[2].bytes);

    const auto ended = captured("r2");
    fs::resize_file(ended.file(name::trace), marks[2].bytes);
    EXPECT_THAT(trouble([&] { static_cast<void>(settled(ended)); }), HasSubstr("trace.csv: was changed"));
}

TEST_F(CaptureJournalTest, a_run_log_that_is_older_than_the_journal_is_written_again_from_it)
{
    const auto part = captured("r1", false);
    const auto log = load_json(part.file(name::run));
    part.put(name::run, first_log_.dump(2) + "\n");
    EXPECT_THAT(settled(part), ElementsAre(HasSubstr("written again from the journal")));
    EXPECT_EQ(load_json(part.file(name::run)), log);
    fs::remove(part.file(name::run));
    EXPECT_THAT(settled(part), ElementsAre(HasSubstr("written again from the journal")));
    EXPECT_EQ(load_json(part.file(name::run)), log);
}

TEST_F(CaptureJournalTest, a_link_or_a_pipe_in_place_of_what_it_speaks_of_is_refused_by_name)
{
    for (const auto& file : {name::journal, name::trace, name::order, name::run}) {
        const auto part = captured("r1", false);
        const auto text = read_file(part.file(file));
        std::ofstream(here_ / "elsewhere", std::ios::binary) << text;
        fs::remove(part.file(file));
        fs::create_symlink(here_ / "elsewhere", part.file(file));
        EXPECT_THAT(trouble([&] { static_cast<void>(settled(part)); }), HasSubstr(file + ": is a link"));
        fs::remove(part.file(file));
        ASSERT_EQ(::mkfifo(part.file(file).c_str(), 0600), 0);
        EXPECT_THAT(trouble([&] { static_cast<void>(settled(part)); }), HasSubstr(file + ": is a pipe"));
        EXPECT_EQ(read_file(here_ / "elsewhere"), text);
        part.discard();
    }
}

/// A second name of the trace, somewhere else, keeps what it had.
TEST_F(CaptureJournalTest, bytes_after_the_last_entry_are_cut_off_in_this_folder_only)
{
    const auto part = captured("r1", false);
    std::ofstream(part.file(name::trace), std::ios::app) << "32.50,0.01\n";
    const auto whole = read_file(part.file(name::trace));
    fs::create_hard_link(part.file(name::trace), here_ / "elsewhere.csv");
    EXPECT_THAT(settled(part), ElementsAre(HasSubstr("came after")));
    EXPECT_EQ(read_file(here_ / "elsewhere.csv"), whole);
}

TEST_F(CaptureJournalTest, half_a_last_line_of_the_journal_is_taken_for_cut)
{
    const auto part = captured("r1", false);
    const auto journal = read_file(part.file(name::journal));
    std::ofstream(part.file(name::journal), std::ios::app) << "{\"schema\":\"zeroline/jou";
    EXPECT_THAT(settled(part), IsEmpty());
    EXPECT_EQ(read_file(part.file(name::journal)), journal);
}

TEST_F(CaptureJournalTest, without_a_journal_of_a_known_key_a_run_becomes_an_imported_one)
{
    const auto bare = captured("bare");
    fs::remove(bare.file(name::journal));
    EXPECT_THROW(static_cast<void>(seal_and_rename(bare, load_record_evidence(bare.part()),
                                                   assess(load_record_evidence(bare.part())), request())),
                 trace::InputError);
    EXPECT_THAT(settled(bare), ElementsAre(HasSubstr("no capture journal")));
    EXPECT_EQ(load_record_evidence(bare.part()).origin, verification::Origin::imported);

    const auto strange = captured("strange");
    EXPECT_THAT(settle_with_journal(strange, [](const std::string&) { return false; }),
                ElementsAre(HasSubstr("not known here")));
    const auto folder = sealed(strange, request()).folder;
    EXPECT_TRUE(recheck(folder).intact()) << testing::PrintToString(recheck(folder).folder.troubles);
    EXPECT_EQ(load_record_evidence(folder).origin, verification::Origin::imported);
}

TEST_F(CaptureJournalTest, what_is_put_in_later_is_entered_first_and_survives_a_kill_between_the_two)
{
    const auto part = captured("r1");
    const auto order = read_file(part.file(name::order));
    const auto run = read_file(part.file(name::run));
    put_text(part, name::order, "customer", "ward 7", key_);
    put_text(part, name::run, "place", "upstairs", key_);
    EXPECT_THAT(settled(part), IsEmpty());
    part.put(name::order, order);
    part.put(name::run, run);
    EXPECT_THAT(settled(part), ElementsAre(HasSubstr("run.json was written again")));
    EXPECT_EQ(load_json(part.file(name::order))["customer"], "ward 7");
    EXPECT_EQ(load_json(part.file(name::run))["place"], "upstairs");
    EXPECT_TRUE(recheck(sealed(part, request()).folder).intact());
}

TEST_F(CaptureJournalTest, a_record_calculated_again_keeps_the_journal_and_enters_the_other_instrument_file)
{
    const auto first = sealed(captured("first"), request()).folder;
    auto instrument = load_json(first / name::instrument);
    instrument["serial"] = "PT-2";
    write_file_whole(here_ / "other.json", instrument.dump(2));
    const auto part =
        begin_from_record(here_ / "again", first, here_ / "other.json", "the wrong file", [&] { return key_; });
    EXPECT_THAT(settled(part), IsEmpty());
    const auto again = recheck(sealed(part, request()).folder);
    EXPECT_TRUE(again.intact()) << testing::PrintToString(again.folder.troubles);
    EXPECT_EQ(load_record_evidence(here_ / "again").origin, verification::Origin::captured_here);
}

TEST_F(CaptureJournalTest, a_record_from_before_the_journal_keeps_its_seal_and_is_marked)
{
    const auto old = recheck(fs::path(ZEROLINE_SOURCE_DIR) / "tests" / "gui" / "records" / "method_1" / "pass");
    EXPECT_THAT(old.folder.troubles, IsEmpty());
    EXPECT_THAT(old.remarks, Contains(HasSubstr("no capture journal")));
}

TEST_F(CaptureJournalTest, a_file_that_no_record_has_is_not_sealed_with_it)
{
    const auto part = captured("r1");
    std::ofstream(part.file("notes.txt")) << "x";
    EXPECT_THAT(trouble([&] { static_cast<void>(sealed(part, request())); }),
                HasSubstr("notes.txt: is no file of a record"));
    fs::remove(part.file("notes.txt"));
    EXPECT_THAT(sealed(part, request()).missing, IsEmpty());
}

} // namespace
} // namespace zeroline::records
