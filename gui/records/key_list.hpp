#pragma once

#include "gui/records/signing_key.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

namespace zeroline::records {

/// Public keys that are known: the file that a bench hands out and `recheck --trust` reads. A line each:
/// `key PUBLIC NAME` (trusted because it stands there) and `change OLD NEW TIME SIGNATURE`, made by a change of key:
/// NEW is known under OLD's name where OLD is known and signed the change. Keys and signature in base64; lines that
/// begin with # are remarks.
class KeyList {
public:
    /// Throws trace::InputError with the line.
    [[nodiscard]] static KeyList parse(std::string_view text);
    [[nodiscard]] static KeyList load(const std::filesystem::path& file);

    /// The name of a known public key (32 bytes); empty where it is not known.
    [[nodiscard]] std::string name_of(const std::string& public_key) const;

private:
    void add_line(const std::string& line);
    std::map<std::string, std::string> names_;
};

/// "key PUBLIC NAME\n"
[[nodiscard]] std::string key_line(const SigningKey& key, const std::string& name);
/// "change OLD NEW TIME SIGNATURE\n": the old key signs the new one.
[[nodiscard]] std::string change_line(const SigningKey& old_key, const SigningKey& new_key, const std::string& time);

/// The list of a bench's own public keys, beside its key: "bench.key" -> "bench.key.public". Made where it is not
/// there.
[[nodiscard]] std::filesystem::path public_list(const std::filesystem::path& key_file, const std::string& name);

/// Makes a new key in place of the one in `key_file`; the old one is kept beside it under its fingerprint, and signs
/// the new one in the public list. Returns where the old key went. Throws trace::InputError; whatever goes wrong, a
/// usable key stands in `key_file`.
std::filesystem::path change_key(const std::filesystem::path& key_file, const std::string& name,
                                 const std::string& time);

} // namespace zeroline::records
