#pragma once

#include "gui/records/open_folder.hpp"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::records {

/// What a journal says of one of the files that a record is judged by.
struct JournaledFile {
    std::vector<std::string> sha256; ///< as it was, the newest last
    std::optional<std::string> text; ///< as it is since it was amended
};

/// A length of the trace, and the SHA-256 of so many bytes of it.
struct TraceMark {
    std::uint64_t bytes = 0;
    std::string sha256;
};

/// A capture journal that was read: every line follows the one before it, and the last line of every key is signed by
/// that key, which covers all lines before it.
struct Journal {
    std::string public_key;              ///< of the capture
    std::vector<std::string> other_keys; ///< of those who amended a file later
    std::string origin, time;
    std::map<std::string, JournaledFile> files;
    std::vector<nlohmann::json> runs; ///< the run log after each entry that changed it, the newest last
    std::vector<TraceMark> marks;
    bool ended = false; ///< the capture was closed; not cut off
    std::string last_line_sha256;
    std::uint64_t whole_bytes = 0; ///< of the lines that end
    std::uint64_t torn_bytes = 0;  ///< of a last line that was cut off
};

/// Reads journal.jsonl in `folder`. Throws trace::InputError naming file and line: a line that is none, does not follow
/// the one before, is not signed.
[[nodiscard]] Journal read_journal(const OpenFolder& folder);

/// Writes journal.jsonl in `folder` anew: the whole lines of `journal`, which was read from there, and `line` behind
/// them; a last line that was cut off goes. Throws trace::InputError.
void rewrite_journal(const OpenFolder& folder, const Journal& journal, std::string_view line = {});

} // namespace zeroline::records
