#pragma once

#include "acquisition/trace/trace.hpp"
#include "gui/print/pages.hpp"
#include "gui/print/seal_remarks.hpp"
#include "gui/records/attempts.hpp"

#include <QByteArray>
#include <QString>
#include <QStringList>

#include <nlohmann/json.hpp>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::print {

/// One judgement as record.json holds it.
struct JudgementRow {
    QString measurand, preset, against, unit, basis, definition, verdict, reason;
    std::optional<double> prescribed, set, displayed, lower, upper, mean, worst;
    std::optional<double> expanded_uncertainty, coverage_factor, ratio;
    std::optional<int> worst_cycle;
    int n = 0;
    bool critical = false;

    [[nodiscard]] bool is_pressure() const { return unit == "cmH2O"; }
    [[nodiscard]] bool has_limits() const { return lower || upper; }
};

/// One cycle: when its phases begin. What was not seen is not there.
struct CycleRow {
    int index = 0;
    QString preset, why_not_judged;
    bool judged = false;
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
};

/// A record as it was saved: what stands in its files, nothing computed anew but the sample times of the trace.
struct SavedRecord {
    nlohmann::json tree; ///< record.json
    QByteArray record_json, trace_csv;
    QString sha256; ///< of record.json, in hexadecimal
    QString number; ///< record number
    trace::Trace trace;
    QStringList presets; ///< in the order's order
    std::vector<JudgementRow> judgements;
    std::vector<CycleRow> cycles;
    std::vector<SpanRow> spans;
    std::vector<FindingRow> findings;
    std::vector<Signature> signatures;
    std::vector<Correction> corrections;
    std::shared_ptr<const SavedRecord> before;   ///< the record that this one follows and holds; without its trace
    std::optional<records::KeptAttempt> attempt; ///< which attempt it is; none where there is no run log
    QString organisation, address;
    std::optional<int> interval_months; ///< to the next check, as the bench file says

    /// Texts and numbers of record.json by JSON pointer; empty where nothing or null stands there.
    [[nodiscard]] QString text(const std::string& pointer) const;
    [[nodiscard]] std::optional<double> figure(const std::string& pointer) const;
    [[nodiscard]] QStringList texts(const std::string& pointer) const;
    /// What stands there, or null.
    [[nodiscard]] const nlohmann::json& at(const std::string& pointer) const;

    [[nodiscard]] bool simulated() const { return text("/origin") == "simulated"; }
    [[nodiscard]] bool critical() const { return at("/critical") == nlohmann::json(true); }
    /// What is critical is a breath at the hose and nothing else: a person was connected, the unit is not to blame.
    [[nodiscard]] bool only_a_breath() const;
    /// Something critical lies with the unit itself.
    [[nodiscard]] bool out_of_use() const { return critical() && !only_a_breath(); }
    /// Settings were left neither as found nor as prescribed.
    [[nodiscard]] bool left_otherwise() const;
    /// The worse of both verdicts is at least a conditional pass.
    [[nodiscard]] bool passed() const;
};

/// Loads a record folder or FOLDER.part. Throws trace::InputError.
[[nodiscard]] SavedRecord load_saved_record(const std::filesystem::path& folder);

} // namespace zeroline::print
