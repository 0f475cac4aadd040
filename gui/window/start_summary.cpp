#include "gui/window/start_summary.hpp"

#include "gui/session/series_words.hpp"
#include "gui/window/run_text.hpp"

#include <QCoreApplication>
#include <QDate>
#include <QStringList>

namespace zeroline::window {

namespace {

struct StartSummary {
    Q_DECLARE_TR_FUNCTIONS(StartSummary)
};

} // namespace

QString order_summary(const verification::WorkOrder& order)
{
    QStringList lines{StartSummary::tr("%1, unit %2 (%3)")
                          .arg(QString::fromStdString(order.work_order), QString::fromStdString(order.unit.asset),
                               QString::fromStdString(order.unit.model))};
    for (const auto& preset : order.presets) {
        lines << QString::fromStdString(preset.name) + QStringLiteral(": ") + prescription_line(preset);
        if (const auto series = session::series_words(preset, session::ResultWords(session::Reader::screen));
            !series.isEmpty()) {
            lines.back() += QStringLiteral(", ") + series;
        }
    }
    return lines.join(u'\n');
}

QString cautions_text(const verification::WorkOrder& order)
{
    QString text;
    for (const auto& caution : session::cautions_before_run(order)) {
        text += QStringLiteral("\u2022 ") + QString::fromStdString(caution) + u'\n';
    }
    return text.trimmed();
}

QString instrument_summary(const trace::Instrument& instrument, const session::InstrumentState& check)
{
    const auto due = QString::fromStdString(instrument.calibration.due);
    const bool lapsed = due < QDate::currentDate().toString(Qt::ISODate);
    const auto text = StartSummary::tr("%1, serial number %2, calibration due %3")
                          .arg(QString::fromStdString(instrument.name), QString::fromStdString(instrument.serial), due);
    const auto papers =
        lapsed ? text + StartSummary::tr(": lapsed. Indicative only, no statement of conformity.") : text;
    return check.caution.empty() ? papers : papers + u'\n' + QString::fromStdString(check.caution);
}

} // namespace zeroline::window
