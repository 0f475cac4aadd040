#pragma once

#include "gui/records/signing_key.hpp"

#include <filesystem>
#include <iosfwd>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::records {

/// Public keys that are known: the file that a bench hands out and `recheck --trust` reads. A line each:
/// `key PUBLIC NAME` (trusted because it stands there); `change OLD NEW TIME SIGNATURE`, made by a change of key: NEW
/// is known under OLD's name where OLD is known and signed the change, and OLD is retired from then on; and `revoked
/// PUBLIC TIME REASON`: a lost or stolen key, not to be trusted from TIME on. Keys and signature in base64; lines that
/// begin with # are remarks.
class KeyList {
public:
    /// Throws trace::InputError with the line.
    [[nodiscard]] static KeyList parse(std::string_view text);
    [[nodiscard]] static KeyList load(const std::filesystem::path& file);

    /// The name of a known public key (32 bytes); empty where it is not known.
    [[nodiscard]] std::string name_of(const std::string& public_key) const;
    /// Why a seal of a known key made at `time` (RFC 3339) is not to be trusted: it was retired or revoked before, or
    /// it says no time. Empty: nothing against it.
    [[nodiscard]] std::string against(const std::string& public_key, const std::string& time) const;
    /// Whether a key is known and neither retired nor revoked.
    [[nodiscard]] bool may_seal(const std::string& public_key) const;
    /// The last key named that may seal; empty for none.
    [[nodiscard]] std::string current() const;
    /// Whether a key with such a fingerprint, or one that begins so, is known.
    [[nodiscard]] bool knows_fingerprint(std::string_view beginning) const;

private:
    struct Known {
        std::string name;
        std::string retired; ///< time of the change of key; empty: not
    };
    struct Revoked {
        std::string time, reason;
    };
    void add_line(const std::string& line);
    void add_change(std::istream& words);
    void add_revoked(std::istream& words);

    std::map<std::string, Known> known_;
    std::map<std::string, Revoked> revoked_;
    std::vector<std::string> order_; ///< as they were named
};

/// Reads the list of a bench's own keys, where it is trusted unasked: it must be of whoever runs this program, and
/// nobody else may write to it. None where there is no such file. Throws trace::InputError.
[[nodiscard]] std::optional<KeyList> load_own_list(const std::filesystem::path& key_file);
/// The same; a bench that never had a key knows none.
[[nodiscard]] KeyList own_keys(const std::filesystem::path& key_file);

/// "key PUBLIC NAME\n"
[[nodiscard]] std::string key_line(const SigningKey& key, const std::string& name);
/// "change OLD NEW TIME SIGNATURE\n": the old key signs the new one.
[[nodiscard]] std::string change_line(const SigningKey& old_key, const SigningKey& new_key, const std::string& time);
/// "revoked PUBLIC TIME REASON\n"
[[nodiscard]] std::string revoked_line(const std::string& public_key, const std::string& time,
                                       const std::string& reason);
/// The list beside a key: "bench.key" -> "bench.key.public".
[[nodiscard]] std::filesystem::path list_beside(const std::filesystem::path& key_file);

} // namespace zeroline::records
