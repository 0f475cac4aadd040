#include "gui/session/tests_view.hpp"

#include <QCoreApplication>

#include <nlohmann/json.hpp>

namespace zeroline::session {

namespace {

using nlohmann::json;

std::optional<double> value_in(const json& tree, const char* key)
{
    const auto found = tree.find(key);
    return found != tree.end() && found->is_number() ? std::optional(found->get<double>()) : std::nullopt;
}

std::optional<double> percent_in(const json& tree, const char* key)
{
    const auto share = value_in(tree, key);
    return share ? std::optional(100.0 * *share) : std::nullopt;
}

QString leak_line(const json& leak, const RecordTree& record, const ResultWords& words)
{
    const auto& numerals = words.numerals();
    return words
        .say(QT_TRANSLATE_NOOP("Result",
                               "Leak test of the set-up: from %1 cmH2O %2 cmH2O/s lost (U %3), %4 mL/min; the "
                               "limit is %5 cmH2O/s."))
        .arg(numerals.signed_fixed(value_in(leak, "from_cmH2O"), 1),
             numerals.fixed(value_in(leak, "loss_cmH2O_per_s"), 2),
             numerals.fixed(value_in(leak, "uncertainty_cmH2O_per_s"), 2),
             numerals.fixed(value_in(leak, "gas_mL_per_min"), 0),
             numerals.plain(record.figure("/house/leak_cmH2O_per_s")));
}

QString first_words(const json& one, const RecordTree& record, const ResultWords& words)
{
    const auto first = percent_in(one, "first_share");
    if (!first) {
        return words.say(QT_TRANSLATE_NOOP("Result", "no first value of this unit with this orifice is known"));
    }
    const auto& numerals = words.numerals();
    return words.say(QT_TRANSLATE_NOOP("Result", "at first %1 % (%2, record %3), %4 % of that lost since"))
        .arg(numerals.fixed(first, 1), record.text("/run/first_strength/on"), record.text("/run/first_strength/record"),
             numerals.fixed(percent_in(one, "lost"), 1));
}

QString strength_line(const json& one, const RecordTree& record, const ResultWords& words)
{
    const auto& numerals = words.numerals();
    const auto text = [&](const char* pointer) {
        return QString::fromStdString(one.value(json::json_pointer(pointer), std::string()));
    };
    const auto phase = text("/phase") == QLatin1String("insufflation")
                           ? words.say(QT_TRANSLATE_NOOP("Result", "insufflation"))
                           : words.say(QT_TRANSLATE_NOOP("Result", "exsufflation"));
    return words
               .say(QT_TRANSLATE_NOOP("Result",
                                      "Strength with orifice '%1' (%2 mm), preset '%3', %4: %5 of %6 cmH2O left, %7 % "
                                      "(U %8 %), about %9 L/min; "))
               .arg(text("/orifice/name"), numerals.plain(one.value(json::json_pointer("/orifice/diameter"), 0.0)),
                    text("/preset"), phase, numerals.signed_fixed(value_in(one, "open_cmH2O"), 1),
                    numerals.signed_fixed(value_in(one, "closed_cmH2O"), 1),
                    numerals.fixed(percent_in(one, "share"), 1),
                    numerals.fixed(percent_in(one, "share_uncertainty"), 1),
                    numerals.fixed(value_in(one, "flow_L_per_min"), 0)) +
           first_words(one, record, words) + u'.';
}

} // namespace

QStringList tests_view(const RecordTree& record, const ResultWords& words)
{
    QStringList lines;
    for (const auto& leak : record.at("/leak_test")) {
        lines << leak_line(leak, record, words);
    }
    for (const auto& one : record.at("/strength")) {
        lines << strength_line(one, record, words);
    }
    return lines;
}

QString strength_missing(const RecordTree& record, const ResultWords& words)
{
    const bool periodic = record.text("/order/occasion") == QLatin1String("periodic");
    const bool missing = record.texts("/not_tested").contains(QLatin1String("strength-under-flow"));
    return periodic && missing ? words.say(QT_TRANSLATE_NOOP("Result", "; strength under flow not tested")) : QString();
}

} // namespace zeroline::session
