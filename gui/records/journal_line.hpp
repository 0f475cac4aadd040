#pragma once

#include "gui/records/signing_key.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <string_view>

namespace zeroline::records {

/// One line of a capture journal, schema zeroline/journal/1: a JSON object whose last two keys are `before`, the
/// SHA-256 of the line before it with its line end (empty in the first line), and `signature`, an Ed25519 signature in
/// base64. What is signed is the text "zeroline capture journal", a line end, and the line up to the comma in front of
/// "signature".
struct JournalLine {
    nlohmann::json body; ///< with `before`, without `signature`
    std::string signed_text;
    std::string signature; ///< 64 bytes
};

/// The line for `body`, with its line end.
[[nodiscard]] std::string journal_line(const nlohmann::ordered_json& body, const std::string& before,
                                       const SigningKey& key);

/// Reads what journal_line() wrote, without its line end; the signature is not checked here. Throws trace::InputError.
[[nodiscard]] JournalLine parse_journal_line(std::string_view line);

} // namespace zeroline::records
