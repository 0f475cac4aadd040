#include "gui/records/digest.hpp"

#include <openssl/crypto.h>
#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

namespace zeroline::records {

namespace {

const unsigned char* octets(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }

void need(int success)
{
    if (success != 1) {
        throw std::runtime_error("SHA-256 is not to be had from this machine's OpenSSL");
    }
}

} // namespace

Sha256::Sha256() : context_(::EVP_MD_CTX_new(), &::EVP_MD_CTX_free)
{
    need(::EVP_DigestInit_ex(context_.get(), ::EVP_sha256(), nullptr));
}

void Sha256::add(std::string_view bytes) { need(::EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size())); }

std::string Sha256::hexadecimal() const
{
    // What has been added so far stays open: a copy of it is closed.
    const std::unique_ptr<EVP_MD_CTX, decltype(&::EVP_MD_CTX_free)> copy(::EVP_MD_CTX_new(), &::EVP_MD_CTX_free);
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    need(::EVP_MD_CTX_copy_ex(copy.get(), context_.get()));
    need(::EVP_DigestFinal_ex(copy.get(), digest.data(), &length));
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (unsigned int i = 0; i < length; ++i) {
        text += digits[digest[i] >> 4];
        text += digits[digest[i] & 15];
    }
    return text;
}

std::string sha256(std::string_view bytes)
{
    Sha256 hash;
    hash.add(bytes);
    return hash.hexadecimal();
}

std::string sha256_of(const Descriptor& file, const std::filesystem::path& shown)
{
    Sha256 hash;
    read_pieces(file, shown, [&](std::string_view piece) { hash.add(piece); });
    return hash.hexadecimal();
}

std::string cryptography() { return ::OpenSSL_version(OPENSSL_VERSION); }

std::string base64(std::string_view bytes)
{
    std::string text(4 * ((bytes.size() + 2) / 3), '\0');
    // The terminating zero that OpenSSL writes falls on the string's own.
    ::EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()), octets(bytes), static_cast<int>(bytes.size()));
    return text;
}

std::optional<std::string> from_base64(std::string_view text)
{
    constexpr std::size_t longest = 1u << 20;
    if (text.size() % 4 != 0 || text.size() > longest) {
        return std::nullopt;
    }
    std::string bytes(text.size() / 4 * 3, '\0');
    if (::EVP_DecodeBlock(reinterpret_cast<unsigned char*>(bytes.data()), octets(text), static_cast<int>(text.size())) <
        0) {
        return std::nullopt;
    }
    const auto padding = static_cast<std::size_t>(std::count(text.begin(), text.end(), '='));
    bytes.resize(bytes.size() - std::min(padding, bytes.size()));
    // Blanks, wrong padding and bits that belong to no byte are taken by the decoder and refused here.
    return base64(bytes) == text ? std::optional(bytes) : std::nullopt;
}

} // namespace zeroline::records
