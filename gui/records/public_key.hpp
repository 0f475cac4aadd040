#pragma once

#include <string>
#include <string_view>

namespace zeroline::records {

/// Why 32 bytes are no Ed25519 public key to trust a signature of; empty: nothing against them. Refused are those that
/// RFC 8032, 5.1.3 does not write so (a number of the field has one way to be written), and the points of small order:
/// under such a key a signature can be made without any secret.
[[nodiscard]] std::string trouble_with_key(std::string_view public_key);

} // namespace zeroline::records
