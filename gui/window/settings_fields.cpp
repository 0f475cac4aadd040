#include "gui/window/settings_fields.hpp"

#include "gui/session/prescribed_settings.hpp"
#include "gui/window/page_parts.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace zeroline::window {

using verification::Displayed;
using verification::Settings;
using verification::Shows;

namespace {

constexpr double kHighest_cmH2O = 100.0;
constexpr double kLongest_s = 10.0;

/// A box at its lowest value stands for "not read".
bool not_read(const QDoubleSpinBox* box) { return box->value() <= box->minimum(); }

/// A box under its name.
QWidget* labelled(const QString& name, QWidget* box)
{
    auto* both = column_of({new QLabel(name), box});
    both->layout()->setSpacing(2);
    return both;
}

/// The name of a preset, on the height of the boxes beside it.
QWidget* preset_label(const std::string& preset)
{
    auto* label = new QLabel(QString::fromStdString(preset));
    label->setAlignment(Qt::AlignBottom);
    label->setMargin(8);
    label->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Preferred);
    return label;
}

bool anything_in(const Settings& settings)
{
    return settings.insufflation_pressure || settings.exsufflation_pressure || settings.insufflation_duration ||
           settings.exsufflation_duration || settings.pause_duration || settings.trigger_on || settings.flow ||
           settings.alarms_on || !settings.mode.empty();
}

QString spoken(const std::string& preset, const QString& what)
{
    return QStringLiteral("%1, %2").arg(QString::fromStdString(preset), what);
}

} // namespace

QDoubleSpinBox* number_box(const char* name, const QString& spoken_name, double low, double high, int decimals,
                           const QString& unit)
{
    auto* box = named(new QDoubleSpinBox, name, spoken_name);
    box->setDecimals(decimals);
    box->setRange(low, high);
    box->setMinimumHeight(kTarget_px);
    box->setKeyboardTracking(false);
    box->setAlignment(Qt::AlignRight);
    if (!unit.isEmpty()) {
        box->setSuffix(u' ' + unit);
    }
    return box;
}

QDoubleSpinBox* pressure_box(const char* name, const QString& spoken_name, bool negative)
{
    auto* box = number_box(name, spoken_name, 0.0, kHighest_cmH2O, 1);
    box->setPrefix(negative ? QStringLiteral("-") : QStringLiteral("+"));
    return box;
}

QDoubleSpinBox* duration_box(const char* name, const QString& spoken_name)
{
    auto* box = number_box(name, spoken_name, 0.0, kLongest_s, 2);
    box->setSingleStep(0.1);
    return box;
}

SettingsFields::SettingsFields(const verification::WorkOrder& order, const QString& prefix, QWidget* parent)
    : QWidget(parent), prefix_(prefix)
{
    auto* all = button((prefix + QStringLiteral("AllAsPrescribed")).toUtf8().constData(), tr("All as prescribed  [A]"));
    connect(all, &QPushButton::clicked, this, &SettingsFields::say_as_prescribed);
    auto* key = row_of({all});
    put_gap(key);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    layout->addWidget(key);
    for (const auto& preset : order.presets) {
        layout->addWidget(make_row(preset));
    }
}

/// One step below the lowest value stands for "not read".
QDoubleSpinBox* SettingsFields::open_box(QDoubleSpinBox* box)
{
    box->setMinimum(-box->singleStep());
    box->setSpecialValueText(QStringLiteral("\u2013"));
    box->setValue(box->minimum());
    connect(box, &QDoubleSpinBox::valueChanged, this, &SettingsFields::note_edit);
    return box;
}

QComboBox* SettingsFields::choice(const char* what, const QString& spoken_name,
                                  std::initializer_list<std::pair<QString, int>> choices)
{
    auto* made = named(new QComboBox, (prefix_ + QLatin1String(what)).toUtf8().constData(), spoken_name);
    made->setMinimumHeight(kTarget_px);
    made->addItem(QStringLiteral("\u2013"), -1);
    for (const auto& [text, code] : choices) {
        made->addItem(text, code);
    }
    connect(made, &QComboBox::currentIndexChanged, this, &SettingsFields::note_edit);
    return made;
}

QWidget* SettingsFields::make_row(const verification::Preset& preset)
{
    const auto name = [&](const char* what) { return (prefix_ + QLatin1String(what)).toUtf8(); };
    const auto spoken_as = [&](const QString& what) { return spoken(preset.name, what); };
    Row row;
    row.preset = preset;
    row.insufflation = open_box(pressure_box(name("Insufflation"), spoken_as(tr("insufflation pressure")), false));
    row.exsufflation = open_box(pressure_box(name("Exsufflation"), spoken_as(tr("exsufflation pressure")), true));
    row.insufflation_s = open_box(duration_box(name("InsufflationTime"), spoken_as(tr("insufflation duration"))));
    row.exsufflation_s = open_box(duration_box(name("ExsufflationTime"), spoken_as(tr("exsufflation duration"))));
    row.pause_s = open_box(duration_box(name("PauseTime"), spoken_as(tr("pause duration"))));
    row.trigger = choice("Trigger", spoken_as(tr("breath trigger")), {{tr("on"), 1}, {tr("off"), 0}});
    row.flow = choice("Flow", spoken_as(tr("flow")),
                      {{tr("full"), int(verification::Flow::full)}, {tr("reduced"), int(verification::Flow::reduced)}});
    row.alarms = choice("Alarms", spoken_as(tr("alarms")), {{tr("on"), 1}, {tr("off"), 0}});
    row.mode = named(new QLineEdit, name("Mode"), spoken_as(tr("mode, as the unit names it")));
    row.mode->setMinimumHeight(kTarget_px);
    row.mode->setProperty("field", true);
    connect(row.mode, &QLineEdit::textEdited, this, &SettingsFields::note_edit);
    rows_.push_back(row);
    return row_of({preset_label(preset.name), labelled(tr("insufflation cmH2O"), row.insufflation),
                   labelled(tr("exsufflation cmH2O"), row.exsufflation),
                   labelled(tr("insufflation s"), row.insufflation_s),
                   labelled(tr("exsufflation s"), row.exsufflation_s), labelled(tr("pause s"), row.pause_s),
                   labelled(tr("breath trigger"), row.trigger), labelled(tr("flow"), row.flow),
                   labelled(tr("alarms"), row.alarms), labelled(tr("mode"), row.mode)});
}

void SettingsFields::note_edit()
{
    if (!putting_) {
        stated_ = false;
        Q_EMIT edited();
    }
}

void SettingsFields::say_as_prescribed()
{
    putting_ = true;
    for (auto& row : rows_) {
        put_row(row, session::as_prescribed(row.preset));
    }
    putting_ = false;
    stated_ = true;
    Q_EMIT edited();
}

void SettingsFields::put(const std::map<std::string, Settings>& settings)
{
    putting_ = true;
    for (auto& row : rows_) {
        if (const auto found = settings.find(row.preset.name); found != settings.end()) {
            put_row(row, found->second);
        }
    }
    putting_ = false;
}

void SettingsFields::put_row(Row& row, const Settings& settings)
{
    row.rest = settings;
    const auto set = [](QDoubleSpinBox* box, const std::optional<double>& value) {
        if (value) {
            box->setValue(std::fabs(*value));
        }
    };
    set(row.insufflation, settings.insufflation_pressure);
    set(row.exsufflation, settings.exsufflation_pressure);
    set(row.insufflation_s, settings.insufflation_duration);
    set(row.exsufflation_s, settings.exsufflation_duration);
    set(row.pause_s, settings.pause_duration);
    const auto choose = [](QComboBox* box, int code) { box->setCurrentIndex(box->findData(code)); };
    choose(row.trigger, settings.trigger_on ? int{*settings.trigger_on} : -1);
    choose(row.flow, settings.flow ? static_cast<int>(*settings.flow) : -1);
    choose(row.alarms, settings.alarms_on ? int{*settings.alarms_on} : -1);
    row.mode->setText(QString::fromStdString(settings.mode));
}

Settings SettingsFields::settings_of(const Row& row)
{
    const auto read = [](const QDoubleSpinBox* box, double sign) {
        return not_read(box) ? std::nullopt : std::optional(sign * box->value() + 0.0);
    };
    const auto chosen = [](const QComboBox* box) {
        const int code = box->currentData().toInt();
        return code < 0 ? std::nullopt : std::optional(code == 1);
    };
    Settings settings = row.rest;
    settings.insufflation_pressure = read(row.insufflation, 1.0);
    settings.exsufflation_pressure = read(row.exsufflation, -1.0);
    settings.insufflation_duration = read(row.insufflation_s, 1.0);
    settings.exsufflation_duration = read(row.exsufflation_s, 1.0);
    settings.pause_duration = read(row.pause_s, 1.0);
    settings.trigger_on = chosen(row.trigger);
    settings.alarms_on = chosen(row.alarms);
    const int flow = row.flow->currentData().toInt();
    settings.flow = flow < 0 ? std::nullopt : std::optional(static_cast<verification::Flow>(flow));
    settings.mode = row.mode->text().trimmed().toStdString();
    return settings;
}

std::map<std::string, Settings> SettingsFields::settings() const
{
    std::map<std::string, Settings> all;
    for (const auto& row : rows_) {
        if (auto settings = settings_of(row); anything_in(settings)) {
            all[row.preset.name] = std::move(settings);
        }
    }
    return all;
}

DisplayedFields::DisplayedFields(const verification::WorkOrder& order, const QString& prefix, const std::string& only,
                                 QWidget* parent)
    : QWidget(parent)
{
    const auto name = [&](const char* what) { return (prefix + QLatin1String(what)).toUtf8(); };
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    for (const auto& preset : order.presets) {
        if (!only.empty() && preset.name != only) {
            continue;
        }
        const Row row{
            preset.name,
            pressure_box(name("Insufflation"), spoken(preset.name, tr("displayed insufflation pressure")), false),
            pressure_box(name("Exsufflation"), spoken(preset.name, tr("displayed exsufflation pressure")), true)};
        for (auto* box : {row.insufflation, row.exsufflation}) {
            box->setMinimum(-1.0); // one step below zero: nothing was read
            box->setValue(-1.0);
            box->setSpecialValueText(tr("not read"));
            connect(box, &QDoubleSpinBox::valueChanged, this, &DisplayedFields::edited);
        }
        layout->addWidget(row_of({preset_label(preset.name), labelled(tr("insufflation cmH2O"), row.insufflation),
                                  labelled(tr("exsufflation cmH2O"), row.exsufflation)}));
        rows_.push_back(row);
    }
}

void DisplayedFields::put(const std::vector<Displayed>& displayed)
{
    for (const auto& row : rows_) {
        const auto found = std::find_if(displayed.begin(), displayed.end(),
                                        [&](const Displayed& one) { return one.preset == row.preset; });
        if (found == displayed.end()) {
            continue;
        }
        if (found->insufflation_cmH2O) {
            row.insufflation->setValue(*found->insufflation_cmH2O);
        }
        if (found->exsufflation_cmH2O) {
            row.exsufflation->setValue(std::fabs(*found->exsufflation_cmH2O));
        }
    }
}

std::vector<Displayed> DisplayedFields::displayed() const
{
    std::vector<Displayed> all;
    for (const auto& row : rows_) {
        Displayed one{row.preset, {}, {}, Shows::not_read};
        if (!not_read(row.insufflation)) {
            one.insufflation_cmH2O = row.insufflation->value();
            one.shows = Shows::live;
        }
        if (!not_read(row.exsufflation)) {
            one.exsufflation_cmH2O = -row.exsufflation->value() + 0.0;
            one.shows = Shows::live;
        }
        all.push_back(one);
    }
    return all;
}

} // namespace zeroline::window
