#include "gui/print/record_parts.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

const JudgementRow* same_in(const SavedRecord& record, const JudgementRow& wanted)
{
    const auto at = std::find_if(record.judgements.begin(), record.judgements.end(), [&](const JudgementRow& row) {
        return row.measurand == wanted.measurand && row.preset == wanted.preset && row.against == wanted.against;
    });
    return at == record.judgements.end() ? nullptr : &*at;
}

std::vector<Cell> columns_for(const JudgementRow* row, const Numerals& numerals)
{
    if (row == nullptr) {
        return {{.text = numerals.plain({}), .align = Align::right}, {.text = "not measured"}};
    }
    return {{.text = numerals.measured(*row, row->worst), .align = Align::right},
            mark_cell(row->verdict, row->critical)};
}

std::vector<Cell> row_of(const QString& name, std::vector<Cell> found, std::vector<Cell> left)
{
    std::vector<Cell> cells{{.text = name}};
    cells.insert(cells.end(), std::make_move_iterator(found.begin()), std::make_move_iterator(found.end()));
    cells.insert(cells.end(), std::make_move_iterator(left.begin()), std::make_move_iterator(left.end()));
    return cells;
}

Cell verdict_cell(const SavedRecord& record) { return mark_cell(record.text("/verdict"), record.critical()); }

/// Worst value and verdict of each measurand, as found beside as left.
Table both_columns(const SavedRecord& found, const SavedRecord& left, const Numerals& numerals)
{
    Table content{{{"measurand", 62.0},
                   {"as found, worst", 32.0, Align::right},
                   {"as found", 32.0},
                   {"as left, worst", 32.0, Align::right},
                   {"as left", 32.0}},
                  {},
                  6.8};
    const auto began = [](const SavedRecord& record) {
        return Cell{.text = moment_text(record.text("/run/began")).left(16), .align = Align::right};
    };
    content.rows.push_back(row_of("the whole", {began(found), verdict_cell(found)}, {began(left), verdict_cell(left)}));
    for (const auto& row : left.judgements) {
        const auto name = (left.presets.size() > 1 ? row.preset + ": " : QString()) + name_of(row) + ", " + row.unit;
        content.rows.push_back(row_of(name, columns_for(same_in(found, row), numerals), columns_for(&row, numerals)));
    }
    return content;
}

} // namespace

Pieces earlier_part(const SavedRecord& record, const Numerals& numerals)
{
    const auto relation = record.text("/issue/earlier/relation");
    if (relation.isEmpty()) {
        return {};
    }
    const bool repaired = relation == "as-found";
    const auto number = record.text("/issue/earlier/record_number");
    const auto reason = record.text("/issue/earlier/reason");
    Pieces pieces{heading(repaired ? "As found and as left" : "Follows an earlier record")};
    const auto verdict = mark_of(record.text("/issue/earlier/verdict"), false);
    pieces.push_back(paragraph((repaired ? "As found: record " : "Calculated again from the trace of record ") +
                                   number + ", " + verdict.sign + " " + verdict.word +
                                   (repaired ? ". Done between: " : ", because: ") + reason,
                               {.size_pt = 7.2}));
    if (record.as_found) {
        pieces.back().keeps_next = true;
        auto rows = table(both_columns(*record.as_found, record, numerals));
        pieces.insert(pieces.end(), rows.begin(), rows.end());
    }
    return pieces;
}

Pieces corrections_part(const SavedRecord& record)
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
    Pieces pieces{heading("Added since it was sealed; the record itself stays as it is")};
    auto rows = table(content);
    pieces.insert(pieces.end(), rows.begin(), rows.end());
    return pieces;
}

} // namespace zeroline::print
