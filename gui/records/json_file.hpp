#pragma once

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <string>
#include <string_view>

namespace zeroline::records {

/// Largest JSON file that is read; ours are a few kilobytes, a record of a long run some megabytes.
inline constexpr std::size_t kLargestJsonFile = 256u << 20;

/// The one reader of JSON from outside; a house rule keeps any other out. Parses a whole JSON text (RFC 8259). Refused
/// with "line L, column C" in InputError::where(): bad syntax, text after the end, a key that stands twice in one
/// object, more than 100 levels, more than kLargestJsonFile bytes.
[[nodiscard]] nlohmann::json parse_json(std::string_view text);

/// The same, with the keys in the order in which they stand.
[[nodiscard]] nlohmann::ordered_json parse_ordered_json(std::string_view text);

/// The bytes of a file that a person named. Throws trace::InputError naming the file and why: not there, no regular
/// file (a pipe is never waited for), larger than `largest`.
[[nodiscard]] std::string read_file(const std::filesystem::path& file, std::size_t largest = kLargestJsonFile);

/// read_file() and parse_json(); errors name the file.
[[nodiscard]] nlohmann::json load_json(const std::filesystem::path& file);

/// Runs `read`, puts `file` in front of any InputError it throws.
template <typename Read> auto reading(const std::filesystem::path& file, Read read);

} // namespace zeroline::records

#include "acquisition/trace/input_error.hpp"

template <typename Read> auto zeroline::records::reading(const std::filesystem::path& file, Read read)
{
    try {
        return read();
    } catch (const trace::InputError& error) {
        throw error.within(file.string());
    }
}
