#include "gui/print/record_parts.hpp"

#include <algorithm>

namespace zeroline::print {

namespace {

const Style kNote{.size_pt = 6.4, .colour = QColor(0x30, 0x30, 0x30)};
const QString kFigureWords = " In the figures (n): not judged; hatched: nothing received.";
constexpr double kNumbersSize = 6.6;

/// Where limits come from, in the order of their first use; each gets a letter where there are several.
class Sources {
public:
    explicit Sources(const PrintedRecord& record) : list_(record.result.sources) {}

    [[nodiscard]] QString letter(const JudgementRow& row) const
    {
        return list_.size() < 2 || !row.has_limits() ? QString() : " " + letter_at(list_.indexOf(row.basis));
    }

    [[nodiscard]] QString sentence(const PrintedRecord& record) const
    {
        QStringList words;
        for (qsizetype i = 0; i < list_.size(); ++i) {
            const auto house = record.text("/house/label");
            const bool of_house = house.startsWith(list_[i]);
            words << (list_.size() < 2 ? QString() : letter_at(i) + ": ") + (of_house ? house : list_[i]);
        }
        return words.isEmpty() ? QString() : "Limits from " + words.join("; ") + ".";
    }

private:
    [[nodiscard]] static QString letter_at(qsizetype index)
    {
        return QString(QChar(static_cast<char16_t>(u'a' + index)));
    }

    QStringList list_;
};

bool set_differs(const PrintedRecord& record)
{
    return std::any_of(record.judgements.begin(), record.judgements.end(), [](const JudgementRow& row) {
        return row.against == "set" || (row.set && row.prescribed && *row.set != *row.prescribed);
    });
}

std::vector<Column> columns_of(const QString& preset, bool with_set)
{
    std::vector<Column> columns{{"preset " + preset, 37.0},
                                {"unit", 12.0},
                                {"prescribed", 17.0, Align::right},
                                {"displayed", 16.5, Align::right},
                                {"mean", 13.0, Align::right},
                                {"worst (cycle)", 20.0, Align::right},
                                {"limits", 29.0, Align::right},
                                {"U (k)", 24.0, Align::right},
                                {"ratio", 9.5, Align::right},
                                {"n", 8.0, Align::right},
                                {"verdict", 20.5}};
    if (with_set) {
        columns.insert(columns.begin() + 3, {"set", 11.0, Align::right});
    }
    return columns;
}

std::vector<Cell> cells_of(const session::ResultRow& row, const Sources& sources, bool with_set)
{
    const auto right = [](const QString& text) { return Cell{.text = text, .align = Align::right}; };
    const auto with_more = [](const QString& text, bool there, const QString& more) {
        return there ? text + " (" + more + ")" : text;
    };
    const auto& is = row.is;
    const bool stands_out = row.tone != session::Tone::pass && row.tone != session::Tone::none;
    std::vector<Cell> cells{
        {.text = row.name, .bold = stands_out},
        {.text = is.unit},
        right(row.prescribed),
        right(row.displayed),
        right(row.mean),
        {.text = with_more(row.worst, is.worst_cycle.has_value(), QString::number(is.worst_cycle.value_or(0))),
         .align = Align::right,
         .bold = stands_out},
        right(row.limits + sources.letter(is)),
        right(with_more(row.uncertainty, is.coverage_factor.has_value(), row.coverage)),
        right(row.ratio),
        right(QString::number(is.n)),
        verdict_cell(row.sign, row.word, row.tone)};
    if (with_set) {
        cells.insert(cells.begin() + 3, right(row.set));
    }
    return cells;
}

PageBlock table_of(const PrintedRecord& record, const QString& preset, const Sources& sources)
{
    const bool with_set = set_differs(record);
    Table content{columns_of(preset, with_set), {}, kNumbersSize};
    for (const auto& row : record.result.rows) {
        if (row.is.preset == preset) {
            content.rows.push_back(cells_of(row, sources, with_set));
        }
    }
    return whole_table(content, 1.6);
}

/// A measurand of a ladder: a row a setting, and the straight line through them.
void add_ladder(PageBlocks& blocks, const session::LadderView& ladder)
{
    const auto right = [](const QString& text) { return Cell{.text = text, .align = Align::right}; };
    Table content{{{"ladder: " + ladder.name + ", preset " + ladder.preset, 60.0},
                   {"unit", 14.0},
                   {"set", 18.0, Align::right},
                   {"mean", 18.0, Align::right},
                   {"error", 18.0, Align::right},
                   {"U", 18.0, Align::right},
                   {"verdict", 36.0}},
                  {},
                  kNumbersSize};
    for (const auto& at : ladder.settings) {
        content.rows.push_back({Cell{}, Cell{.text = ladder.unit}, right(at.set), right(at.mean), right(at.error),
                                right(at.uncertainty), verdict_cell(at.sign, at.word, at.tone)});
    }
    blocks.push_back(whole_table(content, 1.6));
    blocks.push_back(paragraph(ladder.line, kNote, 0.4));
}

QString rule_words(const PrintedRecord& record)
{
    const bool guarded = record.text("/decision_rule") == "guarded";
    return QString("Decision rule, fixed in the order: ") +
           (guarded ? "guarded acceptance, guard band U: a value that passes is wrong in at most 2.3 % of cases."
                    : "simple acceptance: a value at the limit itself is wrong in half of the cases.") +
           " What keeps a unit out of use is decided by the limit itself, whatever the rule; beyond it by no more than "
           "U it "
           "is called possible, and is kept out of use all the same." +
           " Judged is the worst cycle with its expanded uncertainty U (95.45 %, factor k); ratio: tolerance over 2U. ";
}

QString duration_words(const PrintedRecord& record)
{
    for (const auto& row : record.judgements) {
        if (row.definition == "mid-level") {
            return "Durations between 50 % points where the source of the limits defines them so, else onset to onset "
                   "by "
                   "the 10/30 line. ";
        }
    }
    return "Durations run from onset to onset by the 10/30 line. ";
}

} // namespace

PageBlocks numbers_part(const PrintedRecord& record)
{
    const Sources sources(record);
    PageBlocks blocks;
    for (const auto& preset : record.presets) {
        blocks.push_back(table_of(record, preset, sources));
    }
    for (const auto& ladder : record.result.ladder) {
        add_ladder(blocks, ladder);
    }
    for (const auto& test : record.result.tests) {
        blocks.push_back(paragraph(test, kNote, 0.4));
    }
    blocks.push_back(
        paragraph(rule_words(record) + duration_words(record) + sources.sentence(record) + kFigureWords, kNote, 0.8));
    return blocks;
}

} // namespace zeroline::print
