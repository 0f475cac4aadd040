#include "gui/session/procedure_words.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <iterator>

namespace zeroline::session {

namespace {

/// What the shipped procedures say (gui/procedures), so that a translator finds it; a test holds both against each
/// other.
constexpr const char* kSays[] = {
    QT_TRANSLATE_NOOP("Procedure", "Does the outlet sit tight, without a multiple socket?"),
    QT_TRANSLATE_NOOP("Procedure", "Is the intake filter in, clean and in date?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at the person's own hose: no crack, no water, cuffs tight?"),
    QT_TRANSLATE_NOOP("Procedure", "Does the unit stand on a hard surface, with its air inlet free?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at the case before anything is cleaned: whole, no loose part?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at mains cord and plug: no cut, no loose pin?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at the filters: in, clean, changed when due?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at seals and cuffs: no crack, no hardened rubber?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at the hose: no crack, cuffs tight?"),
    QT_TRANSLATE_NOOP("Procedure", "Tested by a qualified person, to local rules: is the report there, with tester, "
                                   "method and class, and is it in order?"),
    QT_TRANSLATE_NOOP("Procedure", "Try the alarms as the unit's service documentation says: do they sound?"),
    QT_TRANSLATE_NOOP("Procedure", "Has the battery been run down as the service documentation says, and did it last? "
                                   "Not applicable where it was not done."),
    QT_TRANSLATE_NOOP("Procedure", "Read the prescription back from the unit's screen: is it complete?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at the case: whole, clean, no loose part?"),
    QT_TRANSLATE_NOOP("Procedure", "Does the outlet fit the protection class on the type label?"),
    QT_TRANSLATE_NOOP("Procedure", "Look at the hose that is delivered: no crack, cuffs tight?"),
    QT_TRANSLATE_NOOP("Procedure", "Is the interface of the prescription there, in its size?"),
    QT_TRANSLATE_NOOP("Procedure", "Is the label with the asset number on the unit, and readable?"),
    QT_TRANSLATE_NOOP("Procedure", "Does the unit's clock show the right time?"),
    QT_TRANSLATE_NOOP("Procedure", "Take the mains lead out and hold each phase: does the unit reach the same "
                                   "pressures within 2 cmH2O? Put the lead in again."),
    QT_TRANSLATE_NOOP(
        "Procedure",
        "Stop the unit, face away, open the plug and start it: does the alarm sound? Stop it and shut the plug."),
    QT_TRANSLATE_NOOP("Procedure", "The settings as found are copied: are the data of the previous user erased? Never "
                                   "where an incident is suspected."),
};

} // namespace

std::string procedure_words(const std::string& say)
{
    const auto* const known =
        std::find_if(std::begin(kSays), std::end(kSays), [&](const char* one) { return say == one; });
    return known != std::end(kSays) ? QCoreApplication::translate("Procedure", *known).toStdString() : say;
}

bool knows_procedure_words(const std::string& say)
{
    return std::any_of(std::begin(kSays), std::end(kSays), [&](const char* one) { return say == one; });
}

} // namespace zeroline::session
