#include "gui/records/json_file.hpp"

#include "gui/records/json_pitfalls.hpp"
#include "gui/records/open_file.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fcntl.h>
#include <iterator>
#include <set>
#include <sstream>
#include <utility>
#include <vector>

namespace zeroline::records {

namespace {

using trace::InputError;

/// Hands characters to the parser and keeps count, so that a key met in a callback can be found again in the text.
class CountingIterator {
public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, std::size_t* taken) : at_(at), taken_(taken) {}
    reference operator*() const { return *at_; }
    CountingIterator& operator++()
    {
        ++at_;
        ++*taken_;
        return *this;
    }
    CountingIterator operator++(int)
    {
        auto before = *this;
        ++*this;
        return before;
    }
    bool operator==(const CountingIterator& other) const { return at_ == other.at_; }
    bool operator!=(const CountingIterator& other) const { return at_ != other.at_; }

private:
    const char* at_;
    std::size_t* taken_;
};

/// Refuses what the parser alone lets pass: a key that stands twice, and nesting without end.
template <class Json> class Watch {
public:
    Watch(std::string_view text, const std::size_t& taken) : text_(text), taken_(taken) {}

    bool operator()(int depth, typename Json::parse_event_t event, Json& parsed)
    {
        using Event = typename Json::parse_event_t;
        constexpr int deepest = 100;
        if (depth > deepest) {
            throw InputError(place_in(text_, taken_), "more than 100 levels of brackets", "fewer");
        }
        if (event == Event::object_start) {
            keys_.emplace_back();
        } else if (event == Event::object_end) {
            keys_.pop_back();
        } else if (event == Event::key && !keys_.back().insert(parsed.template get<std::string>()).second) {
            throw InputError(place_in(text_, taken_),
                             "the key \"" + parsed.template get<std::string>() + "\" stands twice", "each key once");
        }
        return true;
    }

private:
    std::string_view text_;
    const std::size_t& taken_;
    std::vector<std::set<std::string>> keys_;
};

/// The parser's own sentence without its prefix: "unexpected '}'; expected string literal".
std::pair<std::string, std::string> told(const std::string& message)
{
    const auto dash = message.find(" - ");
    std::string found = dash == std::string::npos ? message : message.substr(dash + 3);
    const auto expected_at = found.find("; expected ");
    std::string expected;
    if (expected_at != std::string::npos) {
        expected = found.substr(expected_at + 11);
        found.resize(expected_at);
    }
    const auto last_read = found.find("; last read: ");
    if (last_read != std::string::npos && found.size() > last_read + 60) {
        found = found.substr(0, last_read + 60) + "...";
    }
    return {found, expected};
}

template <class Json> Json parsed(std::string_view text)
{
    if (text.size() > kLargestJsonFile) {
        throw InputError("line 1", std::to_string(text.size()) + " bytes of JSON",
                         "at most " + std::to_string(kLargestJsonFile));
    }
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
        throw InputError("line 1", "there is nothing in it", "JSON, beginning with {");
    }
    std::size_t taken = 0;
    try {
        return Json::parse(CountingIterator(text.data(), &taken), CountingIterator(text.data() + text.size(), &taken),
                           Watch<Json>(text, taken));
    } catch (const nlohmann::json::parse_error& error) {
        auto [found, expected] = told(error.what());
        if (const auto pitfall = known_pitfall(text, error.byte, expected)) {
            throw *pitfall;
        }
        throw InputError(place_in(text, error.byte), found, expected.empty() ? "JSON" : expected);
    } catch (const nlohmann::json::exception& error) {
        throw InputError(place_in(text, taken), told(error.what()).first, "JSON");
    }
}

} // namespace

nlohmann::json parse_json(std::string_view text) { return parsed<nlohmann::json>(text); }

nlohmann::ordered_json parse_ordered_json(std::string_view text) { return parsed<nlohmann::ordered_json>(text); }

std::string read_file(const std::filesystem::path& file, std::size_t largest)
{
    return read_all(open_regular(AT_FDCWD, file.string(), Links::followed, file), file, largest);
}

nlohmann::json load_json(const std::filesystem::path& file)
{
    const auto text = read_file(file);
    return reading(file, [&] { return parse_json(text); });
}

} // namespace zeroline::records
