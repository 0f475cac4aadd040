#include "gui/records/instrument_checks.hpp"

#include "gui/records/json_file.hpp"
#include "gui/records/open_file.hpp"
#include "gui/records/schemas.hpp"

#include <nlohmann/json.hpp>

#include <fcntl.h>
#include <utility>

namespace zeroline::records {

namespace fs = std::filesystem;

fs::path checks_file(const fs::path& instrument_file)
{
    auto file = instrument_file;
    return file.replace_extension(".checks.json");
}

verification::InstrumentChecks load_instrument_checks(const fs::path& instrument_file)
{
    const auto file = checks_file(instrument_file);
    std::error_code none;
    if (!fs::exists(file, none)) {
        return {};
    }
    const auto tree = load_json(file);
    return reading(file, [&] {
        check_schema(tree, "instrument-checks");
        return verification::parse_instrument_checks(tree);
    });
}

void append_instrument_check(const fs::path& instrument_file, verification::InstrumentChecks all,
                             verification::InstrumentCheck check)
{
    all.checks.push_back(std::move(check));
    const auto file = checks_file(instrument_file);
    write_whole(AT_FDCWD, file.string(), verification::to_json(all).dump(2) + "\n", file);
}

} // namespace zeroline::records
