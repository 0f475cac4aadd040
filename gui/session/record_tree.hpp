#pragma once

#include "analysis/metrology/decision.hpp"
#include "analysis/verification/measurands.hpp"

#include <QString>
#include <QStringList>

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace zeroline::session {

/// One judgement as record.json holds it.
struct JudgementRow {
    QString measurand, preset, against, unit, basis, definition;
    QString power;               ///< "mains", "battery": where the preset ran on both; else empty
    QString reason_code, reason; ///< empty: none
    std::optional<double> prescribed, set, displayed, lower, upper, mean, worst;
    std::optional<double> expanded_uncertainty, coverage_factor, ratio, probability_outside;
    std::optional<double> mean_uncertainty;
    std::optional<int> worst_cycle;
    bool of_ladder = false; ///< asked about a setting of a ladder
    int n = 0;
    metrology::Outcome verdict = metrology::Outcome::not_judged;
    bool critical = false;

    /// What is known of its measurand; a measurand of a newer program is taken as a plain value of its unit.
    [[nodiscard]] const verification::Measurand& known() const;
    [[nodiscard]] bool has_limits() const { return lower || upper; }
};

/// One cycle: when its phases begin. What was not seen is not there.
struct CycleRow {
    int index = 0;
    QString preset, why_not_judged;
    bool judged = false;
    bool of_ladder = false; ///< run at a setting that was dialled in for it
    double start_s = 0.0;
    std::optional<double> insufflation_s, exsufflation_s, pause_s; ///< start of each
    double end_s = 0.0;                                            ///< of its last phase, as far as it was seen
};

struct SpanRow {
    QString what, preset;
    double from_s = 0.0, to_s = 0.0;
};

struct FindingRow {
    QString code, severity, text;
    std::vector<std::pair<QString, double>> figures; ///< by name, with the unit behind its last underline
};

struct ReasonRow {
    QString code, text;
};

/// record.json, read as it stands: nothing is computed.
class RecordTree {
public:
    RecordTree() = default;
    /// Throws trace::InputError where it is no record of this version, or a list is missing.
    explicit RecordTree(nlohmann::json tree);

    /// What stands at a JSON pointer, or null.
    [[nodiscard]] const nlohmann::json& at(const std::string& pointer) const;
    /// Texts, as trace::visible_on_one_line() shows them, and numbers; empty where nothing or null stands there.
    [[nodiscard]] QString text(const std::string& pointer) const;
    [[nodiscard]] std::optional<double> figure(const std::string& pointer) const;
    [[nodiscard]] QStringList texts(const std::string& pointer) const;
    [[nodiscard]] bool is_true(const std::string& pointer) const { return at(pointer) == nlohmann::json(true); }

    [[nodiscard]] std::vector<JudgementRow> judgements() const;
    [[nodiscard]] std::vector<CycleRow> cycles() const;
    [[nodiscard]] std::vector<SpanRow> spans() const;
    [[nodiscard]] std::vector<FindingRow> findings() const;
    [[nodiscard]] std::vector<ReasonRow> reasons() const;
    [[nodiscard]] QStringList presets() const; ///< in the order's order

private:
    nlohmann::json tree_;
};

/// "pass", "conditional-pass" ...; not judged where nobody knows the word.
[[nodiscard]] metrology::Outcome outcome_named(const QString& word);

/// Blanks for dashes: "electrical-safety" to "electrical safety".
[[nodiscard]] QString with_blanks(QString word);

} // namespace zeroline::session
