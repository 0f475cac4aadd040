#include "gui/console/record_csv.hpp"

#include "acquisition/trace/csv_cells.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <sstream>

namespace zeroline::console {
namespace {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using testing::Each;
using testing::HasSubstr;
using testing::SizeIs;
using Cells = std::vector<std::string>;

fs::path a_record(const std::string& name = "oscillation")
{
    return fs::path(ZEROLINE_SOURCE_DIR) / "tests" / "gui" / "records" / "method_1" / name;
}

/// The record as this program computes it, by its own method.
ordered_json computed(const std::string& name = "oscillation")
{
    return records::parse_ordered_json(records::assess(records::load_record_evidence(a_record(name))).record_json);
}

Cells cells_of(const std::string& line)
{
    Cells cells;
    const auto text = line + "\n";
    const char* at = text.data();
    const char* const limit = at + text.size();
    std::string scratch;
    for (;;) {
        const auto cell = trace::read_cell(at, limit, ',', scratch);
        cells.emplace_back(cell.text);
        if (cell.end == nullptr || *cell.end != ',') {
            return cells;
        }
        at = cell.end + 1;
    }
}

std::vector<Cells> rows_of(const std::string& csv)
{
    std::vector<Cells> rows;
    std::istringstream lines(csv);
    for (std::string line; std::getline(lines, line);) {
        rows.push_back(cells_of(line));
    }
    return rows;
}

/// "insufflation/duration_s" of every number and text in a tree; null_because is one cell.
void put_leaves(const ordered_json& tree, const std::string& name, Cells& leaves)
{
    if (tree.is_object() && !name.ends_with("null_because")) {
        for (const auto& [key, value] : tree.items()) {
            put_leaves(value, name.empty() ? key : name + "_" + key, leaves);
        }
    } else if (!tree.is_null()) {
        leaves.push_back(name);
    }
}

void expect_every_leaf_has_a_column(const ordered_json& list, const std::string& csv)
{
    const auto headings = rows_of(csv).front();
    ASSERT_GT(list.size(), 1u);
    for (const auto& one : list) {
        Cells leaves;
        put_leaves(one, "", leaves);
        for (const auto& leaf : leaves) {
            EXPECT_THAT(headings, testing::Contains(leaf));
        }
    }
}

TEST(RecordCsv, HasAColumnForEverythingThatTheRecordSays)
{
    for (const auto* name : {"pass", "fail", "oscillation"}) {
        const auto record = computed(name);
        expect_every_leaf_has_a_column(record["judgements"], judgements_csv(record));
        expect_every_leaf_has_a_column(record["cycles"], cycles_csv(record));
    }
}

TEST(RecordCsv, HasARowForEachAndAsManyCellsAsHeadings)
{
    const auto record = computed();
    for (const auto& [list, csv] : {std::pair("judgements", judgements_csv(record)), {"cycles", cycles_csv(record)}}) {
        const auto rows = rows_of(csv);
        EXPECT_THAT(rows, SizeIs(1 + record[list].size())) << list;
        EXPECT_THAT(rows, Each(SizeIs(rows.front().size()))) << list;
    }
}

TEST(RecordCsv, HoldsEachNumberToTheLastBit)
{
    const auto record = computed();
    const auto rows = rows_of(cycles_csv(record));
    const auto column = static_cast<std::size_t>(
        std::find(rows[0].begin(), rows[0].end(), "insufflation_plateau_cmH2O") - rows[0].begin());
    ASSERT_LT(column, rows[0].size());
    int numbers = 0;
    for (std::size_t i = 0; i < record["cycles"].size(); ++i) {
        const auto& phase = record["cycles"][i]["insufflation"];
        if (phase.is_object() && phase["plateau_cmH2O"].is_number()) {
            EXPECT_EQ(trace::number_in(rows[i + 1][column], '.'), phase["plateau_cmH2O"].get<double>());
            ++numbers;
        } else {
            EXPECT_EQ(rows[i + 1][column], "") << "never 0";
        }
    }
    EXPECT_GT(numbers, 2);
}

TEST(RecordCsv, NamesTheRecordInEveryRowAndKeepsTextsFromBeingComputed)
{
    auto record = computed();
    record["order"]["work_order"] = "=1+1";
    record["judgements"][0]["reason"] = {{"code", "outside-limits"}, {"text", "-33.1, of -40"}};
    const auto rows = rows_of(judgements_csv(record));
    EXPECT_THAT((Cells{rows[0].begin(), rows[0].begin() + 4}),
                testing::ElementsAre("record_number", "work_order", "asset", "origin"));
    for (std::size_t i = 1; i < rows.size(); ++i) {
        EXPECT_EQ(rows[i][1], "'=1+1");
    }
    EXPECT_EQ(rows[1][rows[1].size() - 2], "'-33.1, of -40");
    EXPECT_THAT(judgements_csv(record), HasSubstr(",\"'-33.1, of -40\",\n"));
}

TEST(RecordCsv, OfALaterOrEmptyRecordHasTheHeadingsAtLeast)
{
    EXPECT_THAT(rows_of(judgements_csv(ordered_json::object())), SizeIs(1));
    EXPECT_EQ(rows_of(cycles_csv(ordered_json::object())).front(), rows_of(cycles_csv(computed())).front());
}

TEST(RecordCsv, TheTraceIsTheDerivedOneAndReadsBackToTheSameBits)
{
    const auto evidence = records::load_record_evidence(a_record());
    const auto rows = rows_of(trace_csv(evidence.trace));
    ASSERT_THAT(rows, SizeIs(1 + evidence.trace.size()));
    EXPECT_EQ(rows[0], (Cells{"time_s", "pressure_cmH2O"}));
    for (std::size_t i = 0; i < evidence.trace.size(); ++i) {
        ASSERT_EQ(trace::number_in(rows[i + 1][0], '.'), evidence.trace.time_s[i]);
        ASSERT_EQ(trace::number_in(rows[i + 1][1], '.'), evidence.trace.pressure_cmH2O[i]);
    }
}

} // namespace
} // namespace zeroline::console
