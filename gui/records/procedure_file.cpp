#include "gui/records/procedure_file.hpp"

#include "gui/records/json_file.hpp"
#include "gui/records/schemas.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace zeroline::records {

namespace fs = std::filesystem;

namespace {

Read<verification::Procedure> procedure_in(const fs::path& shown, std::string text)
{
    return reading(shown, [&] {
        const auto tree = parse_json(text);
        check_schema(tree, "procedure");
        auto meaning = verification::parse_procedure(tree);
        return Read<verification::Procedure>{std::move(text), std::move(meaning)};
    });
}

} // namespace

const ShippedProcedure* shipped_procedure(std::string_view name)
{
    const auto& all = shipped_procedures();
    const auto found = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.name == name; });
    return found != all.end() ? &*found : nullptr;
}

std::string names_of_shipped_procedures()
{
    std::string names;
    for (const auto& shipped : shipped_procedures()) {
        names += (names.empty() ? "" : ", ") + std::string(shipped.name);
    }
    return names;
}

Read<verification::Procedure> load_procedure(const std::string& name_or_file)
{
    if (const auto* const shipped = shipped_procedure(name_or_file)) {
        return procedure_in(name_or_file, std::string(shipped->text));
    }
    std::error_code none;
    if (!fs::exists(name_or_file, none)) {
        throw trace::InputError(name_or_file, "no such file, and no procedure of that name",
                                "a file, or one of " + names_of_shipped_procedures());
    }
    return procedure_in(name_or_file, read_file(name_or_file));
}

std::optional<Read<verification::Procedure>>
procedure_of_run(const std::string& chosen, const std::optional<fs::path>& bench_file, verification::Occasion occasion)
{
    auto procedure = chosen.empty() ? own_procedure(bench_file, occasion) : std::optional(load_procedure(chosen));
    if (procedure && !verification::fits(procedure->meaning, occasion)) {
        throw trace::InputError("procedure '" + procedure->meaning.name + "'",
                                "it is for the occasion '" + verification::word_of(*procedure->meaning.occasion) +
                                    "', the order is for '" + verification::word_of(occasion) + "'",
                                "one procedure and one occasion: choose the procedure of the order's occasion, or put "
                                "the occasion of this run into the order");
    }
    return procedure;
}

std::optional<Read<verification::Procedure>> own_procedure(const std::optional<fs::path>& bench_file,
                                                           verification::Occasion occasion)
{
    if (!bench_file) {
        return std::nullopt;
    }
    const auto file = bench_file->parent_path() / "procedures" / (verification::word_of(occasion) + ".json");
    std::error_code none;
    if (fs::symlink_status(file, none).type() == fs::file_type::not_found) {
        return std::nullopt;
    }
    return procedure_in(file, read_file(file));
}

} // namespace zeroline::records
