#include "gui/window/register_place.hpp"

#include "gui/register/delivery.hpp"
#include "gui/register/suspected_instrument.hpp"
#include "gui/session/shown_number.hpp"
#include "gui/session/unit_trend.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/register_table.hpp"
#include "gui/window/tone_colours.hpp"
#include "gui/window/trend_card.hpp"
#include "gui/window/unit_card.hpp"

#include <QComboBox>
#include <QDate>
#include <QFileDialog>
#include <QHeaderView>
#include <QItemSelectionModel>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSaveFile>
#include <QStackedWidget>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

using unit_register::Part;
using unit_register::Rows;
using unit_register::UnitRegister;

namespace {

constexpr int kTyping_ms = 150;   ///< nobody is asked for each letter
constexpr int kListAbreast = 110; ///< letters, from which on there is room beside the list

std::string as_day(const QDate& day) { return day.toString(Qt::ISODate).toStdString(); }

std::string text_of(const Rows& row, const char* key)
{
    return row[key].is_string() ? row[key].get<std::string>() : std::string();
}

/// Runs without a seal whose path holds what is looked for.
Rows runs_not_signed(const UnitRegister& units, const std::filesystem::path& register_file, const std::string& also_in,
                     const Part& part)
{
    auto places = units.places();
    places.emplace_back(also_in);
    auto rows = Rows::array();
    std::int64_t number = 0;
    const auto search = QString::fromStdString(part.search);
    for (const auto& run : unit_register::unsigned_runs(register_file, places)) {
        const auto path = QString::fromStdString(run.string());
        if (path.contains(search, Qt::CaseInsensitive) && number++ >= part.first &&
            static_cast<std::int64_t>(rows.size()) < part.count) {
            rows.push_back(Rows{{"run", run.stem().string()}, {"folder", run.string()}});
        }
    }
    return rows;
}

/// Instruments, each with what makes it suspected, if something does.
Rows instruments_with_suspicions(const UnitRegister& units, const std::string& since, const Part& part)
{
    auto rows = units.instruments(part);
    const auto all = unit_register::suspected_instruments(units.pressures_since(since));
    for (auto& row : rows) {
        row["suspected"] = nullptr;
        for (const auto& one : all) {
            if (row["name"] == one.name && row["serial"] == one.serial) {
                row["suspected"] = "suspected";
                row["off_together"] =
                    Rows{{"units", one.units}, {"ratio", one.ratio}, {"uncertainty", one.uncertainty}};
            }
        }
    }
    return rows;
}

} // namespace

RegisterPlace::RegisterPlace(RegisterReader& reader, QWidget* parent)
    : QWidget(parent), reader_(reader), rows_(reader), touched_(reader)
{
    named(this, "registerPlace", tr("register of units"));
    typing_ = new QTimer(this);
    typing_->setSingleShot(true);
    typing_->setInterval(kTyping_ms);
    columns_ = new QBoxLayout(QBoxLayout::LeftToRight);
    columns_->setSpacing(kGap_px);
    columns_->addWidget(make_list(), 1);
    columns_->addWidget(make_beside(), 1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(kPage_px, kGap_px, kPage_px, kGap_px);
    layout->setSpacing(kGap_px);
    layout->addWidget(make_choice());
    layout->addLayout(columns_, 1);
    connect(typing_, &QTimer::timeout, this, &RegisterPlace::refresh);
    connect(search_, &QLineEdit::textChanged, typing_, qOverload<>(&QTimer::start));
    connect(search_, &QLineEdit::returnPressed, this, &RegisterPlace::refresh);
    connect(ahead_, &QComboBox::currentIndexChanged, this, &RegisterPlace::refresh);
    connect(export_, &QPushButton::clicked, this, &RegisterPlace::ask_for_file);
    connect(&rows_, &RegisterRows::fetched, this, &RegisterPlace::page_came);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &RegisterPlace::row_chosen);
    connect(unit_, &UnitCard::begins, this, &RegisterPlace::begins);
    connect(unit_, &UnitCard::wantsRecord, this, &RegisterPlace::wantsRecord);
    connect(&reader_, &RegisterReader::trouble, says_, &QLabel::setText);
}

QWidget* RegisterPlace::make_choice()
{
    const auto one = [this](List list, const char* name, const QString& text) {
        auto* made = button(name, text);
        made->setCheckable(true);
        connect(made, &QPushButton::clicked, this, [this, list] { choose(list); });
        lists_.emplace_back(list, made);
        return made;
    };
    auto* due = one(List::due, "listDue", tr("Due"));
    due->setChecked(true);
    search_ = text_field("registerSearch", tr("search for asset, serial number, model, record or order"));
    search_->setClearButtonEnabled(true);
    search_->setMinimumWidth(24 * fontMetrics().averageCharWidth());
    ahead_ = choice_field("ahead", tr("how far ahead"));
    for (const auto& [text, days] : {std::pair{tr("in 30 days"), 30}, {tr("in 90 days"), 90}, {tr("in a year"), 366}}) {
        ahead_->addItem(text, days);
    }
    export_ = button("exportList", tr("Export..."));
    auto* row = row_of({due, one(List::units, "listUnits", tr("All units")),
                        one(List::not_signed, "listNotSigned", tr("Not signed")),
                        one(List::instruments, "listInstruments", tr("Instruments")), search_, ahead_, export_});
    let_grow(row, 4);
    return row;
}

QWidget* RegisterPlace::make_list()
{
    table_ = register_table("registerList", tr("list"), &rows_);
    says_ = text_label("registerSays", tr("about this list"));
    auto* card = card_of({table_, not_shown_of(table_), says_});
    static_cast<QVBoxLayout*>(card->layout())->setStretchFactor(table_, 1);
    return card;
}

QWidget* RegisterPlace::make_beside()
{
    beside_ = new QStackedWidget;
    auto* hint = text_label("registerHint", tr("what stands here"),
                            tr("Choose a unit: its visits, how its figures went, and its cycles stand here."));
    nothing_ = card_of({hint});
    static_cast<QVBoxLayout*>(nothing_->layout())->addStretch(1);
    unit_ = new UnitCard(reader_);
    auto* unit = scrolled(unit_, "unitScroll", tr("one unit"));
    for (auto* one : {nothing_, unit, instrument_ = make_records_of_instrument(), run_ = make_run()}) {
        beside_->addWidget(one);
    }
    return beside_;
}

QWidget* RegisterPlace::make_records_of_instrument()
{
    instrument_says_ = text_label("instrumentSays", tr("instrument"));
    touched_table_ = register_table("touched", tr("records made with this instrument"), &touched_);
    auto* open = button("openTouched", tr("Open the record"));
    open->setEnabled(false);
    connect(touched_table_->selectionModel(), &QItemSelectionModel::currentRowChanged, open,
            [open](const QModelIndex& at) { open->setEnabled(at.isValid()); });
    connect(&touched_, &QAbstractItemModel::modelReset, open, [open] { open->setEnabled(false); });
    connect(open, &QPushButton::clicked, this, [this] {
        Q_EMIT wantsRecord(
            QString::fromStdString(text_of(touched_.row(touched_table_->currentIndex().row()), "folder")));
    });
    connect(touched_table_, &QTableView::doubleClicked, open, &QPushButton::click);
    auto* act = row_of({open});
    put_gap(act);
    constexpr int lines = 11; // height of the table, in lines of writing
    touched_table_->setMinimumHeight(lines * fontMetrics().height());
    suspicion_ = text_label("suspicion", tr("what makes it suspected"));
    fill_with(suspicion_, session::Tone::conditional);
    instrument_trend_ = new TrendCard({"instrumentQuantity", "instrumentTrend", "instrumentDrift",
                                       tr("Over its calibrations and checks, as found"),
                                       tr("No calibration with points and no check against a second gauge is "
                                          "registered: nothing is said about drift.")});
    return scrolled(column_of({card_of({heading(tr("Records made with it")), instrument_says_, suspicion_,
                                        touched_table_, not_shown_of(touched_table_), act}),
                               instrument_trend_}),
                    "instrumentScroll", tr("one instrument"));
}

QWidget* RegisterPlace::make_run()
{
    run_says_ = text_label("runSays", tr("run that nobody has signed"));
    auto* open = primary(button("openRun", tr("Open it to sign")));
    connect(open, &QPushButton::clicked, this, [this] {
        Q_EMIT wantsRecord(QString::fromStdString(text_of(rows_.row(table_->currentIndex().row()), "folder")));
    });
    auto* row = row_of({open});
    put_gap(row);
    auto* card = card_of({heading(tr("Not signed")), run_says_, row});
    static_cast<QVBoxLayout*>(card->layout())->addStretch(1);
    return card;
}

void RegisterPlace::choose(List list)
{
    list_ = list;
    for (const auto& [one, button] : lists_) {
        button->setChecked(one == list);
    }
    refresh();
}

void RegisterPlace::refresh()
{
    typing_->stop();
    ahead_->setVisible(list_ == List::due);
    search_->setPlaceholderText(list_ == List::instruments  ? tr("name, serial number")
                                : list_ == List::not_signed ? tr("folder")
                                                            : tr("asset, serial number, model, record, order"));
    says_->setText(tr("Looking..."));
    const auto search = value_of(search_);
    switch (list_) {
    case List::due: {
        const auto today = QDate::currentDate();
        const auto last = today.addDays(ahead_->currentData().toInt());
        rows_.show(
            {{"asset", tr("asset")},
             {"next_due", tr("due")},
             {"state", tr("state")},
             {"verdict", tr("last verdict")},
             {"last_day", tr("last visit")},
             {"model", tr("model")},
             {"serial", tr("serial number")}},
            [today = as_day(today), last = as_day(last)](const UnitRegister& units, const Part& part) {
                return units.due(today, last, part);
            },
            search);
        break;
    }
    case List::units:
        rows_.show(
            {{"asset", tr("asset")},
             {"verdict", tr("last verdict")},
             {"next_due", tr("due")},
             {"last_day", tr("last visit")},
             {"origin", tr("origin")},
             {"verifications", tr("visits")},
             {"model", tr("model")},
             {"serial", tr("serial number")}},
            [](const UnitRegister& units, const Part& part) { return units.units(part); }, search);
        break;
    case List::not_signed:
        rows_.show(
            {{"run", tr("run")}, {"folder", tr("folder")}},
            [file = reader_.file(), folder = runs_folder_.toStdString()](const UnitRegister& units, const Part& part) {
                return runs_not_signed(units, file, folder, part);
            },
            search);
        break;
    case List::instruments:
        rows_.show(
            {{"name", tr("instrument")},
             {"calibration_due", tr("calibration due")},
             {"suspected", tr("state")},
             {"serial", tr("serial number")},
             {"gauge_check_due", tr("second gauge due")},
             {"certificate", tr("certificate")},
             {"verifications", tr("records")}},
            [since = as_day(QDate::currentDate().addYears(-1))](const UnitRegister& units, const Part& part) {
                return instruments_with_suspicions(units, since, part);
            },
            search);
        break;
    }
    show_beside();
}

void RegisterPlace::page_came()
{
    const auto count = rows_.rowCount();
    says_->setText(count == 0               ? tr("Nothing here.")
                   : rows_.canFetchMore({}) ? tr("%1 and more.").arg(count)
                                            : tr("%1 in this list.").arg(count));
    // What was searched for and is the only one is chosen.
    if (count == 1 && !search_->text().isEmpty()) {
        table_->selectRow(0);
    }
}

void RegisterPlace::row_chosen() { show_beside(); }

void RegisterPlace::show_beside()
{
    const int chosen = table_->currentIndex().row();
    if (chosen < 0 || chosen >= rows_.rowCount()) {
        beside_->setCurrentWidget(nothing_);
        return;
    }
    const auto& row = rows_.row(chosen);
    switch (list_) {
    case List::due:
    case List::units:
        unit_->show_unit(text_of(row, "asset"));
        beside_->setCurrentIndex(1);
        break;
    case List::not_signed:
        run_says_->setText(register_text("folder", row["folder"]));
        beside_->setCurrentWidget(run_);
        break;
    case List::instruments:
        show_instrument(row);
        break;
    }
}

void RegisterPlace::show_instrument(const Rows& instrument)
{
    const auto which =
        text_of(instrument, "serial").empty() ? text_of(instrument, "name") : text_of(instrument, "serial");
    instrument_says_->setText(tr("%1, calibration due %2.")
                                  .arg(register_text("name", instrument["name"]),
                                       register_text("calibration_due", instrument["calibration_due"])));
    touched_.show({{"day", tr("day")},
                   {"verdict", tr("verdict")},
                   {"origin", tr("origin")},
                   {"asset", tr("asset")},
                   {"work_order", tr("order")},
                   {"signer", tr("signed by")}},
                  [which](const UnitRegister& units, const Part& part) { return units.touched_by(which, {}, part); },
                  {});
    show_suspicion(instrument);
    ask_for_checks(instrument);
    beside_->setCurrentWidget(instrument_);
}

void RegisterPlace::show_suspicion(const Rows& instrument)
{
    suspicion_->setVisible(!instrument["suspected"].is_null());
    if (suspicion_->isHidden()) {
        return;
    }
    constexpr double percent = 100.0;
    const auto& off = instrument["off_together"];
    suspicion_->setText(tr("%1 different units are off together within a year, all by about %2 % (U %3 %): rather the "
                           "instrument than the units. Compare it with another one before it is used again.")
                            .arg(off["units"].get<std::size_t>())
                            .arg(session::shown_signed(percent * (off["ratio"].get<double>() - 1.0), 1),
                                 session::shown(percent * off["uncertainty"].get<double>(), 1)));
}

void RegisterPlace::ask_for_checks(const Rows& instrument)
{
    instrument_trend_->forget();
    const auto name = text_of(instrument, "name"), serial = text_of(instrument, "serial");
    const auto says = instrument_says_->text();
    reader_.ask<Checks>(
        [name, serial](const UnitRegister& units) {
            return Checks{units.calibrations_of(name, serial), units.gauge_checks_of(name, serial)};
        },
        [this, says](const Checks& checks) {
            if (says == instrument_says_->text()) { // else another one is shown by now
                show_checks(checks);
            }
        });
}

void RegisterPlace::show_checks(const Checks& checks)
{
    auto all = checks.calibrations;
    all.insert(all.end(), checks.gauge.begin(), checks.gauge.end());
    const auto today = QDate::currentDate();
    const auto calibration = session::next_check_of(checks.calibrations, today);
    const auto gauge = session::next_check_of(checks.gauge, today);
    auto says = instrument_says_->text();
    for (const auto& [of, next] :
         {std::pair{tr("Calibration. %1"), calibration.words}, {tr("Against a second gauge. %1"), gauge.words}}) {
        says += next.isEmpty() ? QString() : u'\n' + of.arg(next);
    }
    instrument_says_->setText(says);
    instrument_trend_->show_figures(all, calibration.because_of.isEmpty() ? gauge.because_of : calibration.because_of);
}

void RegisterPlace::take_asset(const QString& asset)
{
    search_->setText(asset.trimmed());
    choose(List::units);
}

void RegisterPlace::ask_for_file()
{
    const auto file = QFileDialog::getSaveFileName(this, tr("Export the list"), QStringLiteral("units.csv"),
                                                   tr("comma-separated values (*.csv)"));
    if (!file.isEmpty()) {
        export_to(file);
    }
}

void RegisterPlace::export_to(const QString& file)
{
    rows_.ask_for_csv([this, file](const QString& csv) {
        QSaveFile out(file);
        const auto bytes = csv.toUtf8();
        const bool written = out.open(QIODevice::WriteOnly) && out.write(bytes) == bytes.size() && out.commit();
        says_->setText(written ? tr("Written to %1.").arg(file)
                               : tr("%1 could not be written: %2.").arg(file, out.errorString()));
    });
}

void RegisterPlace::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    refresh();
    search_->setFocus();
}

void RegisterPlace::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    stand_abreast(*this, kListAbreast, {columns_});
    // One below the other, what is known of a unit needs more room than the list it was chosen from.
    columns_->setStretch(1, columns_->direction() == QBoxLayout::LeftToRight ? 1 : 2);
}

} // namespace zeroline::window
