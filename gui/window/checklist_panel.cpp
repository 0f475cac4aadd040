#include "gui/window/checklist_panel.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>
#include <iterator>

namespace zeroline::window {

using verification::ChecklistItem;
using Outcome = verification::ChecklistItem::Outcome;

namespace {

constexpr double kMinute_s = 60.0;

} // namespace

ChecklistPanel::ChecklistPanel(const std::vector<std::string>& items, const QString& prefix, QWidget* parent)
    : QWidget(parent), prefix_(prefix)
{
    auto* all = button((prefix + QStringLiteral("AllInOrder")).toUtf8().constData(), tr("All seen, all in order"));
    connect(all, &QPushButton::clicked, this, &ChecklistPanel::say_all_in_order);
    auto* key = row_of({all});
    put_gap(key);
    auto* inner = column_of({make_air(), key, make_items(items)});
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(inner);
}

QWidget* ChecklistPanel::make_air()
{
    const auto field = [&](const char* name, const QString& spoken, double low, double high, int decimals,
                           const QString& unit) {
        auto* made = optional_field(name, spoken, low, high, decimals, unit);
        made->setObjectName(prefix_ + QLatin1String(name));
        connect(made, &QDoubleSpinBox::editingFinished, this, &ChecklistPanel::edited);
        return made;
    };
    // The same bounds as the file has.
    temperature_ = field("Temperature", tr("temperature of the room"), -40.0, 70.0, 1, QStringLiteral("\u00B0C"));
    pressure_ = field("AirPressure", tr("pressure of the air"), 400.0, 1100.0, 0, QStringLiteral("hPa"));
    humidity_ = field("Humidity", tr("relative humidity"), 0.0, 100.0, 0, QStringLiteral("%"));
    instrument_on_ = field("InstrumentOn", tr("how long the instrument has been on when the run begins"), 1.0,
                           verification::kLongestOn_s / kMinute_s, 0, QStringLiteral("min"));
    const auto beside = [](const QString& words, QWidget* made) {
        auto* pair = new QWidget;
        auto* layout = new QHBoxLayout(pair);
        layout->setContentsMargins({});
        layout->addWidget(new QLabel(words));
        layout->addWidget(made);
        return pair;
    };
    auto* row = row_of({beside(tr("Air in the room: temperature"), temperature_), beside(tr("pressure"), pressure_),
                        beside(tr("humidity"), humidity_), beside(tr("instrument on for"), instrument_on_)});
    put_gap(row);
    return row;
}

QWidget* ChecklistPanel::make_items(const std::vector<std::string>& items)
{
    auto* rows = new QWidget;
    auto* grid = new QGridLayout(rows);
    grid->setContentsMargins({});
    grid->setColumnStretch(0, 2);
    grid->setColumnStretch(2, 3);
    for (const auto& item : items) {
        add_row(grid, item);
    }
    add_row(grid, {});
    return rows;
}

QLineEdit* ChecklistPanel::line(const QString& name, const QString& spoken)
{
    auto* made = text_field("", spoken);
    made->setObjectName(name);
    made->setPlaceholderText(spoken);
    connect(made, &QLineEdit::editingFinished, this, &ChecklistPanel::edited);
    return made;
}

void ChecklistPanel::add_row(QGridLayout* grid, const std::string& item)
{
    const auto number = QString::number(rows_.size());
    const auto words = item.empty() ? tr("another item") : session::checklist_words(item);
    Row row;
    row.item = item;
    row.outcome = choice_field("", tr("%1: outcome").arg(words));
    row.outcome->setObjectName(prefix_ + QStringLiteral("Outcome") + number);
    row.outcome->addItem(tr("not looked at"));
    for (const auto& [text, outcome] : {std::pair{tr("in order"), Outcome::ok},
                                        {tr("not in order"), Outcome::not_ok},
                                        {tr("does not apply"), Outcome::not_applicable}}) {
        row.outcome->addItem(text, static_cast<int>(outcome));
    }
    connect(row.outcome, &QComboBox::activated, this, &ChecklistPanel::edited);
    row.remark = line(prefix_ + QStringLiteral("Remark") + number, tr("remark"));
    row.remark->setAccessibleName(tr("%1: remark").arg(words));
    if (item.empty()) {
        row.other = line(prefix_ + QStringLiteral("Item") + number, words);
    }
    const int at = static_cast<int>(rows_.size());
    auto* label = new QLabel(words);
    label->setWordWrap(true);
    grid->addWidget(row.other != nullptr ? static_cast<QWidget*>(row.other) : label, at, 0);
    if (row.other != nullptr) {
        delete label;
    }
    grid->addWidget(row.outcome, at, 1);
    grid->addWidget(row.remark, at, 2);
    rows_.push_back(row);
}

void ChecklistPanel::say_all_in_order()
{
    for (const auto& row : rows_) {
        if (row.other == nullptr && !row.outcome->currentData().isValid()) {
            row.outcome->setCurrentIndex(row.outcome->findData(static_cast<int>(Outcome::ok)));
        }
    }
    Q_EMIT edited();
}

std::string ChecklistPanel::name_of(const Row& row) { return row.other != nullptr ? value_of(row.other) : row.item; }

void ChecklistPanel::put(const std::vector<ChecklistItem>& checklist, const verification::Environment& air)
{
    window::put(temperature_, air.temperature_C);
    window::put(pressure_, air.pressure_hPa);
    window::put(humidity_, air.humidity_percent);
    window::put(instrument_on_, air.instrument_on_s ? std::optional(*air.instrument_on_s / kMinute_s) : std::nullopt);
    for (const auto& item : checklist) {
        auto row = std::find_if(rows_.begin(), rows_.end(), [&](const Row& one) { return name_of(one) == item.item; });
        if (row == rows_.end()) {
            row = std::prev(rows_.end());
            window::put(row->other, item.item);
        }
        put_answer(*row, item);
    }
}

void ChecklistPanel::put_answer(const Row& row, const ChecklistItem& answer)
{
    row.outcome->setCurrentIndex(row.outcome->findData(static_cast<int>(answer.outcome)));
    window::put(row.remark, answer.remark);
}

void ChecklistPanel::put_answers(const std::vector<ChecklistItem>& answers)
{
    for (const auto& row : rows_) {
        for (const auto& answer : answers) {
            if (row.other == nullptr && row.item == answer.item) {
                put_answer(row, answer);
            }
        }
    }
}

std::vector<ChecklistItem> ChecklistPanel::checklist() const
{
    std::vector<ChecklistItem> all;
    for (const auto& row : rows_) {
        const auto outcome = row.outcome->currentData();
        const auto name = name_of(row);
        if (outcome.isValid() && !name.empty()) {
            session::note_item(all, {name, static_cast<Outcome>(outcome.toInt()), value_of(row.remark)});
        }
    }
    return all;
}

verification::Environment ChecklistPanel::environment() const
{
    const auto on_min = value_of(instrument_on_);
    return {value_of(temperature_), value_of(pressure_), value_of(humidity_),
            on_min ? std::optional(kMinute_s * *on_min) : std::nullopt};
}

} // namespace zeroline::window
