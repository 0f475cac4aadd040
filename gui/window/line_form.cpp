#include "gui/window/line_form.hpp"

#include "gui/window/form_fields.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/settings_fields.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLineEdit>
#include <QSpinBox>
#include <QStackedWidget>

namespace zeroline::window {

using trace::Language;
using trace::Parity;
using trace::PortSettings;

namespace {

/// A count that may be left out: 0 stands for none.
QSpinBox* optional_count(const char* name, const QString& spoken)
{
    auto* made = count_field(name, spoken, 0, 64);
    made->setSpecialValueText(QStringLiteral("\u2013"));
    return made;
}

std::optional<int> count_of(const QSpinBox* field)
{
    return field->value() > 0 ? std::optional(field->value()) : std::nullopt;
}

} // namespace

QComboBox* unit_field(const char* name, const QString& spoken)
{
    auto* made = choice_field(name, spoken);
    for (const auto unit : trace::all_pressure_units()) {
        const auto text = trace::name_of(unit);
        made->addItem(QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size())), static_cast<int>(unit));
    }
    return made;
}

trace::PressureUnit unit_of(const QComboBox* field)
{
    return static_cast<trace::PressureUnit>(field->currentData().toInt());
}

void put(QComboBox* field, trace::PressureUnit unit)
{
    field->setCurrentIndex(field->findData(static_cast<int>(unit)));
}

QString escaped(const std::string& text)
{
    auto typed = QString::fromStdString(text);
    return typed.replace(u'\\', QStringLiteral("\\\\"))
        .replace(u'\r', QStringLiteral("\\r"))
        .replace(u'\n', QStringLiteral("\\n"))
        .replace(u'\t', QStringLiteral("\\t"));
}

std::string unescaped(const QString& typed)
{
    std::string text;
    const auto plain = typed.toStdString();
    for (std::size_t i = 0; i < plain.size(); ++i) {
        if (plain[i] != '\\' || i + 1 == plain.size()) {
            text += plain[i];
            continue;
        }
        const char next = plain[++i];
        text += next == 'r' ? '\r' : next == 'n' ? '\n' : next == 't' ? '\t' : next;
    }
    return text;
}

LineForm::LineForm(const PortSettings& port, const Language& language, QWidget* parent) : QWidget(parent)
{
    static_cast<void>(form_in(this));
    add_port();
    add_language();
    show_line(port, language);
}

void LineForm::add_port()
{
    baud_ = count_field("baud", tr("baud"), 50, 4'000'000);
    data_bits_ = count_field("dataBits", tr("data bits"), 5, 8);
    stop_bits_ = count_field("stopBits", tr("stop bits"), 1, 2);
    parity_ = choice_field("parity", tr("parity"));
    for (const auto& [text, parity] :
         {std::pair{tr("none"), Parity::none}, {tr("even"), Parity::even}, {tr("odd"), Parity::odd}}) {
        parity_->addItem(text, static_cast<int>(parity));
    }
    dtr_ = check_field("dtr", tr("DTR on"));
    rts_ = check_field("rts", tr("RTS on"));
    settle_s_ = number_box("settle", tr("settling time after opening"), 0.0, 60.0, 1, tr("s"));
    start_ = text_field("startText", tr("sent after opening; \\r and \\n stand for the line end"));
    stop_ = text_field("stopText", tr("sent before closing"));
    auto* form = static_cast<QFormLayout*>(layout());
    form->addRow(tr("Baud, data bits"), row_of({baud_, data_bits_}));
    form->addRow(tr("Parity, stop bits"), row_of({parity_, stop_bits_}));
    form->addRow(tr("Control lines, settling"), row_of({dtr_, rts_, settle_s_}));
    form->addRow(tr("Start and stop text"), row_of({start_, stop_}));
}

void LineForm::add_language()
{
    kind_ = choice_field("language", tr("language of the instrument"));
    kind_->addItem(tr("sends lines with numbers"), static_cast<int>(Language::Kind::numeric_lines));
    kind_->addItem(tr("answers a query (SCPI)"), static_cast<int>(Language::Kind::scpi_query));
    kind_->addItem(tr("holds registers (Modbus RTU)"), static_cast<int>(Language::Kind::modbus_rtu));
    kind_->addItem(tr("answers a query with a line"), static_cast<int>(Language::Kind::polled_lines));
    unit_ = unit_field("languageUnit", tr("unit of the reading"));
    timeout_s_ = number_box("timeout", tr("longest wait for an answer"), 0.01, 30.0, 2, tr("s"));
    details_ = new QStackedWidget;
    details_->addWidget(make_lines());
    details_->addWidget(make_query());
    details_->addWidget(make_registers());
    connect(kind_, &QComboBox::currentIndexChanged, this, &LineForm::show_details);
    auto* form = static_cast<QFormLayout*>(layout());
    form->addRow(tr("Language"), kind_);
    form->addRow(tr("Unit, longest wait"), row_of({unit_, timeout_s_}));
    form->addRow(details_);
}

// Answers of any query are lines, with the query itself beside them.
void LineForm::show_details(int index)
{
    const bool asked = kind_->itemData(index).toInt() == static_cast<int>(Language::Kind::polled_lines);
    details_->setCurrentIndex(asked ? 0 : index);
    line_query_->setEnabled(asked);
}

QWidget* LineForm::make_lines()
{
    line_query_ = text_field("lineQuery", tr("query that a line answers"));
    line_query_->setEnabled(false);
    field_ = count_field("field", tr("field with the pressure, from 1"), 1, 64);
    separator_ = text_field("separator", tr("what separates fields"));
    decimal_ = choice_field("decimal", tr("decimal mark"));
    decimal_->addItem(tr("point"), QStringLiteral("."));
    decimal_->addItem(tr("comma"), QStringLiteral(","));
    count_field_ = optional_count("countField", tr("field with the count"));
    time_field_ = optional_count("timeField", tr("field with the time"));
    auto* page = new QWidget;
    auto* form = form_in(page);
    form->addRow(tr("Field, separator, mark"), row_of({field_, separator_, decimal_}));
    form->addRow(tr("Fields of count and time"), row_of({count_field_, time_field_}));
    form->addRow(tr("Query"), line_query_);
    return page;
}

QWidget* LineForm::make_query()
{
    query_ = text_field("query", tr("query"));
    auto* page = new QWidget;
    form_in(page)->addRow(tr("Query"), query_);
    return page;
}

QWidget* LineForm::make_registers()
{
    address_ = count_field("address", tr("unit address"), 1, 247);
    function_ = count_field("function", tr("function, 3 or 4"), 3, 4);
    register_ = count_field("register", tr("first register, from 0"), 0, 65535);
    type_ = choice_field("registerType", tr("type of the value"));
    for (const auto& [text, type] : {std::pair{"int16", Language::Register::int16},
                                     {"uint16", Language::Register::uint16},
                                     {"int32", Language::Register::int32},
                                     {"float32", Language::Register::float32}}) {
        type_->addItem(QLatin1String(text), static_cast<int>(type));
    }
    low_word_first_ = check_field("lowWordFirst", tr("low word first"));
    scale_ = number_box("scale", tr("factor on the register's value"), -1e6, 1e6, 6);
    offset_ = number_box("offset", tr("added to the scaled value"), -1e6, 1e6, 4);
    auto* page = new QWidget;
    auto* form = form_in(page);
    form->addRow(tr("Address, function, register"), row_of({address_, function_, register_}));
    form->addRow(tr("Type"), row_of({type_, low_word_first_}));
    form->addRow(tr("Factor, offset"), row_of({scale_, offset_}));
    return page;
}

void LineForm::show_line(const PortSettings& port, const Language& language)
{
    base_port_ = port;
    base_language_ = language;
    baud_->setValue(port.baud);
    data_bits_->setValue(port.data_bits);
    stop_bits_->setValue(port.stop_bits);
    parity_->setCurrentIndex(parity_->findData(static_cast<int>(port.parity)));
    dtr_->setChecked(port.dtr);
    rts_->setChecked(port.rts);
    settle_s_->setValue(port.settle_s);
    start_->setText(escaped(port.start));
    stop_->setText(escaped(port.stop));
    kind_->setCurrentIndex(kind_->findData(static_cast<int>(language.kind)));
    put(unit_, language.unit);
    timeout_s_->setValue(language.timeout_s);
    field_->setValue(language.field);
    separator_->setText(escaped(language.separator));
    decimal_->setCurrentIndex(language.decimal == ',' ? 1 : 0);
    count_field_->setValue(language.count_field.value_or(0));
    time_field_->setValue(language.time_field.value_or(0));
    query_->setText(escaped(language.query));
    line_query_->setText(escaped(language.query));
    address_->setValue(language.address);
    function_->setValue(language.function);
    register_->setValue(language.first_register);
    type_->setCurrentIndex(type_->findData(static_cast<int>(language.register_type)));
    low_word_first_->setChecked(language.low_word_first);
    scale_->setValue(language.scale);
    offset_->setValue(language.offset);
}

PortSettings LineForm::port() const
{
    auto port = base_port_;
    port.baud = baud_->value();
    port.data_bits = data_bits_->value();
    port.stop_bits = stop_bits_->value();
    port.parity = static_cast<Parity>(parity_->currentData().toInt());
    port.dtr = dtr_->isChecked();
    port.rts = rts_->isChecked();
    port.settle_s = settle_s_->value();
    port.start = unescaped(start_->text());
    port.stop = unescaped(stop_->text());
    return port;
}

// A field that is found by its name keeps it, until a number is chosen.
void LineForm::take_fields(Language& language) const
{
    const auto keeps_name = [](const QSpinBox* box, std::string& name) {
        const bool keeps = !name.empty() && box->value() == box->minimum();
        name = keeps ? name : std::string();
        return keeps;
    };
    if (!keeps_name(field_, language.names.pressure)) {
        language.field = field_->value();
    }
    if (!keeps_name(count_field_, language.names.count)) {
        language.count_field = count_of(count_field_);
    }
    if (!keeps_name(time_field_, language.names.time)) {
        language.time_field = count_of(time_field_);
    }
    language.separator = unescaped(separator_->text());
    language.decimal = decimal_->currentIndex() == 1 ? ',' : '.';
}

Language LineForm::language() const
{
    auto language = base_language_;
    language.kind = static_cast<Language::Kind>(kind_->currentData().toInt());
    language.unit = unit_of(unit_);
    switch (language.kind) {
    case Language::Kind::numeric_lines:
        take_fields(language);
        return language;
    case Language::Kind::polled_lines:
        take_fields(language);
        language.query = unescaped(line_query_->text());
        break;
    case Language::Kind::scpi_query:
        language.query = unescaped(query_->text());
        break;
    case Language::Kind::modbus_rtu:
        language.address = address_->value();
        language.function = function_->value();
        language.first_register = register_->value();
        language.register_type = static_cast<Language::Register>(type_->currentData().toInt());
        language.low_word_first = low_word_first_->isChecked();
        language.scale = scale_->value();
        language.offset = offset_->value();
        break;
    }
    language.timeout_s = timeout_s_->value();
    return language;
}

} // namespace zeroline::window
