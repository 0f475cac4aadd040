#pragma once

#include "gui/records/signing_key.hpp"

#include <string>
#include <string_view>

namespace zeroline::records {

/// seal.json, schema zeroline/seal/1: an Ed25519 signature over the bytes of the manifest beside it.
struct Seal {
    std::string manifest_sha256;
    std::string public_key; ///< 32 bytes
    std::string signature;  ///< 64 bytes

    [[nodiscard]] std::string text() const;
};

[[nodiscard]] Seal seal_manifest(std::string_view manifest, const SigningKey& key);

/// Reads what Seal::text() wrote, byte for byte: another blank in it is a change. Throws trace::InputError.
[[nodiscard]] Seal parse_seal(std::string_view text);

/// Why a seal does not hold for a manifest; empty where it holds.
[[nodiscard]] std::string trouble_with(const Seal& seal, std::string_view manifest);

} // namespace zeroline::records
