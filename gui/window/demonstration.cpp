#include "gui/window/demonstration.hpp"

#include "gui/window/file_choice.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/session/run_files.hpp"

#include <QFile>

#include <array>
#include <utility>

/// A static library's resources are linked only where something asks for them; must stand outside any namespace.
static void take_in_demonstration() { Q_INIT_RESOURCE(window); }

namespace zeroline::window {

namespace {

struct Same {
    const char* what;
    const std::string& value;
    const std::string& of_the_demonstration;
};

void refuse(const Same& same, const std::string& file)
{
    if (!same.value.empty() && same.value == same.of_the_demonstration) {
        throw trace::InputError(file, std::string(same.what) + " '" + same.value + "' is that of the demonstration",
                                "what is true of the unit and the instrument on this port");
    }
}

} // namespace

std::string demonstration_text(const char* file)
{
    take_in_demonstration();
    QFile resource(QStringLiteral(":/demonstration/") + QLatin1String(file));
    return resource.open(QIODevice::ReadOnly) ? resource.readAll().toStdString() : std::string{};
}

records::Read<verification::WorkOrder> chosen_order(const QString& file)
{
    return file == FileChoice::kDemonstration ? session::order_from_text(demonstration_text("order.json"))
                                              : records::load_work_order(file.toStdString());
}

records::Read<trace::Instrument> chosen_instrument(const QString& file)
{
    return file == FileChoice::kDemonstration ? session::instrument_from_text(demonstration_text("instrument.json"))
                                              : records::load_instrument(file.toStdString());
}

void refuse_demonstration(const verification::WorkOrder& order, const std::string& file)
{
    const auto shown = session::order_from_text(demonstration_text("order.json")).meaning;
    const auto& limits = order.tolerances;
    for (const auto& same : std::array{
             Same{"the customer", order.customer, shown.customer}, Same{"the contact", order.contact, shown.contact},
             Same{"the serial number", order.unit.serial, shown.unit.serial},
             Same{"the source of the limits", limits.basis, shown.tolerances.basis},
             Same{"who approved the limits", limits.approved_by, shown.tolerances.approved_by}}) {
        refuse(same, file);
    }
}

void refuse_demonstration(const trace::Instrument& instrument, const std::string& file)
{
    const auto shown = session::instrument_from_text(demonstration_text("instrument.json")).meaning;
    refuse({"the serial number", instrument.serial, shown.serial}, file);
    refuse({"the certificate", instrument.calibration.certificate, shown.calibration.certificate}, file);
}

verification::WorkOrder empty_order()
{
    verification::WorkOrder order;
    order.presets.emplace_back();
    return order;
}

trace::Instrument empty_instrument() { return {}; }

} // namespace zeroline::window
