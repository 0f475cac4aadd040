#pragma once

#include "acquisition/trace/trace.hpp"
#include "gui/print/pages.hpp"
#include "gui/print/seal_remarks.hpp"
#include "gui/records/attempts.hpp"
#include "gui/session/numerals.hpp"
#include "gui/session/result_view.hpp"

#include <QByteArray>
#include <QString>
#include <QStringList>

#include <nlohmann/json.hpp>

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::print {

using session::CycleRow;
using session::JudgementRow;
using session::Numerals;
using session::SpanRow;
using session::with_blanks;

/// A record as it was saved: what stands in its files, nothing computed anew but the sample times of the trace.
struct PrintedRecord : session::RecordTree {
    PrintedRecord() = default;
    explicit PrintedRecord(nlohmann::json tree);

    session::ResultView result; ///< what is read of it, in the words of paper
    QByteArray record_json, trace_csv;
    QString sha256; ///< of record.json, in hexadecimal
    QString number; ///< record number
    trace::Trace trace;
    QStringList presets; ///< in the order's order
    std::vector<JudgementRow> judgements;
    std::vector<CycleRow> cycles;
    std::vector<SpanRow> spans;
    std::vector<Signature> signatures;
    std::vector<Correction> corrections;
    std::shared_ptr<const PrintedRecord> before; ///< the record that this one follows and holds; without its trace
    std::optional<records::KeptAttempt> attempt; ///< which attempt it is; none where there is no run log
    bool draft = false;                          ///< never sealed
    QString organisation, address;
    QString procedure;                  ///< name and revision of what the run went by; empty: none was chosen
    std::optional<int> interval_months; ///< to the next check, as the bench file says

    /// What stands large across every page, and in its footer; empty: nothing.
    [[nodiscard]] QString across() const;
    [[nodiscard]] bool simulated() const { return result.simulated(); }
    /// Somebody said that the unit is kept out of use.
    [[nodiscard]] bool kept_out() const { return text("/run/disposition/unit") == "kept-out"; }
    /// Who signed it first, else who ran it.
    [[nodiscard]] QString answers_for_it() const;
    /// Settings were left neither as found nor as prescribed.
    [[nodiscard]] bool left_otherwise() const;
};

/// Loads a record folder or FOLDER.part. Throws trace::InputError, also where it was sealed and is not intact:
/// manifest, seal and files are looked at before anything is shown.
[[nodiscard]] PrintedRecord load_printed_record(const std::filesystem::path& folder);

} // namespace zeroline::print
