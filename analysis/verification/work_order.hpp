#pragma once

#include "analysis/metrology/decision.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace zeroline::trace {
class JsonReader;
}

namespace zeroline::verification {

enum class Occasion { pre_delivery, periodic, home_visit };
enum class Flow { full, reduced };
enum class During { insufflation, exsufflation, both };
enum class Step { insufflation, exsufflation, pause };

/// Pressure in cmH2O (exsufflation negative), duration in s.
struct PhaseSetting {
    double pressure_cmH2O = 0.0;
    double duration_s = 0.0;
};

struct OscillationSetting {
    double frequency_hz = 0.0;
    double amplitude_cmH2O = 0.0; ///< zero to peak
    During during = During::both;
};

/// A programmed series: `breaths` cycles, then a rest, `count` times.
struct Series {
    int breaths = 0;
    int count = 1;
    double rest_s = 0.0;
};

/// One prescribed preset. Times and pressures in s and cmH2O.
struct Preset {
    std::string name;
    PhaseSetting insufflation;
    PhaseSetting exsufflation;
    PhaseSetting pause; ///< duration 0: no pause; pressure: prescribed pause level
    std::optional<Flow> flow;
    std::string flow_as_labelled;
    std::optional<bool> trigger_on;
    std::vector<Step> sequence{Step::insufflation, Step::exsufflation, Step::pause};
    std::optional<OscillationSetting> oscillation;
    std::optional<Series> series;
};

/// How far a value may be off.
struct Tolerance {
    enum class Combine { wider, sum };
    std::optional<double> absolute; ///< in the measurand's unit
    std::optional<double> relative; ///< of the prescribed (set) magnitude
    Combine combine = Combine::wider;
    std::optional<double> at_most; ///< cap on the combined width
    std::optional<double> lower;   ///< apart: how far below (a magnitude), instead of absolute/relative
    std::optional<double> upper;
    bool mid_level = false;         ///< durations: the basis defines them between 50 % points
    std::optional<double> within_s; ///< zero: the return must be complete within this time
    std::string basis;              ///< where the figure comes from
    bool house = false;             ///< a house default, no published source

    /// Limits about `nominal`: lower is towards minus infinity, as printed, whatever the sign of the value. Both null
    /// where the tolerance gives no width.
    [[nodiscard]] metrology::Limits limits(double nominal) const;
};

/// The tolerances of an order; what is left out falls back, key by key, to the house profile.
struct Tolerances {
    std::string basis;
    std::string approved_by;
    std::optional<Tolerance> pressure, insufflation_pressure, exsufflation_pressure;
    std::optional<Tolerance> duration, insufflation_duration, exsufflation_duration, pause_duration;
    std::optional<Tolerance> residual, zero, display, oscillation_frequency, oscillation_amplitude;
    std::optional<double> peak_limit_cmH2O; ///< limits.peak
};

/// House figures of this project: editable in the bench file, labelled as such on every record.
struct HouseProfile {
    std::string basis = "house default, no published source";
    std::string approved_by; ///< empty: not approved
    Tolerances tolerances;   ///< complete: pressure, duration, residual, zero, display, oscillation_frequency
    double zero_offset_cmH2O = 0.5;
    double zero_drift_cmH2O = 0.5;
    double leak_cmH2O_per_s = 1.0;
    double peak_hold_s = 0.1;
    double battery_cmH2O = 2.0; ///< largest difference of a plateau on battery from the one on mains

    /// "house default, no published source, not approved": what stands beside every verdict that used a house figure.
    [[nodiscard]] std::string label() const;
    /// The figures of docs/method.md, judgement.
    [[nodiscard]] static HouseProfile standard();
};

struct UnitUnderTest {
    std::string asset, serial, model;
    std::optional<double> hours;
    double display_step_cmH2O = 1.0;
};

/// A work order, schema zeroline/work-order/1.
struct WorkOrder {
    std::string work_order;
    Occasion occasion = Occasion::pre_delivery;
    std::string customer, contact;
    UnitUnderTest unit;
    std::string reference, ordered_on; ///< of the prescription
    std::vector<Preset> presets;
    Tolerances tolerances;
    metrology::Rule decision_rule = metrology::Rule::simple;
    int cycles = 5;
    int lead_cycles = 1;

    [[nodiscard]] const Preset* preset(const std::string& name) const;
};

/// Reads an order and refuses what is beyond plausibility (docs/formats.md). Throws trace::InputError with a JSON
/// pointer.
[[nodiscard]] WorkOrder parse_work_order(const nlohmann::json& tree);
/// Reads the house profile of a bench file; what it leaves out stays as in HouseProfile::standard(). `pointer` is where
/// the tree stands in its file. Throws trace::InputError.
[[nodiscard]] HouseProfile parse_house_profile(const nlohmann::json& tree, const std::string& pointer);
[[nodiscard]] nlohmann::json to_json(const HouseProfile& house);

/// A preset's settings as a run log writes them under `set`, `settings_found`, `settings_left`: every key optional.
struct Settings {
    std::optional<double> insufflation_pressure, insufflation_duration;
    std::optional<double> exsufflation_pressure, exsufflation_duration;
    std::optional<double> pause_duration, pause_pressure;
    std::optional<Flow> flow;
    std::optional<bool> trigger_on;
    std::optional<bool> oscillation_on;
    std::optional<OscillationSetting> oscillation;
    std::optional<Series> series;
    std::string mode;              ///< as the unit names it; hand-back only, empty: not written down
    std::optional<bool> alarms_on; ///< hand-back only
};

/// The preset with what `settings` says put in: what the unit was set to. What is left out stays as prescribed.
[[nodiscard]] Preset with(const Settings& settings, Preset preset);

/// The tree that parse_work_order() reads back to the same order; what stands at its default is left out.
[[nodiscard]] nlohmann::json to_json(const WorkOrder& order);
/// The members of one preset, as they stand in an order.
[[nodiscard]] nlohmann::json to_json(const Preset& preset);
/// Settings in the preset's form; only what is set is written.
[[nodiscard]] nlohmann::json to_json(const Settings& settings);
/// A tolerance profile as it stands under `tolerances`.
[[nodiscard]] nlohmann::json to_json(const Tolerances& tolerances);

/// Throws trace::InputError where it is none.
[[nodiscard]] Occasion occasion_at(const trace::JsonReader& at);
[[nodiscard]] std::string word_of(Occasion occasion);
[[nodiscard]] std::string word_of(Step step);
[[nodiscard]] std::string word_of(Flow flow);
[[nodiscard]] std::string word_of(During during);

} // namespace zeroline::verification
