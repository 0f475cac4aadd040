#include "gui/session/series_words.hpp"

#include "analysis/verification/treatment.hpp"

#include <QCoreApplication>

#include <cmath>

namespace zeroline::session {

namespace {

QString on_the_clock(double seconds, const ResultWords& words)
{
    const auto whole = std::lround(seconds);
    return words.say(QT_TRANSLATE_NOOP("Result", "%1 min %2 s")).arg(whole / 60).arg(whole % 60);
}

} // namespace

QString series_words(const verification::Preset& preset, const ResultWords& words)
{
    if (!preset.series) {
        return {};
    }
    const auto plan = verification::treatment_plan(preset);
    const auto all = on_the_clock(plan.whole_s, words);
    return plan.count == 1
               ? words.say(QT_TRANSLATE_NOOP("Result", "one series of %1 breaths: %2"))
                     .arg(preset.series->breaths)
                     .arg(all)
               : words.say(QT_TRANSLATE_NOOP("Result", "%1 series of %2 breaths, %3 s rest between them: %4 in all"))
                     .arg(plan.count)
                     .arg(preset.series->breaths)
                     .arg(words.numerals().plain(plan.rest_s), all);
}

} // namespace zeroline::session
