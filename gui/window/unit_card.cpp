#include "gui/window/unit_card.hpp"

#include "gui/charts/overlay_chart.hpp"
#include "gui/session/saved_cycles.hpp"
#include "gui/session/unit_trend.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/register_table.hpp"
#include "gui/window/tone_colours.hpp"
#include "gui/window/trend_card.hpp"

#include <QComboBox>
#include <QHeaderView>
#include <QItemSelectionModel>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

using session::CycleOverlay;
using unit_register::Rows;

namespace {

constexpr int kChartLines = 12, kVisitLines = 11; ///< heights, in lines of writing

struct Cycles {
    CycleOverlay these, before;
};

} // namespace

UnitCard::UnitCard(RegisterReader& reader, QWidget* parent)
    : QWidget(parent), reader_(reader), shown_(std::make_shared<std::atomic<int>>(0)), visits_(reader)
{
    named(this, "unitCard", tr("one unit"));
    table_ = register_table("visits", tr("visits of this unit"), &visits_);
    table_->setMinimumHeight(kVisitLines * fontMetrics().height());
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->setSpacing(kGap_px);
    for (auto* part :
         {make_head(), card_of({heading(tr("Visits")), table_, not_shown_of(table_)}), make_trend(), make_cycles()}) {
        layout->addWidget(part);
    }
    layout->addStretch(1);
    connect(begin_, &QPushButton::clicked, this, [this] { Q_EMIT begins(QString::fromStdString(asset_)); });
    connect(open_, &QPushButton::clicked, this,
            [this] { Q_EMIT wantsRecord(QString::fromStdString(folder_of(visit()).string())); });
    connect(table_, &QTableView::doubleClicked, open_, &QPushButton::click);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &UnitCard::visit_chosen);
    connect(preset_, &QComboBox::currentIndexChanged, this, &UnitCard::ask_for_cycles);
}

QWidget* UnitCard::make_head()
{
    constexpr double asset_pt = 18.0;
    head_ = large_label("unitAsset", tr("asset number"), asset_pt, true);
    says_ = text_label("unitSays", tr("what is known of it"));
    begin_ = primary(button("beginWithUnit", tr("Begin a run with this unit")));
    open_ = button("openVisit", tr("Open the record"));
    open_->setEnabled(false);
    auto* row = row_of({begin_, open_});
    put_gap(row);
    return card_of({head_, says_, row});
}

QWidget* UnitCard::make_trend()
{
    return trend_ = new TrendCard({"trendQuantity", "trend", "drift", tr("Over the visits, as found"),
                                   tr("No visit captured here: nothing is said about drift.")});
}

QWidget* UnitCard::make_cycles()
{
    preset_ = choice_field("visitPreset", tr("preset"));
    cycles_ = new charts::OverlayChart;
    cycles_->setObjectName(QStringLiteral("visitCycles"));
    cycles_->setMinimumHeight(kChartLines * fontMetrics().height());
    cycles_say_ = text_label("cyclesSay", tr("which visits are shown"));
    origin_ = text_label("cyclesOrigin", tr("where they are from"));
    fill_with(origin_, session::Tone::conditional);
    return card_of({heading(tr("Cycles of this visit and of the one before")), origin_, preset_, cycles_, cycles_say_});
}

std::function<bool()> UnitCard::still() const
{
    return [shown = shown_, mine = shown_->load()] { return shown->load() == mine; };
}

void UnitCard::show_unit(const std::string& asset)
{
    ++*shown_;
    if (asset != asset_) {
        forget();
    }
    asset_ = asset;
    head_->setText(register_text("asset", asset));
    reader_.ask<Rows>([asset](const auto& units) { return units.history(asset); },
                      [this](const Rows& visits) { show_visits(visits); }, still());
    reader_.ask<Rows>([asset](const auto& units) { return units.figures_of(asset); },
                      [this](const Rows& figures) { show_figures(figures); }, still());
}

/// Whatever the register answers, and whenever: nothing of the unit before stands here.
void UnitCard::forget()
{
    says_->clear();
    show_visits(Rows::array());
    trend_->forget();
    const QSignalBlocker quiet(preset_);
    preset_->clear();
    cycles_->show_cycles({});
    cycles_say_->hide();
    origin_->hide();
}

/// Cycles that no unit made are never taken for a unit's.
void UnitCard::say_origin()
{
    QStringList says;
    for (const auto& [which, of] : {std::pair{visit(), tr("this visit: %1")}, {visit() + 1, tr("visit before: %1")}}) {
        const bool known = which >= 0 && which < visits_.rowCount();
        if (known && visits_.row(which)["origin"] != "captured-here") {
            says << of.arg(register_text("origin", visits_.row(which)["origin"]));
        }
    }
    origin_->setText(says.join(QStringLiteral("; ")));
    origin_->setVisible(!says.isEmpty());
}

/// The newest on top, and chosen.
void UnitCard::show_visits(const Rows& visits)
{
    auto newest_first = visits;
    std::reverse(newest_first.begin(), newest_first.end());
    visits_.put({{"day", tr("day")},
                 {"verdict", tr("verdict")},
                 {"origin", tr("origin")},
                 {"work_order", tr("order")},
                 {"occasion", tr("occasion")},
                 {"instrument_serial", tr("instrument")},
                 {"signer", tr("signed by")}},
                std::move(newest_first));
    if (visits_.rowCount() > 0) {
        const auto& last = visits_.row(0);
        says_->setText(register_text("model", last["model"]) + QStringLiteral(" \u00B7 ") +
                       tr("serial number %1").arg(register_text("serial", last["serial"])));
        table_->selectRow(0);
    }
    open_->setEnabled(visits_.rowCount() > 0);
}

void UnitCard::show_figures(const Rows& figures)
{
    const auto next = session::next_check_of(figures, QDate::currentDate());
    trend_->show_figures(figures, next.because_of);
    if (!next.words.isEmpty()) {
        says_->setText(says_->text() + u'\n' + next.words);
    }
}

int UnitCard::visit() const { return table_->currentIndex().row(); }

std::filesystem::path UnitCard::folder_of(int visit) const
{
    if (visit < 0 || visit >= visits_.rowCount() || !visits_.row(visit)["folder"].is_string()) {
        return {};
    }
    return visits_.row(visit)["folder"].get<std::string>();
}

void UnitCard::visit_chosen()
{
    const auto folder = folder_of(visit());
    reader_.ask<std::vector<std::string>>([folder](const auto&) { return session::saved_presets(folder); },
                                          [this](const auto& presets) { show_presets(presets); }, still());
}

void UnitCard::show_presets(const std::vector<std::string>& presets)
{
    const auto before = preset_->currentText();
    {
        const QSignalBlocker quiet(preset_);
        preset_->clear();
        for (const auto& preset : presets) {
            preset_->addItem(QString::fromStdString(preset));
        }
        preset_->setCurrentIndex(std::max(0, preset_->findText(before)));
    }
    preset_->setVisible(presets.size() > 1);
    ask_for_cycles();
}

void UnitCard::ask_for_cycles()
{
    const auto these = folder_of(visit()), before = folder_of(visit() + 1);
    const auto preset = preset_->currentText().toStdString();
    const auto wanted = visit();
    reader_.ask<Cycles>(
        [these, before, preset](const auto&) {
            return Cycles{session::saved_cycles(these, preset), session::saved_cycles(before, preset)};
        },
        [this, wanted](const Cycles& cycles) {
            if (wanted == visit()) {
                cycles_->show_cycles({cycles.these, {}, cycles.before.median});
                cycles_say_->setText(cycles.these.cycles.empty() ? tr("The folder of this record is not where it was.")
                                     : cycles.before.median.empty() ? tr("No visit before that could be read.")
                                                                    : QString());
                cycles_say_->setVisible(!cycles_say_->text().isEmpty());
                say_origin();
            }
        },
        still());
}

} // namespace zeroline::window
