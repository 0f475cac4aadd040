#include "gui/window/preset_form.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/settings_fields.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLineEdit>
#include <QSpinBox>

#include <cmath>

namespace zeroline::window {

using verification::During;
using verification::Flow;

PresetForm::PresetForm(const verification::Preset& preset, QWidget* parent) : QWidget(parent), base_(preset)
{
    form_in(this)->setContentsMargins(8, 8, 8, 8);
    add_phases();
    add_ways();
    add_oscillation();
    add_series();
    align_labels(this);
    show_preset(preset);
}

void PresetForm::add_phases()
{
    name_ = text_field("presetName", tr("name of the preset"));
    insufflation_ = pressure_box("insufflationPressure", tr("insufflation pressure in cmH2O"), false);
    exsufflation_ = pressure_box("exsufflationPressure", tr("exsufflation pressure in cmH2O"), true);
    insufflation_s_ = duration_box("insufflationDuration", tr("insufflation duration in s"));
    exsufflation_s_ = duration_box("exsufflationDuration", tr("exsufflation duration in s"));
    pause_s_ = duration_box("pauseDuration", tr("pause duration in s"));
    pause_level_ = number_box("pausePressure", tr("pause pressure in cmH2O"), -20.0, 20.0, 1, tr("cmH2O"));
    name_->setPlaceholderText(tr("as the unit names it, such as day"));
    for (auto* box : {insufflation_, exsufflation_, insufflation_s_, exsufflation_s_}) {
        box->setSpecialValueText(QStringLiteral("\u2013")); // nothing prescribed yet
    }
    auto* form = static_cast<QFormLayout*>(layout());
    form->addRow(tr("Name"), name_);
    form->addRow(tr("Insufflation: cmH2O, s"), row_of({insufflation_, insufflation_s_}));
    form->addRow(tr("Exsufflation: cmH2O, s"), row_of({exsufflation_, exsufflation_s_}));
    form->addRow(tr("Pause: level, s"), row_of({pause_level_, pause_s_}));
}

void PresetForm::add_ways()
{
    flow_ = choice_field("flow", tr("flow"));
    flow_->addItem(tr("not prescribed"), -1);
    flow_->addItem(tr("full"), static_cast<int>(Flow::full));
    flow_->addItem(tr("reduced"), static_cast<int>(Flow::reduced));
    trigger_ = choice_field("trigger", tr("breath trigger"));
    trigger_->addItem(tr("not prescribed"), -1);
    trigger_->addItem(tr("on"), 1);
    trigger_->addItem(tr("off"), 0);
    auto* form = static_cast<QFormLayout*>(layout());
    form->addRow(tr("Flow"), flow_);
    form->addRow(tr("Breath trigger"), trigger_);
}

void PresetForm::add_oscillation()
{
    oscillates_ = check_field("oscillates", tr("with oscillation"));
    frequency_ = number_box("oscillationFrequency", tr("oscillation frequency"), 0.0, 20.0, 1, tr("Hz"));
    amplitude_ =
        number_box("oscillationAmplitude", tr("oscillation amplitude, zero to peak"), 0.0, 10.0, 1, tr("cmH2O"));
    during_ = choice_field("oscillationDuring", tr("oscillation in which phase"));
    during_->addItem(tr("in both phases"), static_cast<int>(During::both));
    during_->addItem(tr("in insufflation"), static_cast<int>(During::insufflation));
    during_->addItem(tr("in exsufflation"), static_cast<int>(During::exsufflation));
    auto* details = row_of({frequency_, amplitude_, during_});
    connect(oscillates_, &QCheckBox::toggled, details, &QWidget::setEnabled);
    details->setEnabled(false);
    static_cast<QFormLayout*>(layout())->addRow(oscillates_, details);
}

void PresetForm::add_series()
{
    has_series_ = check_field("hasSeries", tr("in series"));
    breaths_ = count_field("seriesBreaths", tr("cycles of a series"), 1, 60);
    breaths_->setSuffix(u' ' + tr("cycles"));
    count_ = count_field("seriesCount", tr("how many series"), 1, 60);
    count_->setSuffix(u' ' + tr("times"));
    rest_s_ = number_box("seriesRest", tr("rest between series"), 0.0, 300.0, 0, tr("s rest"));
    auto* details = row_of({breaths_, count_, rest_s_});
    connect(has_series_, &QCheckBox::toggled, details, &QWidget::setEnabled);
    details->setEnabled(false);
    static_cast<QFormLayout*>(layout())->addRow(has_series_, details);
}

void PresetForm::show_preset(const verification::Preset& preset)
{
    put(name_, preset.name);
    insufflation_->setValue(preset.insufflation.pressure_cmH2O);
    exsufflation_->setValue(std::fabs(preset.exsufflation.pressure_cmH2O));
    insufflation_s_->setValue(preset.insufflation.duration_s);
    exsufflation_s_->setValue(preset.exsufflation.duration_s);
    pause_s_->setValue(preset.pause.duration_s);
    pause_level_->setValue(preset.pause.pressure_cmH2O);
    flow_->setCurrentIndex(flow_->findData(preset.flow ? static_cast<int>(*preset.flow) : -1));
    trigger_->setCurrentIndex(trigger_->findData(preset.trigger_on ? int{*preset.trigger_on} : -1));
    oscillates_->setChecked(preset.oscillation.has_value());
    if (preset.oscillation) {
        frequency_->setValue(preset.oscillation->frequency_hz);
        amplitude_->setValue(preset.oscillation->amplitude_cmH2O);
        during_->setCurrentIndex(during_->findData(static_cast<int>(preset.oscillation->during)));
    }
    has_series_->setChecked(preset.series.has_value());
    if (preset.series) {
        breaths_->setValue(preset.series->breaths);
        count_->setValue(preset.series->count);
        rest_s_->setValue(preset.series->rest_s);
    }
}

verification::Preset PresetForm::preset() const
{
    auto preset = base_;
    preset.name = value_of(name_);
    preset.insufflation = {insufflation_->value(), insufflation_s_->value()};
    preset.exsufflation = {-exsufflation_->value() + 0.0, exsufflation_s_->value()};
    preset.pause = {pause_level_->value(), pause_s_->value()};
    const int flow = flow_->currentData().toInt();
    preset.flow = flow < 0 ? std::nullopt : std::optional(static_cast<Flow>(flow));
    const int trigger = trigger_->currentData().toInt();
    preset.trigger_on = trigger < 0 ? std::nullopt : std::optional(trigger == 1);
    preset.oscillation.reset();
    if (oscillates_->isChecked()) {
        preset.oscillation = {frequency_->value(), amplitude_->value(),
                              static_cast<During>(during_->currentData().toInt())};
    }
    preset.series.reset();
    if (has_series_->isChecked()) {
        preset.series = {breaths_->value(), count_->value(), rest_s_->value()};
    }
    return preset;
}

} // namespace zeroline::window
