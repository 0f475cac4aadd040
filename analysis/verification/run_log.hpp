#pragma once

#include "analysis/verification/disposition.hpp"
#include "analysis/verification/work_order.hpp"

#include <nlohmann/json_fwd.hpp>

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

enum class SpanKind { zero_before, manual, automatic, ladder, strength, leak_test, other, zero_after };

/// What the hose ends in for a strength test, in place of the plug.
struct Orifice {
    std::string name;
    double diameter_mm = 0.0; ///< kNarrowestOrifice_mm to kWidestOrifice_mm
};
inline constexpr double kNarrowestOrifice_mm = 1.0, kWidestOrifice_mm = 22.0; ///< a hose's bore

/// A stretch of the trace and what was done in it.
struct Span {
    SpanKind what = SpanKind::other;
    std::string preset; ///< manual, automatic, ladder, strength
    double from_s = 0.0;
    double to_s = 0.0;
    std::optional<Settings> set; ///< what the unit was set to, where not as prescribed
    std::vector<Step> asked;     ///< manual: in the order asked; empty: signs are not judged
    std::string power;           ///< "mains", "battery" or empty
    std::optional<long long> from_count, to_count;
    std::optional<Orifice> orifice = {}; ///< strength

    [[nodiscard]] bool on_battery() const { return power == "battery"; }
};

enum class Shows { live, cycle_peak, setting, none, not_read };

struct Displayed {
    std::string preset;
    std::optional<double> insufflation_cmH2O, exsufflation_cmH2O;
    Shows shows = Shows::live;
};

struct ChecklistItem {
    enum class Outcome { ok, not_ok, not_applicable };
    std::string item;
    Outcome outcome = Outcome::ok;
    std::string remark;
};

/// A step that a person left out, and why, in their own words.
struct Skipped {
    SpanKind what = SpanKind::manual; ///< any but other
    std::string preset;               ///< manual, automatic, ladder, strength
    std::string reason;               ///< never empty
};

enum class Origin { captured_here, imported, simulated };

/// The hose the run was made with.
struct Hose {
    std::string kind; ///< "test", "own"
    std::optional<double> length_m, bore_mm;
};

/// What the run was made in.
struct Environment {
    std::optional<double> temperature_C, pressure_hPa, humidity_percent;
    /// How long the instrument had been on when its line was opened; 0: nobody said, it may have been longer.
    std::optional<double> instrument_on_s = {};
};
inline constexpr double kLongestOn_s = 2592000.0; ///< 30 days

/// Why this run stands in place of an earlier one of the same order (docs/method.md, attempts).
struct Replaces {
    int attempt = 0;
    std::string cause; ///< "zero", "plug", "hose", "instrument"
    std::string evidence;
};

/// What somebody answered, once per set-up, when the pressure moved as if something soft was at the hose end.
struct HoseEndAnswer {
    bool nothing_soft = false; ///< "nothing soft, plug seen"; else a person, a bag or a soft tube is connected
    std::string by, at;        ///< never empty; `at`: RFC 3339 with offset
};

/// What an earlier check of the same unit with the same orifice found first (strength.hpp): shares of the pressure at
/// the closed hose end that were left under flow.
struct FirstStrength {
    std::string on, record; ///< day of that run; its record, as it is named on paper
    double diameter_mm = 0.0;
    std::optional<double> insufflation, exsufflation;
};

/// What happened at the bench, schema zeroline/run/1. Absent keys are absent evidence (docs/method.md).
struct RunLog {
    std::string run_operator, place, began; ///< began: RFC 3339 with offset, or empty
    std::optional<int> attempt;
    std::vector<Span> spans;            ///< as in the file; they do not overlap
    std::vector<std::string> confirmed; ///< "no-patient-connected", "outlet-blocked", "trigger-off"
    std::optional<std::vector<Displayed>> displayed;
    std::optional<std::map<std::string, Settings>> settings_found, settings_left;
    std::optional<bool> restored;
    std::optional<Origin> origin;
    std::vector<ChecklistItem> checklist;
    std::vector<Skipped> skipped; ///< in the order they were left out
    std::optional<Hose> hose;
    std::optional<Environment> environment;
    std::optional<Replaces> replaces;
    std::optional<HoseEndAnswer> hose_end;
    std::optional<int> unlike_in_attempt; ///< the earlier attempt that left one cycle out as unlike the others
    std::optional<FirstStrength> first_strength;
    std::optional<Disposition> disposition;

    [[nodiscard]] bool has_confirmed(const std::string& what) const;
};

/// Throws trace::InputError with a JSON pointer. `order` is asked for the names of presets.
[[nodiscard]] RunLog parse_run_log(const nlohmann::json& tree, const WorkOrder& order);

/// The tree that parse_run_log() reads back to the same log.
[[nodiscard]] nlohmann::json to_json(const RunLog& run);

/// Refuses a span that does not lie inside the trace, with its pointer. A second at either end is allowed: the
/// sample clock is fitted after the log was written, and a busy computer's first guess can be off by most of one.
/// Throws trace::InputError.
void check_spans(const RunLog& run, double first_s, double last_s);

[[nodiscard]] bool is_cycling(SpanKind kind) noexcept; ///< manual, automatic, ladder: against a closed end
[[nodiscard]] bool has_preset(SpanKind kind) noexcept; ///< these, and strength

[[nodiscard]] std::string word_of(SpanKind kind);
[[nodiscard]] std::string word_of(Shows shows);
[[nodiscard]] std::string word_of(ChecklistItem::Outcome outcome);
[[nodiscard]] std::string word_of(Origin origin);

} // namespace zeroline::verification
