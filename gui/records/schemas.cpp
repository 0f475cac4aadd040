#include "gui/records/schemas.hpp"

#include "acquisition/trace/json_reader.hpp"
#include "acquisition/trace/likely_meaning.hpp"
#include "gui/records/json_file.hpp"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include <charconv>
#include <map>
#include <memory>
#include <mutex>
#include <optional>

namespace zeroline::records {

using nlohmann::json;
using trace::InputError;
using trace::JsonReader;

namespace {

using Tree = valijson::adapters::NlohmannJsonAdapter;
using Path = std::vector<std::string>;

struct Schema {
    json tree;
    valijson::Schema compiled;
};

/// The validator compiles the expression of a format anew for each text that it checks, and keeps that of a pattern. So
/// it is given patterns: RFC 3339 (full-date, date-time), with the days that a month has at most.
void formats_as_patterns(json& schema)
{
    static const std::string day =
                                 "[0-9]+-((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])|(0[469]|11)-(0[1-9]|[12][0-9]|30)|"
                                 "02-(0[1-9]|[12][0-9]))",
                             time = "[Tt]([01][0-9]|2[0-3]):[0-5][0-9]:([0-5][0-9]|60)(\\.[0-9]+)?"
                                    "([Zz]|[+-]([01][0-9]|2[0-3]):[0-5][0-9])";
    if (schema.is_object() && schema.contains("format")) {
        schema["pattern"] = "^" + day + (schema["format"] == "date" ? "" : time) + "$";
        schema.erase("format");
    }
    for (auto& part : schema) {
        if (part.is_structured()) {
            formats_as_patterns(part);
        }
    }
}

std::unique_ptr<Schema> compiled(const ShippedSchema& shipped)
{
    auto schema = std::make_unique<Schema>();
    schema->tree = parse_json(shipped.text);
    json checked = schema->tree;
    formats_as_patterns(checked);
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(Tree(checked), schema->compiled);
    return schema;
}

/// Each schema is compiled when it is first needed: most commands need one or two of them.
const Schema& schema_named(std::string_view name)
{
    static std::mutex lock;
    static std::map<std::string_view, std::unique_ptr<Schema>> known;
    const std::scoped_lock locked(lock);
    auto& schema = known[name];
    if (!schema) {
        for (const auto& shipped : shipped_schemas()) {
            if (shipped.name == name) {
                schema = compiled(shipped);
            }
        }
    }
    return *schema;
}

/// The validator says where in its own way: "<root>", then "[key]" or "[index]" a level.
Path path_of(const std::vector<std::string>& context)
{
    Path path;
    for (std::size_t i = 1; i < context.size(); ++i) {
        path.push_back(context[i].substr(1, context[i].size() - 2));
    }
    return path;
}

JsonReader place_at(const json& tree, const Path& path)
{
    JsonReader place(tree);
    for (const auto& step : path) {
        place = place.tree().is_array() ? place.elements().at(std::stoul(step)) : place.at(step);
    }
    return place;
}

/// Finds the part of a schema that speaks about a place; where several do, the first one that applies.
class Governing {
public:
    explicit Governing(const json& root) : root_(root) {}

    /// Null where the schema says nothing about it.
    [[nodiscard]] const json* part(const json& schema, const json& tree, const Path& path, std::size_t step = 0) const
    {
        if (schema.contains("$ref")) {
            const auto pointer = schema["$ref"].get<std::string>().substr(1);
            return part(root_.at(json::json_pointer(pointer)), tree, path, step);
        }
        if (step == path.size()) {
            return &schema;
        }
        if (const auto* below = child(schema, tree, path[step])) {
            const auto& value = tree.is_array() ? tree.at(std::stoul(path[step])) : tree.at(path[step]);
            if (const auto* found = part(*below, value, path, step + 1)) {
                return found;
            }
        }
        return in_branches(schema, tree, path, step);
    }

    /// The keys that are allowed at a place: those of the schema, or of the branch that applies to `tree`.
    [[nodiscard]] std::vector<std::string> keys(const json& schema, const json& tree) const
    {
        for (const auto& branch : schema.value("allOf", json::array())) {
            if (branch.contains("then") && applies(branch["if"], tree)) {
                const auto pointer = branch["then"].at("$ref").get<std::string>().substr(1);
                return keys(root_.at(json::json_pointer(pointer)), tree);
            }
        }
        std::vector<std::string> known;
        const auto properties = schema.value("properties", json::object());
        for (const auto& [key, value] : properties.items()) {
            known.push_back(key);
        }
        return known;
    }

private:
    static const json* child(const json& schema, const json& tree, const std::string& key)
    {
        if (tree.is_array()) {
            return schema.contains("items") ? &schema["items"] : nullptr;
        }
        if (schema.contains("properties") && schema["properties"].contains(key)) {
            return &schema["properties"][key];
        }
        const bool open = schema.contains("additionalProperties") && schema["additionalProperties"].is_object();
        return open ? &schema["additionalProperties"] : nullptr;
    }

    const json* in_branches(const json& schema, const json& tree, const Path& path, std::size_t step) const
    {
        for (const auto* list : {"anyOf", "allOf"}) {
            const auto branches = schema.find(list);
            for (std::size_t i = 0; branches != schema.end() && i < branches->size(); ++i) {
                const auto& branch = (*branches)[i];
                const bool conditional = branch.contains("then");
                if (conditional && !applies(branch["if"], tree)) {
                    continue;
                }
                if (const auto* found = part(conditional ? branch["then"] : branch, tree, path, step)) {
                    return found;
                }
            }
        }
        return nullptr;
    }

    static bool applies(const json& condition, const json& tree)
    {
        for (const auto& [key, value] : condition.at("properties").items()) {
            if (!tree.contains(key) || tree[key] != value.at("const")) {
                return false;
            }
        }
        return true;
    }

    const json& root_;
};

std::string number(const json& value)
{
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value.get<double>());
    return {text, end.ptr};
}

std::string listed(const json& words)
{
    std::string text;
    for (const auto& word : words) {
        text += (text.empty() ? "" : ", ") + (word.is_string() ? word.get<std::string>() : word.dump());
    }
    return text;
}

std::string expected_number(const json& schema)
{
    const std::string what = schema.contains("multipleOf") ? "a whole number" : "a number";
    if (schema.contains("exclusiveMinimum")) {
        return what + " above " + number(schema["exclusiveMinimum"]) +
               (schema.contains("maximum") ? ", at most " + number(schema["maximum"]) : "");
    }
    if (schema.contains("minimum") && schema.contains("maximum")) {
        return what + " from " + number(schema["minimum"]) + " to " + number(schema["maximum"]);
    }
    if (schema.contains("minimum")) {
        return what + " of at least " + number(schema["minimum"]);
    }
    return schema.contains("maximum") ? what + " of at most " + number(schema["maximum"]) : what;
}

std::string expected_size(const json& schema, const std::string& what, const char* least, const char* most,
                          const std::string& of)
{
    if (schema.contains(least) && schema.contains(most)) {
        const auto low = schema[least].dump();
        const auto high = schema[most].dump();
        return what + " of " + (low == high ? low : low + " to " + high) + " " + of;
    }
    if (schema.contains(most)) {
        return what + " of at most " + schema[most].dump() + " " + of;
    }
    return schema.contains(least) ? what + " that is not empty" : what;
}

std::string expected_type(const json& schema, const std::string& type)
{
    if (type == "number") {
        return expected_number(schema);
    }
    if (type == "string") {
        return expected_size(schema, "a text", "minLength", "maxLength", "characters");
    }
    if (type == "array") {
        return expected_size(schema, "an array", "minItems", "maxItems", "elements");
    }
    if (type == "integer") {
        auto whole = schema;
        whole["multipleOf"] = 1;
        return expected_number(whole);
    }
    return type == "boolean" ? "true or false" : type == "object" ? "an object" : type;
}

std::string expected_by(const json& schema)
{
    std::string text;
    if (schema.contains("enum")) {
        text = "one of " + listed(schema["enum"]);
    } else if (schema.contains("const")) {
        text = schema["const"].dump();
    } else if (schema.contains("type")) {
        const auto& types = schema["type"];
        for (const auto& type : types.is_array() ? types : json::array({types})) {
            text += (text.empty() ? "" : " or ") + expected_type(schema, type.get<std::string>());
        }
    }
    if (schema.contains("expected")) {
        text += (text.empty() ? "" : ": ") + schema["expected"].get<std::string>();
    }
    return text.empty() ? "what docs/formats.md names" : text;
}

/// The key that a sentence of the validator ends with: "... constraints: 'KEY'."
std::string key_named(const std::string& sentence, std::string_view before)
{
    const auto begin = sentence.find(before) + before.size();
    return sentence.substr(begin, sentence.rfind('\'') - begin);
}

/// A day that does not exist, a pressure with a unit beside it.
std::string meant_by_text(const json& value, const json& schema)
{
    if (!value.is_string()) {
        return {};
    }
    const auto& text = value.get_ref<const std::string&>();
    const bool day = schema.value("expected", "").find("YYYY-MM-DD") != std::string::npos;
    return day ? trace::no_day_because(text) : trace::conversion_of(text);
}

[[noreturn]] void refuse(const Schema& schema, const json& tree, const valijson::ValidationResults::Error& error)
{
    const auto path = path_of(error.context);
    const auto place = place_at(tree, path);
    const Governing governing(schema.tree);
    const auto* found = governing.part(schema.tree, tree, path);
    const auto& part = found != nullptr ? *found : schema.tree;
    const auto& said = error.description;
    if (said.starts_with("Missing required property")) {
        throw InputError(place.pointer_to(key_named(said, "property '")), "missing", "this key");
    }
    if (said.starts_with("Object contains a property")) {
        const auto key = key_named(said, "constraints: '");
        const auto keys = governing.keys(part, place.tree());
        throw InputError(place.pointer_to(key),
                         "unknown key" +
                             trace::meant_by_key(key, std::vector<std::string_view>(keys.begin(), keys.end())),
                         "one of " + listed(keys));
    }
    place.refuse(place.described() + meant_by_text(place.tree(), part), expected_by(part));
}

} // namespace

void check_schema(const json& tree, std::string_view name)
{
    const auto& schema = schema_named(name);
    const auto known = schema.tree["properties"]["schema"]["const"].get<std::string>();
    const auto slash = known.rfind('/');
    const JsonReader root(tree);
    if (tree.is_object()) {
        root.schema(known.substr(0, slash), std::stoi(known.substr(slash + 1)));
    }
    valijson::ValidationResults results;
    static thread_local valijson::Validator validator; // it keeps the expressions that it has compiled
    if (validator.validate(schema.compiled, Tree(tree), &results)) {
        return;
    }
    const auto* deepest = &*results.begin();
    for (const auto& error : results) {
        deepest = error.context.size() > deepest->context.size() ? &error : deepest;
    }
    refuse(schema, tree, *deepest);
}

} // namespace zeroline::records
