#include "gui/print/home_words.hpp"

namespace zeroline::print {

namespace {

HomeWords english()
{
    HomeWords words;
    words.title = "The unit that helps you cough was checked";
    words.checked_on = "Checked on";
    words.next_due = "To be checked again by";
    words.by = "by";
    words.unit = "Unit";
    words.simulated = "SIMULATED: a demonstration. It says nothing about any unit.";
    words.imported = "IMPORTED: nobody here saw the readings being taken.";
    words.agreed = "As prescribed";
    words.agreed_more =
        "On this day the unit gave the pressures and times that were prescribed, within the limits set for "
        "this check.";
    words.close = "As prescribed, but near a limit";
    words.close_more =
        "On this day the unit gave the pressures and times that were prescribed, but one of them lies near its "
        "limit. The people who checked it know.";
    words.outside = "Not as prescribed";
    words.outside_more =
        "On this day the unit did not give what was prescribed. Ask the people named below today what to "
        "do. Do not change the settings yourself.";
    words.not_as_set = "As prescribed, but not as it was set";
    words.not_as_set_more =
        "On this day the unit gave what was prescribed, but not what it was set to give. Ask the people named below "
        "today what to do. Do not change the settings yourself.";
    words.not_in_order = "Not in order";
    words.not_in_order_more = "Something on the unit was found not to be in order. Ask the people named below today "
                              "what to do.";
    words.incomplete = "Check not finished";
    words.incomplete_more =
        "The check could not be finished. It says neither that the unit is as prescribed nor that it is "
        "not. The people named below will say how it goes on.";
    words.out_of_use = "Do not use this unit";
    words.out_of_use_more =
        "Call the people named below now. If you need a unit, ask for another one at once: you should "
        "not be left without one.";
    words.again = "To be checked again";
    words.again_more =
        "The check was stopped because somebody seemed to be connected to the unit. It says neither that the unit is "
        "as prescribed nor that it is not. It has to be done again with nobody connected.";
    words.settings = "What was prescribed, and what was measured";
    words.setting = "setting";
    words.breath_in = "breath in";
    words.breath_out = "breath out";
    words.rest = "pause";
    words.prescribed = "prescribed";
    words.measured = "measured";
    words.in_figures = "%1 cmH2O for %2 s";
    words.out_figures = "%1 cmH2O for %2 s";
    words.seconds = "%1 s";
    words.not_told = "What this page does not tell";
    words.not_told_more =
        "It does not tell whether the treatment is right for you: that is for the person who prescribed it. "
        "Only pressures and times were checked, with the end of the hose closed. Not checked were: flow, "
        "alarms, filters, battery, electrical safety, and your own mask and hose.";
    words.call = "Whom to call";
    words.call_more =
        "Call if the unit sounds, feels or works differently from before, if an alarm comes, or if you are in "
        "doubt:";
    words.no_contact = "________________________________________";
    words.by_hand = "The same in five lines, to copy by hand where there is no printer";
    words.by_hand_lines =
        "Unit %1, checked on %2.\nResult: %3.\nPrescribed %4, measured %5.\nThis does not tell whether the "
        "treatment is right.\nDifferent sound or feel, or in doubt: call %6.";
    words.set_otherwise = "The unit was set otherwise than prescribed. That is no fault of the unit. Do not change it "
                          "yourself; ask the people named below.";
    words.page = "page %1 of %2";
    words.not_seen = "not measured";
    words.given_back = "The unit was set back for use and handed back.";
    words.held = "The unit is to be kept out of use until the people named below say otherwise.";
    words.not_given_back = "Ask whether the unit has been set back for use before you use it.";
    return words;
}

HomeWords german()
{
    HomeWords words;
    words.title = "Das Gerät, das beim Husten hilft, wurde geprüft";
    words.checked_on = "Geprüft am";
    words.next_due = "Wieder zu prüfen bis";
    words.by = "von";
    words.unit = "Gerät";
    words.simulated = "SIMULIERT (SIMULATED): eine Vorführung. Sie sagt nichts über irgendein Gerät.";
    words.imported = "IMPORTIERT (IMPORTED): Niemand hier hat gesehen, wie die Messwerte entstanden sind.";
    words.agreed = "Wie verordnet";
    words.agreed_more =
        "An diesem Tag gab das Gerät die verordneten Drücke und Zeiten ab, innerhalb der für diese Prüfung "
        "festgelegten Grenzen.";
    words.close = "Wie verordnet, aber nahe einer Grenze";
    words.close_more =
        "An diesem Tag gab das Gerät die verordneten Drücke und Zeiten ab, aber ein Wert liegt nahe an seiner "
        "Grenze. Wer geprüft hat, weiß davon.";
    words.outside = "Nicht wie verordnet";
    words.outside_more = "An diesem Tag gab das Gerät nicht ab, was verordnet ist. Fragen Sie noch heute bei der unten "
                         "genannten Stelle, was zu tun ist. Ändern Sie die Einstellungen nicht selbst.";
    words.not_as_set = "Wie verordnet, aber nicht wie eingestellt";
    words.not_as_set_more =
        "An diesem Tag gab das Gerät ab, was verordnet ist, aber nicht, worauf es eingestellt war. Fragen Sie noch "
        "heute bei der unten genannten Stelle, was zu tun ist. Ändern Sie die Einstellungen nicht selbst.";
    words.not_in_order = "Nicht in Ordnung";
    words.not_in_order_more = "Am Gerät wurde etwas gefunden, das nicht in Ordnung ist. Fragen Sie noch heute bei der "
                              "unten genannten Stelle, was zu tun ist.";
    words.incomplete = "Prüfung nicht abgeschlossen";
    words.incomplete_more =
        "Die Prüfung konnte nicht abgeschlossen werden. Sie sagt weder, dass das Gerät wie verordnet "
        "arbeitet, noch das Gegenteil. Die unten genannte Stelle sagt, wie es weitergeht.";
    words.out_of_use = "Dieses Gerät nicht benutzen";
    words.out_of_use_more =
        "Rufen Sie jetzt die unten genannte Stelle an. Wenn Sie ein Gerät brauchen, verlangen Sie sofort "
        "ein anderes: Sie sollen nicht ohne bleiben.";
    words.again = "Noch einmal zu prüfen";
    words.again_more =
        "Die Prüfung wurde angehalten, weil anscheinend jemand an das Gerät angeschlossen war. Sie sagt weder, dass "
        "das Gerät wie verordnet arbeitet, noch das Gegenteil. Sie muss wiederholt werden, ohne dass jemand "
        "angeschlossen ist.";
    words.settings = "Was verordnet ist, und was gemessen wurde";
    words.setting = "Einstellung";
    words.breath_in = "Einatmen";
    words.breath_out = "Ausatmen";
    words.rest = "Pause";
    words.prescribed = "verordnet";
    words.measured = "gemessen";
    words.in_figures = "%1 cmH2O für %2 s";
    words.out_figures = "%1 cmH2O für %2 s";
    words.seconds = "%1 s";
    words.not_told = "Was diese Seite nicht sagt";
    words.not_told_more =
        "Sie sagt nicht, ob die Behandlung für Sie richtig ist: das entscheidet, wer sie verordnet hat. "
        "Geprüft wurden nur Drücke und Zeiten am geschlossenen Schlauchende. Nicht geprüft wurden: "
        "Luftstrom, Alarme, Filter, Akku, elektrische Sicherheit sowie Ihre eigene Maske und Ihr Schlauch.";
    words.call = "Wen Sie anrufen";
    words.call_more =
        "Rufen Sie an, wenn das Gerät anders klingt, sich anders anfühlt oder anders arbeitet als bisher, wenn "
        "ein Alarm kommt oder wenn Sie im Zweifel sind:";
    words.no_contact = "________________________________________";
    words.by_hand = "Dasselbe in fünf Zeilen, zum Abschreiben, wo es keinen Drucker gibt";
    words.by_hand_lines = "Gerät %1, geprüft am %2.\nErgebnis: %3.\nVerordnet %4, gemessen %5.\nDas sagt nicht, ob die "
                          "Behandlung richtig ist.\nKlingt oder wirkt es anders, oder im Zweifel: anrufen bei %6.";
    words.set_otherwise =
        "Das Gerät war anders eingestellt als verordnet. Das ist kein Fehler des Geräts. Ändern Sie es "
        "nicht selbst; fragen Sie die unten genannte Stelle.";
    words.page = "Seite %1 von %2";
    words.not_seen = "nicht gemessen";
    words.given_back = "Das Gerät wurde wieder für den Gebrauch eingestellt und zurückgegeben.";
    words.held = "Das Gerät bleibt außer Betrieb, bis die unten genannte Stelle etwas anderes sagt.";
    words.not_given_back = "Fragen Sie vor dem Gebrauch, ob das Gerät wieder richtig eingestellt ist.";
    return words;
}

} // namespace

const HomeWords& home_words(const std::string& language)
{
    static const HomeWords in_english = english();
    static const HomeWords in_german = german();
    return language.starts_with("de") ? in_german : in_english;
}

} // namespace zeroline::print
