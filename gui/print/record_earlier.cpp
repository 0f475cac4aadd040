#include "gui/print/record_parts.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

using session::ResultRow;

const ResultRow* same_in(const PrintedRecord& record, const JudgementRow& wanted)
{
    const auto& rows = record.result.rows;
    const auto at = std::find_if(rows.begin(), rows.end(), [&](const ResultRow& row) {
        return row.is.measurand == wanted.measurand && row.is.preset == wanted.preset &&
               row.is.against == wanted.against && row.is.power == wanted.power;
    });
    return at == rows.end() ? nullptr : &*at;
}

std::vector<Cell> columns_for(const ResultRow* row)
{
    if (row == nullptr) {
        return {{.text = Numerals("en").nothing(), .align = Align::right}, {.text = "not measured"}};
    }
    return {{.text = row->worst, .align = Align::right}, verdict_cell(row->sign, row->word, row->tone)};
}

using Runs = std::vector<const PrintedRecord*>;

QString relation_of(const PrintedRecord& record) { return record.text("/issue/earlier/relation"); }

/// This record and those it holds, the oldest first.
Runs runs_of(const PrintedRecord& record)
{
    Runs runs;
    for (const auto* one = &record; one != nullptr; one = one->before.get()) {
        runs.insert(runs.begin(), one);
    }
    return runs;
}

QString attempt_of(const PrintedRecord& record)
{
    return "attempt " + QString::number(static_cast<int>(record.figure("/attempt").value_or(1.0)));
}

/// "as found", "as left", "attempt 2": what a column is called.
QString name_in(const Runs& runs, std::size_t i)
{
    if (i + 1 < runs.size() && relation_of(*runs[i + 1]) == "as-found") {
        return "as found";
    }
    if (relation_of(*runs[i]) != "as-found") {
        return attempt_of(*runs[i]);
    }
    const bool alone = i + 1 == runs.size();
    return alone ? QString("as left") : "as left, " + attempt_of(*runs[i]);
}

/// The first says what was found, the last ones what came of it: what is between gives way.
Runs shown(Runs runs)
{
    constexpr std::size_t abreast = 4;
    if (runs.size() > abreast) {
        runs.erase(runs.begin() + 1, runs.end() - (abreast - 1));
    }
    return runs;
}

std::vector<Cell> whole_row(const Runs& runs)
{
    std::vector<Cell> cells{{.text = "the whole"}};
    for (const auto* run : runs) {
        cells.push_back({.text = moment_text(run->text("/run/began")).left(16), .align = Align::right});
        cells.push_back(verdict_cell(run->result.sign, run->result.word, run->result.tone));
    }
    return cells;
}

/// Worst value and verdict of each measurand, the runs side by side.
Table side_by_side(const Runs& all)
{
    const auto runs = shown(all);
    const double wide = runs.size() < 3 ? 64.0 : runs.size() == 3 ? 48.0 : 38.0;
    Table content{{{"quantity", 190.0 - wide * static_cast<double>(runs.size())}}, {}, 6.8};
    for (const auto* run : runs) {
        const auto at = std::find(all.begin(), all.end(), run) - all.begin();
        const auto name = name_in(all, static_cast<std::size_t>(at));
        content.columns.push_back({name + ", worst", wide / 2, Align::right});
        content.columns.push_back({name, wide / 2});
    }
    content.rows.push_back(whole_row(runs));
    const auto& last = *runs.back();
    for (const auto& row : last.result.rows) {
        const auto name = (last.presets.size() > 1 ? row.is.preset + ": " : QString()) + row.name + ", " + row.is.unit;
        std::vector<Cell> cells{{.text = name}};
        for (const auto* run : runs) {
            for (auto& cell : columns_for(run == &last ? &row : same_in(*run, row.is))) {
                cells.push_back(std::move(cell));
            }
        }
        content.rows.push_back(std::move(cells));
    }
    return content;
}

/// What a record says of the one it follows.
QString words_about_earlier(const PrintedRecord& record)
{
    const auto relation = relation_of(record);
    const auto verdict = session::outcome_named(record.text("/issue/earlier/verdict"));
    const auto earlier = "record " + record.text("/issue/earlier/record_number") + ", " + session::sign_of(verdict) +
                         " " + session::ResultWords(session::Reader::paper).outcome(verdict);
    const auto reason = record.text("/issue/earlier/reason");
    if (relation == "as-found") {
        return "As found: " + earlier + ". Done between: " + reason;
    }
    if (relation == "attempt") {
        return (record.before ? "Before " + attempt_of(record) + ": " + attempt_of(*record.before) + ", " : QString()) +
               earlier + ". Tried again: " + reason;
    }
    return "Calculated again from the trace of " + earlier + ", because: " + reason;
}

/// Which of the attempts before and at this record stands.
QString standing_words(const PrintedRecord& record)
{
    std::vector<verification::Attempt> attempts;
    for (const auto* one = &record; one != nullptr && one->attempt; one = one->before.get()) {
        attempts.insert(attempts.begin(), one->attempt->attempt);
        if (relation_of(*one) != "attempt") {
            break;
        }
    }
    return QString::fromStdString(verification::standing_sentence(attempts));
}

QString heading_of(const Runs& runs)
{
    const auto has = [&](const char* relation) {
        return std::any_of(runs.begin(), runs.end(), [&](const auto* run) { return relation_of(*run) == relation; });
    };
    if (has("as-found")) {
        return has("attempt") ? "As found, as left, attempts" : "As found and as left";
    }
    return has("attempt") ? "Attempts" : "Follows an earlier record";
}

} // namespace

PageBlocks earlier_part(const PrintedRecord& record)
{
    if (relation_of(record).isEmpty()) {
        return {};
    }
    const auto runs = runs_of(record);
    PageBlocks blocks{heading(heading_of(runs))};
    for (const auto* run : runs) {
        if (!relation_of(*run).isEmpty()) {
            blocks.push_back(paragraph(words_about_earlier(*run), {.size_pt = 7.2}));
        }
    }
    if (const auto words = standing_words(record); !words.isEmpty()) {
        blocks.push_back(paragraph(words, {.size_pt = 7.2, .bold = true}));
    }
    if (runs.size() > 1) {
        for (auto& block : blocks) {
            block.keeps_next = true;
        }
        // In one block where a page can take it: nobody compares over the turn of a page.
        constexpr std::size_t fits = 30;
        const auto content = side_by_side(runs);
        auto rows = content.rows.size() <= fits ? PageBlocks{whole_table(content)} : table(content);
        blocks.insert(blocks.end(), rows.begin(), rows.end());
    }
    return blocks;
}

PageBlocks corrections_part(const PrintedRecord& record)
{
    if (record.corrections.empty()) {
        return {};
    }
    Table content{
        {{"added", 20.0}, {"by, at", 50.0}, {"why", 54.0}, {"what it should read, or remark", 66.0}}, {}, 6.8};
    for (const auto& one : record.corrections) {
        content.rows.push_back(
            {{.text = QString::fromStdString(one.kind), .bold = true},
             {.text = QString::fromStdString(one.name) + ", " + moment_text(QString::fromStdString(one.time))},
             {.text = QString::fromStdString(one.reason)},
             {.text = QString::fromStdString(one.text)}});
    }
    PageBlocks blocks{heading("Added since it was sealed; the record itself stays as it is")};
    auto rows = table(content);
    blocks.insert(blocks.end(), rows.begin(), rows.end());
    return blocks;
}

} // namespace zeroline::print
