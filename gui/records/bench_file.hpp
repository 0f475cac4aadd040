#pragma once

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <optional>

namespace zeroline::records {

/// A bench file's part that belongs into a record (organisation, address, house rules, interval of checks): what a later assessment needs
/// to come to the same record. Keys, register and habits of the desk stay at home.
[[nodiscard]] nlohmann::ordered_json recorded_part(const nlohmann::json& tree);

/// Where the bench file is looked for if none is named: $XDG_CONFIG_HOME or ~/.config, zeroline/bench.json. None where
/// no such file stands.
[[nodiscard]] std::optional<std::filesystem::path> usual_bench_file();

} // namespace zeroline::records
