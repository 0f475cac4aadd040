#include "acquisition/trace/json_reader.hpp"

#include "acquisition/trace/likely_meaning.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace zeroline::trace {

namespace {

std::string listed(std::initializer_list<std::string_view> words)
{
    std::string out;
    for (const auto word : words) {
        out += (out.empty() ? "" : ", ");
        out += word;
    }
    return out;
}

std::string shortest(double value)
{
    char text[32];
    const auto end = std::to_chars(text, text + sizeof text, value);
    return {text, end.ptr};
}

std::string bounds(double low, double high)
{
    const bool has_low = low > -std::numeric_limits<double>::max();
    const bool has_high = high < std::numeric_limits<double>::max();
    if (has_low && has_high) {
        return "a number from " + shortest(low) + " to " + shortest(high);
    }
    if (has_low) {
        return "a number of at least " + shortest(low);
    }
    return has_high ? "a number of at most " + shortest(high) : "a number";
}

bool is_date(const std::string& text)
{
    return text.size() == 10 && text[4] == '-' && text[7] == '-' &&
           std::all_of(text.begin(), text.end(), [](char c) { return c == '-' || (c >= '0' && c <= '9'); }) &&
           std::count(text.begin(), text.end(), '-') == 2 && no_day_because(text).empty();
}

} // namespace

std::string JsonReader::described() const
{
    std::string text = tree_->is_structured() ? std::string(tree_->is_array() ? "an array" : "an object")
                                              : tree_->dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
    constexpr std::size_t longest = 60;
    if (text.size() > longest) {
        text = text.substr(0, longest) + "...";
    }
    return text;
}

void JsonReader::refuse(std::string found, std::string expected) const
{
    throw InputError(pointer_.empty() ? "/" : pointer_, std::move(found), std::move(expected));
}

const JsonReader& JsonReader::object_with_only(std::initializer_list<std::string_view> keys) const
{
    if (!tree_->is_object()) {
        refuse(described(), "an object");
    }
    for (const auto& [key, value] : tree_->items()) {
        const bool remark = pointer_.empty() && key.starts_with('$');
        if (!remark && std::find(keys.begin(), keys.end(), key) == keys.end()) {
            throw InputError(pointer_to(key), "unknown key" + meant_by_key(key, {keys.begin(), keys.size()}),
                             "one of " + listed(keys));
        }
    }
    return *this;
}

std::string JsonReader::pointer_to(std::string_view key) const
{
    std::string pointer = pointer_ + "/";
    for (const char c : key) {
        if (c == '~') {
            pointer += "~0";
        } else if (c == '/') {
            pointer += "~1";
        } else {
            pointer += c;
        }
    }
    return pointer;
}

bool JsonReader::has(std::string_view key) const { return tree_->is_object() && tree_->contains(key); }

std::optional<JsonReader> JsonReader::find(std::string_view key) const
{
    if (!tree_->is_object()) {
        refuse(described(), "an object");
    }
    const auto it = tree_->find(key);
    if (it == tree_->end()) {
        return std::nullopt;
    }
    return JsonReader(*it, pointer_to(key));
}

JsonReader JsonReader::at(std::string_view key) const
{
    if (auto member = find(key)) {
        return *member;
    }
    throw InputError(pointer_to(key), "missing", "this key");
}

std::vector<JsonReader> JsonReader::elements() const
{
    if (!tree_->is_array()) {
        refuse(described(), "an array");
    }
    std::vector<JsonReader> out;
    out.reserve(tree_->size());
    for (std::size_t i = 0; i < tree_->size(); ++i) {
        out.push_back(JsonReader((*tree_)[i], pointer_ + "/" + std::to_string(i)));
    }
    return out;
}

std::vector<std::pair<std::string, JsonReader>> JsonReader::members() const
{
    if (!tree_->is_object()) {
        refuse(described(), "an object");
    }
    std::vector<std::pair<std::string, JsonReader>> out;
    for (const auto& [key, value] : tree_->items()) {
        out.emplace_back(key, JsonReader(value, pointer_to(key)));
    }
    return out;
}

double JsonReader::number(double low, double high) const
{
    if (!tree_->is_number()) {
        const bool typed = tree_->is_string();
        refuse(described() + (typed ? conversion_of(tree_->get_ref<const std::string&>()) : ""), bounds(low, high));
    }
    const double value = tree_->get<double>();
    if (!std::isfinite(value) || value < low || value > high) {
        refuse(described(), bounds(low, high));
    }
    return value;
}

long long JsonReader::integer(long long low, long long high) const
{
    const auto expected = "a whole number from " + std::to_string(low) + " to " + std::to_string(high);
    if (!tree_->is_number()) {
        refuse(described(), expected);
    }
    const double value = tree_->get<double>();
    if (!(value >= static_cast<double>(low) && value <= static_cast<double>(high)) || value != std::floor(value)) {
        refuse(described(), expected);
    }
    return static_cast<long long>(value);
}

bool JsonReader::boolean() const
{
    if (!tree_->is_boolean()) {
        refuse(described(), "true or false");
    }
    return tree_->get<bool>();
}

std::string JsonReader::text() const
{
    if (!tree_->is_string()) {
        refuse(described(), "a text");
    }
    return tree_->get<std::string>();
}

std::string JsonReader::filled_text() const
{
    auto value = text();
    if (value.find_first_not_of(" \t\r\n") == std::string::npos) {
        refuse("an empty text", "a text that is not empty");
    }
    return value;
}

std::string JsonReader::date() const
{
    auto value = text();
    if (!is_date(value)) {
        refuse(described() + no_day_because(value), "a date as YYYY-MM-DD");
    }
    return value;
}

std::size_t JsonReader::one_of(std::initializer_list<std::string_view> words) const
{
    if (tree_->is_string()) {
        const auto it = std::find(words.begin(), words.end(), tree_->get_ref<const std::string&>());
        if (it != words.end()) {
            return static_cast<std::size_t>(it - words.begin());
        }
    }
    refuse(described(), "one of " + listed(words));
}

void JsonReader::schema(std::string_view family, int version) const
{
    const auto place = at("schema");
    const auto value = place.text();
    const std::string prefix = std::string(family) + "/";
    const std::string known = prefix + std::to_string(version);
    if (value == known) {
        return;
    }
    int other = 0;
    const char* begin = value.data() + (value.starts_with(prefix) ? prefix.size() : value.size());
    const auto parsed = std::from_chars(begin, value.data() + value.size(), other);
    if (parsed.ec == std::errc{} && parsed.ptr == value.data() + value.size() && other > version) {
        place.refuse("version " + std::to_string(other) + " (\"" + value + "\") is newer than this program reads",
                     "version " + std::to_string(version) + " (\"" + known + "\")");
    }
    place.refuse(place.described(), "\"" + known + "\"");
}

} // namespace zeroline::trace
