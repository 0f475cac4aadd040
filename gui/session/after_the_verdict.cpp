#include "gui/session/after_the_verdict.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/register/released.hpp"
#include "gui/session/result_view.hpp"

#include <QCoreApplication>

namespace zeroline::session {

namespace {

using verification::Disposition;

QString release_line(const RecordTree& record, const ResultWords& words)
{
    const bool may =
        unit_register::is_released(record.text("/verdict").toStdString(), record.text("/unit_accuracy").toStdString(),
                                   record.is_true("/critical"));
    return may ? words.say(QT_TRANSLATE_NOOP("Result", "The unit: released for use."))
               : words.say(QT_TRANSLATE_NOOP("Result", "The unit: not released, whatever the run log says; it did not "
                                                       "pass."));
}

QString loaner_line(const QString& loaner, const ResultWords& words)
{
    return loaner.isEmpty() ? words.say(QT_TRANSLATE_NOOP("Result", "No loaner was arranged."))
                            : words.say(QT_TRANSLATE_NOOP("Result", "Loaner arranged: %1.")).arg(loaner);
}

} // namespace

QStringList after_the_verdict(const RecordTree& record, const ResultWords& words)
{
    QStringList lines;
    const auto at = [](const char* key) { return "/run/disposition/" + std::string(key); };
    if (const auto unit = record.text(at("unit")); unit == QLatin1String("released")) {
        lines << release_line(record, words);
    } else if (unit == QLatin1String("kept-out")) {
        lines
            << words.say(QT_TRANSLATE_NOOP("Result", "The unit: kept out of use (%1).")).arg(record.text(at("reason")))
            << loaner_line(record.text(at("loaner")), words);
    }
    if (const auto by = record.text(at("adjusted_by")); !by.isEmpty()) {
        lines << (record.is_true(at("authorised"))
                      ? words.say(QT_TRANSLATE_NOOP("Result", "Adjusted before this run by %1, authorised to do so."))
                      : words.say(QT_TRANSLATE_NOOP("Result", "Adjusted before this run by %1; nobody said that they "
                                                              "were authorised.")))
                     .arg(by);
    }
    return lines;
}

bool may_be_released(const ResultView& result)
{
    return unit_register::is_released(std::string(metrology::word_of(result.delivery)),
                                      std::string(metrology::word_of(result.unit_accuracy)), result.critical);
}

void refuse_disposition(const Disposition& said, const ResultView& result)
{
    if (said.unit == Disposition::Unit::released && !may_be_released(result)) {
        throw trace::InputError("release", "the result is: " + result.headline.toStdString(),
                                "a run that passed; after an adjustment an as-left run");
    }
    if (said.unit == Disposition::Unit::kept_out && said.reason.empty()) {
        throw trace::InputError("kept out of use", "no reason", "why, in a few words");
    }
}

Judged judged_again_with(const records::RecordFolder& folder, const Disposition& said, const records::SigningKey& key)
{
    records::put_disposition(folder, said, key);
    auto evidence = records::load_record_evidence(folder.part());
    auto assessed = records::assess(evidence);
    return {std::move(evidence), std::move(assessed)};
}

} // namespace zeroline::session
