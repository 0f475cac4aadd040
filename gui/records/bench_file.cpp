#include "gui/records/bench_file.hpp"

#include <nlohmann/json.hpp>

#include <cstdlib>

namespace zeroline::records {

nlohmann::ordered_json recorded_part(const nlohmann::json& tree)
{
    nlohmann::ordered_json part;
    for (const auto* key : {"schema", "organisation", "address", "house", "interval_months"}) {
        if (const auto it = tree.find(key); it != tree.end()) {
            part[key] = *it;
        }
    }
    return part;
}

std::optional<std::filesystem::path> usual_bench_file()
{
    std::filesystem::path base;
    if (const char* config = std::getenv("XDG_CONFIG_HOME"); config != nullptr && *config != '\0') {
        base = config;
    } else if (const char* home = std::getenv("HOME"); home != nullptr && *home != '\0') {
        base = std::filesystem::path(home) / ".config";
    } else {
        return std::nullopt;
    }
    auto file = base / "zeroline" / "bench.json";
    std::error_code none;
    if (!std::filesystem::exists(file, none)) {
        return std::nullopt;
    }
    return file;
}

} // namespace zeroline::records
