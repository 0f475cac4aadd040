#pragma once

#include "acquisition/trace/input_error.hpp"

#include <nlohmann/json.hpp>

#include <initializer_list>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace zeroline::trace {

/// A place in a JSON tree that knows its pointer: reads values and refuses what does not fit, with InputError.
///
/// The tree must outlive the reader. Readers are cheap to copy.
class JsonReader {
public:
    explicit JsonReader(const nlohmann::json& tree) : JsonReader(tree, "") {}

    [[nodiscard]] const std::string& pointer() const noexcept { return pointer_; }
    /// Of a key of this place, whether it is there or not (RFC 6901).
    [[nodiscard]] std::string pointer_to(std::string_view key) const;
    [[nodiscard]] const nlohmann::json& tree() const noexcept { return *tree_; }

    /// This place is an object with no other keys than these (a key that starts with "$" is allowed at the root only).
    const JsonReader& object_with_only(std::initializer_list<std::string_view> keys) const;

    [[nodiscard]] bool has(std::string_view key) const;
    /// The member `key`; refused if missing.
    [[nodiscard]] JsonReader at(std::string_view key) const;
    [[nodiscard]] std::optional<JsonReader> find(std::string_view key) const;
    /// The elements of an array.
    [[nodiscard]] std::vector<JsonReader> elements() const;
    /// The members of an object, keys beside their places.
    [[nodiscard]] std::vector<std::pair<std::string, JsonReader>> members() const;

    [[nodiscard]] double number(double low = -std::numeric_limits<double>::max(),
                                double high = std::numeric_limits<double>::max()) const;
    [[nodiscard]] long long integer(long long low, long long high) const;
    [[nodiscard]] bool boolean() const;
    [[nodiscard]] std::string text() const;        ///< may be empty
    [[nodiscard]] std::string filled_text() const; ///< not empty
    [[nodiscard]] std::string date() const;        ///< YYYY-MM-DD, a day that exists
    /// One of `words`; returns its position.
    [[nodiscard]] std::size_t one_of(std::initializer_list<std::string_view> words) const;

    /// Checks "schema": the family and the version this build reads; a newer version is refused naming both.
    void schema(std::string_view family, int version) const;

    /// Refuses this place.
    [[noreturn]] void refuse(std::string found, std::string expected) const;
    /// What stands here, shortened, as a refusal names it.
    [[nodiscard]] std::string described() const;

private:
    JsonReader(const nlohmann::json& tree, std::string pointer) : tree_(&tree), pointer_(std::move(pointer)) {}

    const nlohmann::json* tree_;
    std::string pointer_;
};

} // namespace zeroline::trace
