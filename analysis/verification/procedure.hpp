#pragma once

#include "analysis/verification/work_order.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace zeroline::verification {

/// One step of a procedure. Which members a kind uses stands beside it; the others are empty.
struct ProcedureStep {
    enum class Kind {
        nobody_connected, ///< the hose is off the person; no keys
        settings_found,   ///< the settings are copied, then the trigger goes off; no keys
        confirm,          ///< say
        check,            ///< item, say
        value,            ///< item, say, unit, low, high, basis
        zero,             ///< the line open, five quiet seconds; no keys
        instrument_check, ///< points, limit, basis, every_days: the instrument beside a second gauge, where it is due
        leak_test,        ///< the set-up without the unit; no keys
        plug,             ///< the hose end shut, the first phase held; no keys
        each_preset,      ///< steps: once for every preset of the order
        manual,           ///< in each_preset only; no keys
        automatic,        ///< in each_preset only; power
        rest,             ///< seconds
        ladder,           ///< from, rise, to, durations, cycles: settings dialled in one after another
        strength,         ///< orifice, diameter, cycles: air flows out through it in place of the plug
        zero_again,       ///< as zero, after everything; no keys
        hand_back         ///< the last one; no keys
    };
    Kind kind = Kind::confirm;
    std::string say;                 ///< what to do, one sentence
    std::string item;                ///< as it stands in the checklist of the record
    std::string unit, basis;         ///< of the value; where its limits come from
    std::optional<double> low, high; ///< in `unit`, both inclusive
    double seconds = 0.0;            ///< how long the unit stands still
    double from_cmH2O = 20.0;        ///< ladder: magnitude that it begins with, for both signs
    double rise_cmH2O = 5.0;         ///< ladder: from setting to setting
    std::optional<double> to_cmH2O;  ///< ladder: magnitude that it ends with; none: the highest that is prescribed
    std::vector<double> durations_s; ///< ladder: of both phases, one after the other, at the prescribed pressures
    int cycles = 2;                  ///< ladder: judged ones at each setting; strength: those that count
    std::vector<double> points_cmH2O{20.0, 40.0, -20.0, -40.0}; ///< instrument_check: two of each sign at least
    double limit_cmH2O = 1.0;                                   ///< instrument_check: of each error, `basis` beside it
    int every_days = 90;                                        ///< instrument_check: it holds for so long
    std::string orifice;                                        ///< strength: its name
    double diameter_mm = 0.0;                                   ///< strength: its bore
    std::string power;                                          ///< "mains", "battery" or empty
    std::vector<ProcedureStep> steps;
};

/// What a department does on an occasion, schema zeroline/procedure/1 (docs/procedures.md).
struct Procedure {
    std::string name, revision;
    std::optional<Occasion> occasion; ///< of the orders that it is for; none: of any
    std::vector<ProcedureStep> steps;
};

/// Throws trace::InputError with a JSON pointer: a step that is unknown or incomplete, and a step that stands where it
/// must not. Found settings come before anything is changed, zero before the plug, the plug before what is measured,
/// that before the second zero, hand-back last. Instrument and set-up are looked at between zero and plug; a ladder and
/// a strength test come after what is prescribed was run.
[[nodiscard]] Procedure parse_procedure(const nlohmann::json& tree);

/// Whether a run of an order of that occasion may go by it.
[[nodiscard]] bool fits(const Procedure& procedure, Occasion occasion);

/// The items of its checklist, in their order: those of steps `check` and `value`.
[[nodiscard]] std::vector<std::string> checklist_items(const Procedure& procedure);

} // namespace zeroline::verification
