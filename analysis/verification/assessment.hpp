#pragma once

#include "acquisition/trace/instrument.hpp"
#include "acquisition/trace/trace.hpp"
#include "analysis/metrology/uncertainty.hpp"
#include "analysis/signal/phases.hpp"
#include "analysis/verification/leak_test.hpp"
#include "analysis/verification/run_log.hpp"
#include "analysis/verification/work_order.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

/// Everything an assessment is made from. The pointers may be null: what is missing is missing evidence.
struct Evidence {
    const WorkOrder* order = nullptr;    ///< never null
    const trace::Trace* trace = nullptr; ///< never null
    const trace::Instrument* instrument = nullptr;
    const RunLog* run = nullptr;
    HouseProfile house = HouseProfile::standard();
    Origin origin = Origin::imported; ///< as the caller may claim it (docs/formats.md)
};

struct Reason {
    std::string code;
    std::string text;
};

enum class Severity { note, caution, critical };

/// What the shape of the trace or the evidence says: "looks like ... because ... try ...".
struct Finding {
    std::string code;
    Severity severity = Severity::caution;
    std::vector<std::string> touches; ///< measurands it makes incomplete; "all" never stands here: spelled out
    std::string preset;               ///< empty: all presets
    std::vector<int> cycles;
    std::vector<double> times_s;
    std::map<std::string, double> figures;
    std::string text;
};

/// A cycle: insufflation and the exsufflation that belongs to it, and the pause after it. Halves may be null.
struct Cycle {
    int index = 0; ///< from 1 over the whole record
    std::string preset;
    std::size_t span = 0; ///< index into the run log's spans
    double start_s = 0.0;
    bool judged = false;
    /// "lead", "manual", "gap", "clipped", "stuck-reading", "plug-off", "one-cycle-unlike", "half" (its partner did not
    /// come), "extra" (the sequence has it without a partner), "cut" (begins or ends outside its span); empty where it
    /// is judged
    std::string why_not_judged;
    bool rest_follows = false; ///< its pause is a rest of the series
    bool reversed = false;     ///< exsufflation came first
    std::optional<signal::Phase> insufflation, exsufflation, pause;
    /// Expanded uncertainties of each reported quantity by measurand name, with their budgets.
    struct Quantity {
        double value = 0.0;
        std::vector<metrology::Contribution> budget;
        metrology::Expanded expanded;
    };
    std::map<std::string, Quantity> quantities;
};

/// One measurand against one reference.
struct Judgement {
    std::string measurand, preset, against, unit; ///< against: "prescribed", "set", "measured"
    std::optional<double> prescribed, set, displayed;
    metrology::Limits limits;
    std::string basis;
    int n = 0;
    std::optional<double> mean, mean_uncertainty, repeatability;
    std::optional<double> worst, expanded_uncertainty, coverage_factor, ratio, probability_outside;
    std::vector<metrology::Contribution> budget; ///< behind the uncertainty of `worst`
    std::optional<int> worst_cycle;
    metrology::Outcome verdict = metrology::Outcome::not_judged;
    bool critical = false;
    std::optional<Reason> reason;
    std::optional<std::size_t> span; ///< ladder: index of the (first) span it was asked about
    std::string power = {};          ///< "mains", "battery": where the preset ran on both; else empty
};

struct ZeroReadings {
    std::optional<double> before, after, drift, noise; ///< cmH2O
    std::optional<double> before_at_s;                 ///< when the reading before began, on the trace
    double noise_inflation = 1.0; ///< of the variance of a mean over that of independent readings (autocorrelation)
    double before_u = 0.0;        ///< standard uncertainty of the mean before, cmH2O
};

/// How much of the pressure at the closed hose end is left where air flows out through an orifice (strength.hpp).
struct Strength {
    std::string preset;
    Orifice orifice;
    std::string phase; ///< "insufflation", "exsufflation"
    int cycles = 0;    ///< under flow
    double closed_cmH2O = 0.0, open_cmH2O = 0.0;
    double share = 0.0, share_uncertainty = 0.0; ///< open over closed; expanded
    double flow_L_min = 0.0;                     ///< about
    std::optional<double> first_share;           ///< the unit's own first value
    std::optional<double> lost;                  ///< share of that which is gone; negative: stronger than then
};

/// The whole result; analysis/record turns it into the tree of record.json.
struct Assessment {
    metrology::Outcome verdict = metrology::Outcome::incomplete;
    metrology::Outcome unit_accuracy = metrology::Outcome::incomplete;
    bool critical = false;
    std::vector<Reason> reasons;
    Origin origin = Origin::imported;
    int attempt = 1;
    ZeroReadings zero;
    trace::Sampling sampling;
    std::vector<std::string> not_tested;
    std::vector<Skipped> skipped; ///< as the run log has it
    std::vector<Cycle> cycles;
    std::vector<Judgement> judgements;
    std::vector<Finding> findings;
    std::vector<LeakRate> leaks; ///< of the set-up, above zero and below
    std::vector<Strength> strength;
};

/// Judges a trace (docs/method.md). Pure: same evidence, same result to the last bit.
[[nodiscard]] Assessment assess(const Evidence& evidence);

} // namespace zeroline::verification
