#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct evp_pkey_st; // OpenSSL's EVP_PKEY

namespace zeroline::records {

/// Gives the passphrase of a key file that has one, when it is needed. None: nobody is there to ask, or nothing was
/// typed.
using AskPassphrase = std::function<std::optional<std::string>(const std::filesystem::path& key_file)>;

/// The private key of a bench, Ed25519 (RFC 8032): a PEM file that only its owner may read, with or without a
/// passphrase.
class SigningKey {
public:
    /// Throws trace::InputError: no such file, another's file, others may read it, no Ed25519 key in it, a passphrase
    /// that does not open it.
    [[nodiscard]] static SigningKey load(const std::filesystem::path& file, const AskPassphrase& ask = {});
    /// The key of a bench (bench_key.hpp): load(), after a change of key that was cut off is finished, and after a
    /// first key is made where there never was one (folders too). Two programs that start at once get the same key.
    /// Throws trace::InputError where the key is missing and its public list is there: a lost key is never replaced
    /// unasked.
    [[nodiscard]] static SigningKey load_or_make(const std::filesystem::path& file, const AskPassphrase& ask = {});
    /// Whether the file needs a passphrase.
    [[nodiscard]] static bool is_locked(const std::filesystem::path& file);
    [[nodiscard]] static SigningKey make();
    /// From the 32 bytes RFC 8032 calls the secret key; for its test vectors.
    [[nodiscard]] static SigningKey from_secret(std::string_view secret);

    /// Writes it, for its owner only (mode 0600), under a passphrase that is not empty: PKCS #8, PBES2 with scrypt.
    /// Throws trace::InputError; a file that is there is never replaced.
    void save(const std::filesystem::path& file, const std::string& passphrase = {}) const;

    [[nodiscard]] std::string public_key() const;                   ///< 32 bytes
    [[nodiscard]] std::string sign(std::string_view message) const; ///< 64 bytes

private:
    explicit SigningKey(evp_pkey_st* key);
    std::shared_ptr<evp_pkey_st> key_;
};

/// Gives the bench's key when it is needed: a run or a file that needs none asks nobody for it.
using Unlock = std::function<SigningKey()>;

/// SHA-256 of the 32 bytes of a public key, in hexadecimal: what people compare.
[[nodiscard]] std::string fingerprint(std::string_view public_key);
/// Whether `signature` over `message` was made with the private half of `public_key`.
[[nodiscard]] bool verifies(std::string_view public_key, std::string_view message, std::string_view signature);
/// The public key as other tools read it (PEM, SubjectPublicKeyInfo).
[[nodiscard]] std::string public_key_pem(std::string_view public_key);

/// Where the bench's key is kept: `key_file` of its bench file (beside that file unless the path is absolute; "~/" is
/// the home folder), else $XDG_DATA_HOME or ~/.local/share, zeroline/bench.key. Throws trace::InputError.
[[nodiscard]] std::filesystem::path key_file(const std::optional<std::filesystem::path>& bench_file);

} // namespace zeroline::records
