#pragma once

#include "gui/records/key_list.hpp"

#include <filesystem>
#include <string>

namespace zeroline::records {

// The key of a bench over the years: beside the key file stands the list of its public keys, and every change is
// written there. A change is made in this order: the new key as KEY.next-FINGERPRINT, the list, the old key as
// KEY.before-FINGERPRINT, one rename. Cut off before the list names the new key, it is undone when the key is needed
// next; after that it is finished.

/// The list of a bench's own public keys, beside its key. Made where it is not there; a key that has no name yet gets
/// `name`. Throws trace::InputError.
[[nodiscard]] std::filesystem::path public_list(const std::filesystem::path& key_file, const std::string& name);

/// Makes a new key in place of the one in `key_file`, which is `old_key` and signs the new one in the public list. The
/// new one has the passphrase `passphrase`, or none. Returns where the old key went. Throws trace::InputError.
std::filesystem::path change_key(const std::filesystem::path& key_file, const SigningKey& old_key,
                                 const std::string& time, const std::string& passphrase = {});

/// Makes a new key after the one before was lost, stolen or forgotten: the list revokes that one from `since` on and
/// names the new one. Needs the public list, not the old key. Throws trace::InputError.
void revoke_key(const std::filesystem::path& key_file, const std::string& name, const std::string& since,
                const std::string& reason, const std::string& passphrase = {});

/// Writes `key`, which stands in `key_file`, anew under another passphrase, or under none. Throws trace::InputError.
void set_passphrase(const std::filesystem::path& key_file, const SigningKey& key, const std::string& passphrase);

} // namespace zeroline::records
