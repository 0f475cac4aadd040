#include "gui/window/settings_fields.hpp"

#include "gui/window/look.hpp"

#include <QDoubleSpinBox>
#include <QLabel>
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
QWidget* labelled(const QString& name, QDoubleSpinBox* box)
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
    : QWidget(parent)
{
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    for (const auto& preset : order.presets) {
        const auto name = [&](const char* what) { return (prefix + QLatin1String(what)).toUtf8(); };
        Row row;
        row.preset = preset.name;
        row.insufflation = pressure_box(name("Insufflation"), spoken(preset.name, tr("insufflation pressure")), false);
        row.exsufflation = pressure_box(name("Exsufflation"), spoken(preset.name, tr("exsufflation pressure")), true);
        row.insufflation_s = duration_box(name("InsufflationTime"), spoken(preset.name, tr("insufflation duration")));
        row.exsufflation_s = duration_box(name("ExsufflationTime"), spoken(preset.name, tr("exsufflation duration")));
        row.pause_s = duration_box(name("PauseTime"), spoken(preset.name, tr("pause duration")));
        row.insufflation->setValue(preset.insufflation.pressure_cmH2O);
        row.exsufflation->setValue(std::fabs(preset.exsufflation.pressure_cmH2O));
        row.insufflation_s->setValue(preset.insufflation.duration_s);
        row.exsufflation_s->setValue(preset.exsufflation.duration_s);
        row.pause_s->setValue(preset.pause.duration_s);
        layout->addWidget(row_of(
            {preset_label(preset.name), labelled(tr("insufflation cmH2O"), row.insufflation),
             labelled(tr("exsufflation cmH2O"), row.exsufflation), labelled(tr("insufflation s"), row.insufflation_s),
             labelled(tr("exsufflation s"), row.exsufflation_s), labelled(tr("pause s"), row.pause_s)}));
        rows_.push_back(row);
    }
}

void SettingsFields::put(const std::map<std::string, Settings>& settings)
{
    for (auto& row : rows_) {
        const auto found = settings.find(row.preset);
        if (found == settings.end()) {
            continue;
        }
        row.rest = found->second;
        const auto set = [](QDoubleSpinBox* box, const std::optional<double>& value) {
            if (value) {
                box->setValue(std::fabs(*value));
            }
        };
        set(row.insufflation, found->second.insufflation_pressure);
        set(row.exsufflation, found->second.exsufflation_pressure);
        set(row.insufflation_s, found->second.insufflation_duration);
        set(row.exsufflation_s, found->second.exsufflation_duration);
        set(row.pause_s, found->second.pause_duration);
    }
}

std::map<std::string, Settings> SettingsFields::settings() const
{
    std::map<std::string, Settings> all;
    for (const auto& row : rows_) {
        Settings settings = row.rest;
        settings.insufflation_pressure = row.insufflation->value();
        settings.exsufflation_pressure = -row.exsufflation->value() + 0.0;
        settings.insufflation_duration = row.insufflation_s->value();
        settings.exsufflation_duration = row.exsufflation_s->value();
        settings.pause_duration = row.pause_s->value();
        all[row.preset] = settings;
    }
    return all;
}

DisplayedFields::DisplayedFields(const verification::WorkOrder& order, QWidget* parent) : QWidget(parent)
{
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins({});
    for (const auto& preset : order.presets) {
        const Row row{
            preset.name,
            pressure_box("displayedInsufflation", spoken(preset.name, tr("displayed insufflation pressure")), false),
            pressure_box("displayedExsufflation", spoken(preset.name, tr("displayed exsufflation pressure")), true)};
        for (auto* box : {row.insufflation, row.exsufflation}) {
            box->setMinimum(-1.0); // one step below zero: nothing was read
            box->setValue(-1.0);
            box->setSpecialValueText(tr("not read"));
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
