#pragma once

#include "gui/records/open_file.hpp"

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct evp_md_ctx_st; // OpenSSL's EVP_MD_CTX

namespace zeroline::records {

/// SHA-256 (FIPS 180-4) of what is added piece by piece.
class Sha256 {
public:
    Sha256();
    void add(std::string_view bytes);
    /// Of everything so far, as 64 lower-case hexadecimal digits; more may be added afterwards.
    [[nodiscard]] std::string hexadecimal() const;

private:
    std::shared_ptr<evp_md_ctx_st> context_;
};

/// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
[[nodiscard]] std::string sha256(std::string_view bytes);
/// Of an open file of any size, read piece by piece. Throws trace::InputError with `shown` in front.
[[nodiscard]] std::string sha256_of(const Descriptor& file, const std::filesystem::path& shown);

/// Name and version of the library that hashes and signs, such as "OpenSSL 3.0.11 19 Sep 2023".
[[nodiscard]] std::string cryptography();

/// Base64 (RFC 4648, 4), with padding and without line ends.
[[nodiscard]] std::string base64(std::string_view bytes);
/// None where `text` is not exactly what base64() writes for some bytes.
[[nodiscard]] std::optional<std::string> from_base64(std::string_view text);

} // namespace zeroline::records
