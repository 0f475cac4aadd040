#include "gui/window/order_form.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/session/result_words.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/preset_form.hpp"
#include "gui/window/register_rows.hpp"
#include "gui/window/tolerance_form.hpp"

#include <QComboBox>
#include <QDir>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QStandardPaths>
#include <QTabWidget>
#include <QVBoxLayout>

namespace zeroline::window {

using metrology::Rule;
using trace::InputError;
using verification::Occasion;
using verification::WorkOrder;

OrderForm::OrderForm(const WorkOrder& order, QString file, QWidget* parent)
    : QWidget(parent), base_(order), file_(std::move(file))
{
    named(this, "orderForm", tr("work order"));
    auto* inner = new QWidget;
    auto* layout = new QVBoxLayout(inner);
    layout->setContentsMargins({});
    layout->setSpacing(kGap_px);
    tolerances_ = new ToleranceForm(order.tolerances);
    auto* about_limits = heading(tr("Tolerances; what is left out falls back to the house profile"));
    for (auto* card : {card_of({make_unit()}), card_of({make_presets()}), card_of({about_limits, tolerances_}),
                       card_of({make_rules()})}) {
        layout->addWidget(card);
    }
    layout->addStretch(1);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(kPage_px, kGap_px, kPage_px, kGap_px);
    outer->addWidget(scrolled(inner, "orderScroll", tr("work order")), 1);
    trouble_ = text_label("orderTrouble", tr("what is wrong with the order"));
    outer->addWidget(trouble_);
    outer->addWidget(make_buttons());
    show_order();
    if (base_.work_order.empty()) {
        trouble_->setText(tr("Copy what the order says. Check names what is still missing."));
    } else {
        check();
    }
}

QWidget* OrderForm::make_unit()
{
    number_ = text_field("orderNumber", tr("number of the work order"));
    occasion_ = choice_field("occasion", tr("occasion"));
    for (const auto& [occasion, word] : {std::pair{Occasion::pre_delivery, "pre-delivery"},
                                         {Occasion::periodic, "periodic"},
                                         {Occasion::home_visit, "home-visit"}}) {
        occasion_->addItem(register_text("occasion", word), static_cast<int>(occasion));
    }
    customer_ = text_field("customer", tr("customer"));
    contact_ = text_field("contact", tr("whom to call"));
    asset_ = text_field("unitAsset", tr("asset of the unit"));
    serial_ = text_field("unitSerial", tr("serial number of the unit"));
    model_ = text_field("unitModel", tr("model of the unit"));
    hours_ = optional_field("unitHours", tr("hours on the unit's counter"), 0.0, 1e6, 0, tr("h"));
    display_step_ = optional_field("displayStep", tr("step of the unit's display"), 0.1, 10.0, 1, tr("cmH2O"));
    reference_ = text_field("reference", tr("reference of the prescription"));
    ordered_on_ = text_field("orderedOn", tr("date of the prescription, YYYY-MM-DD"));
    ordered_on_->setPlaceholderText(tr("YYYY-MM-DD"));
    number_->setPlaceholderText(tr("number of the work order"));
    customer_->setPlaceholderText(tr("whose unit it is, or why that is not said"));
    contact_->setPlaceholderText(tr("whom a person calls who is left without a working unit"));
    asset_->setPlaceholderText(tr("on the label of the unit"));
    serial_->setPlaceholderText(tr("serial number"));
    reference_->setPlaceholderText(tr("number of the prescription"));
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Order and unit")));
    form->addRow(tr("Work order"), row_of({number_, occasion_}));
    form->addRow(tr("Customer"), customer_);
    form->addRow(tr("Whom to call"), contact_);
    form->addRow(tr("Asset, serial number"), row_of({asset_, serial_}));
    form->addRow(tr("Model"), model_);
    form->addRow(tr("Hours, display step"), row_of({hours_, display_step_}));
    form->addRow(tr("Prescription"), row_of({reference_, ordered_on_}));
    return box;
}

QWidget* OrderForm::make_presets()
{
    presets_ = named(new QTabWidget, "presets", tr("presets"));
    auto* add = button("addPreset", tr("Add a preset"));
    auto* remove = button("removePreset", tr("Remove this preset"));
    connect(add, &QPushButton::clicked, this, [this] {
        auto next = base_.presets.empty() ? verification::Preset{} : base_.presets.front();
        next.name = tr("preset %1").arg(presets_->count() + 1).toStdString();
        add_preset(next);
        presets_->setCurrentIndex(presets_->count() - 1);
    });
    connect(remove, &QPushButton::clicked, this, [this] {
        if (presets_->count() > 1) {
            delete presets_->currentWidget();
        }
    });
    auto* buttons = row_of({add, remove});
    put_gap(buttons);
    return column_of({heading(tr("Prescription")), presets_, buttons});
}

void OrderForm::add_preset(const verification::Preset& preset)
{
    presets_->addTab(new PresetForm(preset), QString::fromStdString(preset.name));
}

QWidget* OrderForm::make_rules()
{
    rule_ = choice_field("rule", tr("decision rule"));
    rule_->addItem(tr("simple acceptance"), static_cast<int>(Rule::simple));
    rule_->addItem(tr("guarded acceptance, by the uncertainty"), static_cast<int>(Rule::guarded));
    cycles_ = count_field("cycles", tr("cycles to judge"), 1, 1000);
    lead_cycles_ = count_field("leadCycles", tr("cycles before them that are not judged"), 0, 100);
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Judgement")));
    form->addRow(tr("Rule"), rule_);
    form->addRow(tr("Cycles, lead cycles"), row_of({cycles_, lead_cycles_}));
    return box;
}

QWidget* OrderForm::make_buttons()
{
    auto* use = primary(button("orderSave", tr("Save and use")));
    auto* examine = button("orderCheck", tr("Check"));
    auto* cancel = button("orderCancel", tr("Cancel"));
    connect(use, &QPushButton::clicked, this, &OrderForm::save);
    connect(examine, &QPushButton::clicked, this, &OrderForm::check);
    connect(cancel, &QPushButton::clicked, this, &OrderForm::cancelled);
    auto* row = row_of({use, examine, cancel});
    put_gap(row);
    return row;
}

void OrderForm::show_order()
{
    put(number_, base_.work_order);
    put(customer_, base_.customer);
    put(contact_, base_.contact);
    put(asset_, base_.unit.asset);
    put(serial_, base_.unit.serial);
    put(model_, base_.unit.model);
    put(reference_, base_.reference);
    put(ordered_on_, base_.ordered_on);
    put(hours_, base_.unit.hours);
    put(display_step_, base_.unit.display_step_cmH2O);
    occasion_->setCurrentIndex(occasion_->findData(static_cast<int>(base_.occasion)));
    rule_->setCurrentIndex(rule_->findData(static_cast<int>(base_.decision_rule)));
    cycles_->setValue(base_.cycles);
    lead_cycles_->setValue(base_.lead_cycles);
    for (const auto& preset : base_.presets) {
        add_preset(preset);
    }
}

WorkOrder OrderForm::from_fields() const
{
    auto order = base_;
    order.work_order = value_of(number_);
    order.occasion = static_cast<Occasion>(occasion_->currentData().toInt());
    order.customer = value_of(customer_);
    order.contact = value_of(contact_);
    order.unit.asset = value_of(asset_);
    order.unit.serial = value_of(serial_);
    order.unit.model = value_of(model_);
    order.unit.hours = value_of(hours_);
    order.unit.display_step_cmH2O = value_of(display_step_).value_or(1.0);
    order.reference = value_of(reference_);
    order.ordered_on = value_of(ordered_on_);
    order.presets.clear();
    for (int i = 0; i < presets_->count(); ++i) {
        order.presets.push_back(static_cast<const PresetForm*>(presets_->widget(i))->preset());
    }
    order.tolerances = tolerances_->tolerances();
    order.decision_rule = static_cast<Rule>(rule_->currentData().toInt());
    order.cycles = cycles_->value();
    order.lead_cycles = lead_cycles_->value();
    return order;
}

records::Read<WorkOrder> OrderForm::order() const { return session::order_from_text(session::text_of(from_fields())); }

bool OrderForm::check()
{
    try {
        static_cast<void>(order());
        trouble_->setText(session::sign_of(session::Tone::pass) + u' ' + tr("nothing is wrong with it"));
        return true;
    } catch (const InputError& error) {
        trouble_->setText(session::sign_of(session::Tone::fail) + u' ' + QString::fromUtf8(error.what()));
        return false;
    }
}

void OrderForm::save()
{
    if (!check()) {
        return;
    }
    auto file = file_;
    if (file.isEmpty()) {
        const auto folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
        file = QFileDialog::getSaveFileName(this, tr("Save the order"),
                                            QDir(folder).filePath(number_->text() + QStringLiteral(".json")),
                                            tr("JSON files (*.json)"));
    }
    if (!file.isEmpty()) {
        save_as(file);
    }
}

void OrderForm::save_as(const QString& file)
{
    try {
        records::write_file_whole(file.toStdString(), order().text);
    } catch (const InputError& error) {
        trouble_->setText(QString::fromUtf8(error.what()));
        return;
    }
    Q_EMIT saved(file);
}

} // namespace zeroline::window
