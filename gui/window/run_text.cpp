#include "gui/window/run_text.hpp"

#include "gui/session/shown_number.hpp"

#include <QCoreApplication>

#include <algorithm>

namespace zeroline::window {

using session::shown;
using session::shown_short;
using session::shown_short_signed;

namespace {

struct RunText {
    Q_DECLARE_TR_FUNCTIONS(RunText)
};

const QString kDot = QStringLiteral(" \u00B7 ");

QString state_word(serial::LineState state)
{
    switch (state) {
    case serial::LineState::opening:
        return RunText::tr("opening the port");
    case serial::LineState::running:
        return {};
    case serial::LineState::silent:
        return RunText::tr("no reading comes");
    case serial::LineState::lost:
        return RunText::tr("the instrument is gone");
    case serial::LineState::ended:
        return RunText::tr("ended");
    case serial::LineState::failed:
        return RunText::tr("failed");
    }
    return {};
}

bool held_long_enough(const session::RunView& view) { return view.held_s.value_or(0.0) >= session::kHold_s; }

} // namespace

QString prescription_line(const verification::Preset& preset)
{
    auto text =
        RunText::tr("prescribed %1 / %2 cmH2O, %3 / %4 / %5 s")
            .arg(shown_short_signed(preset.insufflation.pressure_cmH2O),
                 shown_short_signed(preset.exsufflation.pressure_cmH2O), shown_short(preset.insufflation.duration_s),
                 shown_short(preset.exsufflation.duration_s), shown_short(preset.pause.duration_s));
    // Figures stay on one line with each other and their unit.
    return text.replace(QStringLiteral(" / "), QStringLiteral("\u00A0/\u00A0"))
        .replace(QStringLiteral(" s"), QStringLiteral("\u00A0s"))
        .replace(QStringLiteral(" cmH2O"), QStringLiteral("\u00A0cmH2O"));
}

/// While a phase is held the unit shows what it makes of it.
QString sentence_of(const session::RunView& view)
{
    const auto text = QString::fromStdString(view.sentence);
    const bool holds = view.deed == session::Deed::insufflate || view.deed == session::Deed::exsufflate;
    return holds && !held_long_enough(view) ? RunText::tr("%1 Note the display.").arg(text) : text;
}

QString waits_text(const session::RunView& view)
{
    if (view.held_s) {
        return held_long_enough(view)
                   ? RunText::tr("Let go.")
                   : RunText::tr("Hold: %1 of %2 s").arg(shown(*view.held_s, 1), shown_short(session::kHold_s));
    }
    return view.can_confirm && !view.can_go_on
               ? RunText::tr("Waiting for your word.")
               : RunText::tr("Waiting for %1.").arg(QString::fromStdString(view.waits_for));
}

QString go_on_text(const session::RunView& view)
{
    if (view.asks_hose_end) {
        return RunText::tr("Nothing soft, plug seen  [Space]");
    }
    return view.can_go_on ? RunText::tr("Once more  [Space]") : RunText::tr("Done  [Space]");
}

QString duty_text(const session::RunView& view, double rest_s)
{
    if (!view.duty) {
        return {};
    }
    return view.duty->rest_left_s
               ? RunText::tr("rest: %1 s left").arg(shown(*view.duty->rest_left_s, 0))
               : RunText::tr("blocked running: %1 s of %2 s, then %3 s rest")
                     .arg(shown(view.duty->cycled_s, 0), shown_short(view.duty->limit_s), shown_short(rest_s));
}

QString run_header(const verification::WorkOrder& order, const std::string& preset)
{
    QStringList parts{QString::fromStdString(order.work_order), QString::fromStdString(order.unit.asset),
                      QString::fromStdString(preset)};
    if (const auto* found = order.preset(preset)) {
        parts << prescription_line(*found);
    }
    return parts.join(kDot);
}

QString place_name(const std::string& place)
{
    constexpr std::pair<const char*, const char*> kNames[] = {
        {"Order", QT_TRANSLATE_NOOP("RunText", "Order")},
        {session::kChecks, QT_TRANSLATE_NOOP("RunText", "Checks")},
        {"Instrument", QT_TRANSLATE_NOOP("RunText", "Instrument")},
        {"Zero", QT_TRANSLATE_NOOP("RunText", "Zero")},
        {"Block", QT_TRANSLATE_NOOP("RunText", "Block")},
        {"Manual", QT_TRANSLATE_NOOP("RunText", "Manual")},
        {"Automatic", QT_TRANSLATE_NOOP("RunText", "Automatic")},
        {"Leak test", QT_TRANSLATE_NOOP("RunText", "Leak test")},
        {"Ladder", QT_TRANSLATE_NOOP("RunText", "Ladder")},
        {"Strength", QT_TRANSLATE_NOOP("RunText", "Strength")},
        {"Zero again", QT_TRANSLATE_NOOP("RunText", "Zero again")},
        {"Hand back", QT_TRANSLATE_NOOP("RunText", "Hand back")},
    };
    for (const auto& [code, name] : kNames) {
        if (place == code) {
            return RunText::tr(name);
        }
    }
    return QString::fromStdString(place);
}

RunPlaces run_places(const session::BenchSession& session)
{
    const auto& steps = session.steps();
    const auto at = session.view().number;
    RunPlaces all;
    auto& places = all.places;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto name = place_name(steps[i].place);
        // What is asked later stands later; everything else is one place, however often the run comes back to it.
        const bool asked = steps[i].place == session::kChecks;
        auto from = asked && !places.empty() ? places.end() - 1 : places.begin();
        auto place = std::find_if(from, places.end(), [&](const StepPlace& one) { return one.name == name; });
        if (place == places.end()) {
            place = places.insert(places.end(), {name, true, false});
        }
        place->done = place->done && session.done(i);
        place->left_out = place->left_out || (i < at && !session.done(i));
        all.now = i == at ? static_cast<int>(place - places.begin()) : all.now;
    }
    places << StepPlace{RunText::tr("Result")};
    return all;
}

QString status_line(const session::BenchSession& session)
{
    const auto& line = session.line();
    const auto& set_up = session.set_up();
    const auto& instrument = set_up.instrument.meaning;
    const auto figure = [](const std::optional<double>& value, int decimals) {
        return value ? shown(*value, decimals) : QStringLiteral("\u2013");
    };
    QStringList parts;
    if (!line.trouble.empty()) {
        parts << QString::fromStdString(line.trouble);
    } else if (const auto state = state_word(line.state); !state.isEmpty()) {
        parts << state;
    }
    if (line.simulated) {
        parts << RunText::tr("SIMULATED");
    }
    parts << QString::fromStdString(instrument.name)
          << (set_up.simulated ? RunText::tr("virtual bench") : QString::fromStdString(set_up.port))
          << RunText::tr("%1 Hz").arg(figure(line.rate_hz, 0))
          << RunText::tr("noise %1").arg(figure(line.noise_cmH2O, 2))
          << RunText::tr("lost %1").arg(line.counters.lost_readings)
          << RunText::tr("calibration due %1").arg(QString::fromStdString(instrument.calibration.due));
    if (line.counters.discarded_bytes > 0) {
        parts << RunText::tr("unreadable bytes %1").arg(line.counters.discarded_bytes);
    }
    if (line.counters.not_displayed > 0) {
        parts << RunText::tr("not displayed %1 (they are in the file)").arg(line.counters.not_displayed);
    }
    return parts.join(kDot);
}

} // namespace zeroline::window
