#include "gui/session/ladder_view.hpp"

#include <QCoreApplication>

#include <nlohmann/json.hpp>

#include <algorithm>

namespace zeroline::session {

namespace {

using nlohmann::json;

constexpr int kDecimalsOfGain = 4;

QString word_in(const json& tree, const char* key) { return QString::fromStdString(tree.value(key, std::string())); }

LadderSetting setting_of(const JudgementRow& row, const ResultWords& words)
{
    const int decimals = row.known().decimals;
    LadderSetting shown;
    shown.at = row.set.value_or(0.0);
    shown.off = row.mean.value_or(shown.at) - shown.at;
    shown.u = row.mean_uncertainty.value_or(0.0);
    shown.set = words.given(row, row.set);
    shown.mean = words.measured(row, row.mean);
    shown.error = words.numerals().signed_fixed(shown.off, decimals);
    shown.uncertainty = words.numerals().uncertainty(row.mean_uncertainty, decimals);
    shown.sign = sign_of(row.verdict, row.critical);
    shown.word = words.outcome(row.verdict);
    shown.tone = tone_of(row.verdict, row.critical);
    return shown;
}

/// "gain 0.9985 (U 0.0062), offset ...": figures as they stand in the record.
QString line_of(const json& fit, const JudgementRow& row, const ResultWords& words)
{
    const auto& numerals = words.numerals();
    const int decimals = row.known().decimals;
    const auto figure = [&](const char* key) { return fit.value(key, 0.0); };
    return words
        .say(QT_TRANSLATE_NOOP("Result",
                               "Straight line through %1 settings: gain %2 (U %3), offset %4 %6 (U %5), largest "
                               "deviation from it %7 %6 (U %8) at %9."))
        .arg(fit.value("settings", 0))
        .arg(numerals.fixed(figure("gain"), kDecimalsOfGain),
             numerals.uncertainty(figure("gain_uncertainty"), kDecimalsOfGain),
             numerals.signed_fixed(figure("offset"), decimals),
             numerals.uncertainty(figure("offset_uncertainty"), decimals), row.unit,
             numerals.signed_fixed(figure("largest_deviation"), decimals),
             numerals.uncertainty(figure("deviation_uncertainty"), decimals), words.given(row, figure("deviates_at")));
}

bool is_of(const json& fit, const JudgementRow& row)
{
    return row.of_ladder && word_in(fit, "measurand") == row.measurand && word_in(fit, "preset") == row.preset;
}

} // namespace

std::vector<LadderView> ladder_view(const RecordTree& record, const ResultWords& words)
{
    std::vector<LadderView> all;
    const auto rows = record.judgements();
    for (const auto& fit : record.at("/ladder")) {
        LadderView view;
        view.gain = fit.value("gain", 1.0);
        view.offset = fit.value("offset", 0.0);
        for (const auto& row : rows) {
            if (!is_of(fit, row) || !row.set || !row.mean) {
                continue;
            }
            auto plain = row;
            plain.against = QStringLiteral("prescribed"); // every value stands against its setting here
            view.name = words.measurand(plain);
            view.unit = row.unit;
            view.preset = row.preset;
            view.line = line_of(fit, row, words);
            view.settings.push_back(setting_of(row, words));
        }
        all.push_back(std::move(view));
    }
    return all;
}

bool shown_by_a_ladder(const RecordTree& record, const JudgementRow& row)
{
    const auto& fits = record.at("/ladder");
    const bool in_a_table = std::any_of(fits.begin(), fits.end(), [&](const json& fit) { return is_of(fit, row); });
    return row.of_ladder &&
           (in_a_table || row.verdict == metrology::Outcome::pass || row.verdict == metrology::Outcome::not_judged);
}

} // namespace zeroline::session
