#pragma once

#include "analysis/verification/work_order.hpp"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <optional>
#include <string>

namespace zeroline::records {

/// How long a unit may run against a blocked outlet, and how long it rests after that. House figures.
struct DutyLimit {
    double cycling_s = 90.0;
    double rest_s = 30.0;
};

/// A bench file, schema zeroline/bench/1: who works here and by which house rules. Every key may be left out.
struct Bench {
    std::string organisation, address;
    verification::HouseProfile house = verification::HouseProfile::standard();
    DutyLimit duty;
    std::string register_url;
    std::string language;     ///< empty: of the system
    char decimal_mark = '\0'; ///< '.' or ',' for what a person reads; '\0': of the system
    std::string key_file;
    bool sounds = true;
};

/// Throws trace::InputError with a JSON pointer.
[[nodiscard]] Bench parse_bench(const nlohmann::json& tree);

/// A bench file's part that belongs into a record (organisation, address, house rules): what a later assessment needs
/// to come to the same record. Keys, register and habits of the desk stay at home.
[[nodiscard]] nlohmann::ordered_json recorded_part(const nlohmann::json& tree);

/// Where the bench file is looked for if none is named: $XDG_CONFIG_HOME or ~/.config, zeroline/bench.json. None where
/// no such file stands.
[[nodiscard]] std::optional<std::filesystem::path> usual_bench_file();

} // namespace zeroline::records
