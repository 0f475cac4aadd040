#pragma once

#include "analysis/verification/run_log.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>

namespace zeroline::records {

/// Air in the room, as noted in a run log.
struct Environment {
    std::optional<double> temperature_C, pressure_hPa, humidity_percent;
};

/// The tree of run.json, schema zeroline/run/1: verification::parse_run_log() reads it back to the same log. What is
/// absent in the log is absent in the tree.
[[nodiscard]] nlohmann::ordered_json to_json(const verification::RunLog& log, const Environment& environment);

/// Settings in the preset's form, every key optional.
[[nodiscard]] nlohmann::ordered_json to_json(const verification::Settings& settings);

} // namespace zeroline::records
