#include "gui/window/instrument_form.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/session/number_text.hpp"
#include "gui/window/form_fields.hpp"
#include "gui/window/line_form.hpp"
#include "gui/window/listen_panel.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/settings_fields.hpp"

#include <QComboBox>
#include <QDir>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QStandardPaths>
#include <QVBoxLayout>

#include <algorithm>

namespace zeroline::window {

using trace::InputError;
using trace::Instrument;

std::vector<trace::CalibrationPoint> points_typed(const QString& text)
{
    std::vector<trace::CalibrationPoint> points;
    for (const auto& part : text.split(u';', Qt::SkipEmptyParts)) {
        const auto two = part.split(u':');
        bool first = false;
        bool second = false;
        const double reference = two.value(0).trimmed().replace(u',', u'.').toDouble(&first);
        const double indicated = two.value(1).trimmed().replace(u',', u'.').toDouble(&second);
        if (two.size() != 2 || !first || !second) {
            throw InputError("/calibration/points", "'" + part.trimmed().toStdString() + "'",
                             "reference: indicated, such as 60: 60.08, parted by semicolons");
        }
        points.push_back({reference, indicated});
    }
    return points;
}

QString points_text(const std::vector<trace::CalibrationPoint>& points)
{
    QStringList parts;
    for (const auto& point : points) {
        parts << QString::fromStdString(session::number_text(point.reference) + ": " +
                                        session::number_text(point.indicated));
    }
    return parts.join(QStringLiteral("; "));
}

namespace {

/// Side by side where there is room, one below the other where there is not.
class FoldingSplitter : public QSplitter {
public:
    using QSplitter::QSplitter;
    [[nodiscard]] QSize minimumSizeHint() const override
    {
        int width = 0;
        for (int i = 0; i < count(); ++i) {
            width = std::max(width, widget(i)->minimumSizeHint().width());
        }
        return {width, QSplitter::minimumSizeHint().height()};
    }

protected:
    void resizeEvent(QResizeEvent* event) override
    {
        constexpr int wide_enough = 90; // letters
        setOrientation(width() < wide_enough * fontMetrics().averageCharWidth() ? Qt::Vertical : Qt::Horizontal);
        setStretchFactor(1, orientation() == Qt::Vertical ? 0 : 2); // below, the description has the room that is left
        QSplitter::resizeEvent(event);
    }
};

} // namespace

InstrumentForm::InstrumentForm(const Instrument& instrument, QString file, std::function<std::string()> port,
                               QWidget* parent)
    : QWidget(parent), base_(instrument), file_(std::move(file))
{
    named(this, "instrumentForm", tr("instrument"));
    auto* inner = new QWidget;
    auto* layout = new QVBoxLayout(inner);
    layout->setContentsMargins({});
    layout->setSpacing(kGap_px);
    line_ = new LineForm(instrument.port, instrument.language);
    for (auto* card : {card_of({make_identity()}), card_of({heading(tr("Line and language")), line_}),
                       card_of({make_calibration()})}) {
        layout->addWidget(card);
    }
    layout->addStretch(1);
    listen_ = new ListenPanel([this] { return this->instrument().meaning; }, std::move(port));
    connect(listen_, &ListenPanel::found, line_, &LineForm::show_line);
    auto* splitter = named(new FoldingSplitter, "instrumentSplitter", tr("description and listening"));
    splitter->addWidget(scrolled(inner, "instrumentScroll", tr("instrument")));
    splitter->addWidget(listen_);
    splitter->setStretchFactor(0, 3);
    splitter->setStretchFactor(1, 2);
    splitter->setChildrenCollapsible(false);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(kPage_px, kGap_px, kPage_px, kGap_px);
    outer->addWidget(splitter, 1);
    trouble_ = text_label("instrumentTrouble", tr("what is wrong with the instrument"));
    outer->addWidget(trouble_);
    outer->addWidget(make_buttons());
    show_instrument();
    if (instrument.serial.empty()) {
        trouble_->setText(tr("Copy what the certificate and the manual of the instrument say. Check names what is "
                             "still missing."));
    } else {
        check();
    }
}

QWidget* InstrumentForm::make_identity()
{
    name_ = text_field("instrumentName", tr("name of the instrument"));
    serial_ = text_field("instrumentSerial", tr("serial number of the instrument"));
    low_ = number_box("rangeLow", tr("lower end of the range"), -1e6, 1e6, 2);
    high_ = number_box("rangeHigh", tr("upper end of the range"), -1e6, 1e6, 2);
    unit_ = unit_field("rangeUnit", tr("unit of the range"));
    resolution_ = number_box("resolution", tr("resolution"), 0.0, 1e3, 4);
    rate_ = number_box("rate", tr("nominal rate"), 0.0, 1e5, 1, tr("Hz"));
    ppm_ = number_box("clockPpm", tr("error of the clock"), 0.0, 1e5, 0, tr("ppm"));
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Instrument")));
    form->addRow(tr("Name, serial number"), row_of({name_, serial_}));
    form->addRow(tr("Range"), row_of({low_, high_, unit_}));
    form->addRow(tr("Resolution"), resolution_);
    form->addRow(tr("Rate, clock"), row_of({rate_, ppm_}));
    return box;
}

QWidget* InstrumentForm::make_calibration()
{
    certificate_ = text_field("certificate", tr("calibration certificate"));
    certificate_->setPlaceholderText(tr("number of the certificate"));
    on_ = text_field("calibratedOn", tr("calibrated on, YYYY-MM-DD"));
    due_ = text_field("calibrationDue", tr("calibration due, YYYY-MM-DD"));
    uncertainty_ = number_box("calibrationU", tr("expanded uncertainty"), 0.0, 1e3, 3);
    coverage_ = number_box("calibrationK", tr("coverage factor"), 0.0, 10.0, 2);
    calibrated_low_ = optional_field("calibratedLow", tr("calibrated from"), -1e6, 1e6, 2);
    calibrated_high_ = optional_field("calibratedHigh", tr("calibrated to"), -1e6, 1e6, 2);
    calibrated_at_ =
        optional_field("calibratedAt", tr("temperature at the calibration"), -40.0, 85.0, 1, QStringLiteral("\u00B0C"));
    coefficient_ = optional_field("temperatureCoefficient", tr("by how much a degree may move a reading"), 0.0, 1e3, 4,
                                  QStringLiteral("/\u00B0C"));
    warm_up_ = optional_field("warmUp", tr("warm-up time"), 0.0, 86400.0, 0, QStringLiteral("s"));
    points_ = text_field("points", tr("reference: indicated, parted by semicolons"));
    auto* box = new QWidget;
    auto* form = form_in(box);
    form->addRow(heading(tr("Calibration")));
    form->addRow(tr("Certificate"), certificate_);
    form->addRow(tr("On, due"), row_of({on_, due_}));
    form->addRow(tr("U, k"), row_of({uncertainty_, coverage_}));
    form->addRow(tr("From, to"), row_of({calibrated_low_, calibrated_high_}));
    form->addRow(tr("Temperature"), row_of({calibrated_at_, coefficient_}));
    form->addRow(tr("Warm-up"), warm_up_);
    form->addRow(tr("Points"), points_);
    return box;
}

QWidget* InstrumentForm::make_buttons()
{
    auto* use = primary(button("instrumentSave", tr("Save and use")));
    auto* examine = button("instrumentCheck", tr("Check"));
    auto* cancel = button("instrumentCancel", tr("Cancel"));
    connect(use, &QPushButton::clicked, this, &InstrumentForm::save);
    connect(examine, &QPushButton::clicked, this, &InstrumentForm::check);
    connect(cancel, &QPushButton::clicked, this, &InstrumentForm::cancelled);
    auto* row = row_of({use, examine, cancel});
    put_gap(row);
    return row;
}

void InstrumentForm::show_instrument()
{
    put(name_, base_.name);
    put(serial_, base_.serial);
    low_->setValue(base_.range.low);
    high_->setValue(base_.range.high);
    resolution_->setValue(base_.range.resolution);
    put(unit_, base_.range.unit);
    rate_->setValue(base_.nominal_hz);
    ppm_->setValue(base_.clock_ppm);
    const auto& calibration = base_.calibration;
    put(certificate_, calibration.certificate);
    put(on_, calibration.on);
    put(due_, calibration.due);
    uncertainty_->setValue(calibration.expanded_uncertainty);
    coverage_->setValue(calibration.coverage_factor);
    put(calibrated_low_, calibration.low);
    put(calibrated_high_, calibration.high);
    put(calibrated_at_, calibration.temperature_C);
    put(coefficient_, calibration.temperature_coefficient);
    put(warm_up_, calibration.warm_up_s);
    points_->setText(points_text(calibration.points));
}

Instrument InstrumentForm::from_fields() const
{
    auto instrument = base_;
    instrument.name = value_of(name_);
    instrument.serial = value_of(serial_);
    instrument.port = line_->port();
    instrument.language = line_->language();
    instrument.range = {low_->value(), high_->value(), resolution_->value(), unit_of(unit_)};
    instrument.nominal_hz = rate_->value();
    instrument.clock_ppm = ppm_->value();
    auto& calibration = instrument.calibration;
    calibration.certificate = value_of(certificate_);
    calibration.on = value_of(on_);
    calibration.due = value_of(due_);
    calibration.expanded_uncertainty = uncertainty_->value();
    calibration.coverage_factor = coverage_->value();
    calibration.low = value_of(calibrated_low_);
    calibration.high = value_of(calibrated_high_);
    calibration.temperature_C = value_of(calibrated_at_);
    calibration.temperature_coefficient = value_of(coefficient_);
    calibration.warm_up_s = value_of(warm_up_);
    calibration.points = points_typed(points_->text());
    return instrument;
}

records::Read<Instrument> InstrumentForm::instrument() const
{
    return session::instrument_from_text(session::text_of(from_fields()));
}

bool InstrumentForm::check()
{
    try {
        static_cast<void>(instrument());
        trouble_->setText(session::sign_of(session::Tone::pass) + u' ' + tr("nothing is wrong with it"));
        return true;
    } catch (const InputError& error) {
        trouble_->setText(session::sign_of(session::Tone::fail) + u' ' + QString::fromUtf8(error.what()));
        return false;
    }
}

void InstrumentForm::save()
{
    if (!check()) {
        return;
    }
    auto file = file_;
    if (file.isEmpty()) {
        const auto folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
        file = QFileDialog::getSaveFileName(this, tr("Save the instrument"),
                                            QDir(folder).filePath(name_->text() + QStringLiteral(".json")),
                                            tr("JSON files (*.json)"));
    }
    if (!file.isEmpty()) {
        save_as(file);
    }
}

void InstrumentForm::save_as(const QString& file)
{
    try {
        records::write_file_whole(file.toStdString(), instrument().text);
    } catch (const InputError& error) {
        trouble_->setText(QString::fromUtf8(error.what()));
        return;
    }
    listen_->stop();
    Q_EMIT saved(file);
}

} // namespace zeroline::window
