#include "gui/register/approved.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/procedure_file.hpp"
#include "gui/register/unit_register.hpp"

#include <algorithm>

namespace zeroline::unit_register {

using nlohmann::json;
using trace::InputError;

namespace {

/// The first of these texts that the file has.
std::string called(const json& tree, std::initializer_list<const char*> keys)
{
    for (const auto* key : keys) {
        if (const auto found = tree.find(key); found != tree.end() && found->is_string()) {
            return *found;
        }
    }
    return {};
}

json known_by(const std::string& kind, const std::string& name, const std::string& text)
{
    return {{"kind", kind}, {"name", name}, {"sha256", records::sha256(text)}};
}

} // namespace

const std::vector<std::string>& approved_names()
{
    static const std::vector<std::string> all = {records::name::instrument, records::name::bench,
                                                 records::name::procedure};
    return all;
}

json approvable(const std::filesystem::path& file)
{
    const auto tree = records::load_json(file);
    const auto schema = tree.is_object() ? called(tree, {"schema"}) : std::string();
    if (schema.starts_with("zeroline/instrument/")) {
        return known_by(records::name::instrument, called(tree, {"serial", "name"}),
                        records::load_instrument(file).text);
    }
    if (schema.starts_with("zeroline/bench/")) {
        return known_by(records::name::bench, called(tree, {"organisation"}), records::load_bench(file).text);
    }
    if (schema.starts_with("zeroline/procedure/")) {
        return known_by(records::name::procedure, called(tree, {"name"}), records::load_procedure(file.string()).text);
    }
    throw InputError(file.string() + ": /schema", schema.empty() ? "none" : "'" + schema + "'",
                     "an instrument, procedure or bench file");
}

std::vector<std::string> not_approved(const Entry& entry, const UnitRegister& units)
{
    std::vector<std::string> lines;
    const auto approved = units.approved();
    for (const auto& [name, sha256] : entry.files.items()) {
        const auto of_kind = [&, &kind = name](const Rows& file) { return file["kind"].get<std::string>() == kind; };
        const auto same = [&, &hash = sha256](const Rows& file) {
            return of_kind(file) && file["sha256"].get<std::string>() == hash;
        };
        if (std::any_of(approved.begin(), approved.end(), of_kind) &&
            std::none_of(approved.begin(), approved.end(), same)) {
            lines.push_back(entry.record_number() + ": its " + name + " is not one that was approved");
        }
    }
    return lines;
}

} // namespace zeroline::unit_register
