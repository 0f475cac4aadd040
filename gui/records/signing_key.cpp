#include "gui/records/signing_key.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/open_file.hpp"
#include "gui/records/public_key.hpp"
#include "gui/records/record_folder.hpp"

#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/pkcs12.h>
#include <openssl/x509.h>

#include <cstdint>
#include <cstdlib>
#include <fcntl.h>
#include <stdexcept>
#include <sys/stat.h>
#include <unistd.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

constexpr std::size_t kKeyBytes = 32;
constexpr std::size_t kSignatureBytes = 64;

using Memory = std::unique_ptr<BIO, decltype(&::BIO_free)>;
using Context = std::unique_ptr<EVP_MD_CTX, decltype(&::EVP_MD_CTX_free)>;

const unsigned char* octets_of(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }
unsigned char* octets(std::string& text) { return reinterpret_cast<unsigned char*>(text.data()); }

void need(bool success, const char* what)
{
    if (!success) {
        throw std::runtime_error(std::string("OpenSSL: ") + what);
    }
}

std::string written(const Memory& memory)
{
    char* data = nullptr;
    const auto size = ::BIO_get_mem_data(memory.get(), &data);
    return {data, static_cast<std::size_t>(size)};
}

std::shared_ptr<EVP_PKEY> public_half(std::string_view public_key)
{
    return {::EVP_PKEY_new_raw_public_key(EVP_PKEY_ED25519, nullptr, octets_of(public_key), public_key.size()),
            &::EVP_PKEY_free};
}

/// A key that others may read or write is no key: whoever has it seals records in this bench's name.
void refuse_shared(const Descriptor& opened, const fs::path& file)
{
    struct stat state {};
    if (::fstat(opened.number(), &state) != 0 || state.st_uid != ::geteuid()) {
        throw InputError(file.string(), "the key belongs to another user", "a file of whoever runs this program");
    }
    if ((state.st_mode & 077) != 0) {
        throw InputError(file.string(), "the key may be read by others", "a file for its owner only: chmod 600");
    }
}

std::string private_text(const fs::path& file)
{
    constexpr std::size_t largest = 1u << 16;
    const auto opened = open_regular(AT_FDCWD, file.string(), Links::followed, file);
    refuse_shared(opened, file);
    return read_all(opened, file, largest);
}

bool is_locked(const std::string& text) { return text.find("BEGIN ENCRYPTED PRIVATE KEY") != std::string::npos; }

std::string passphrase_for(const fs::path& file, const AskPassphrase& ask)
{
    auto typed = ask ? ask(file) : std::nullopt;
    if (!typed || typed->empty()) {
        throw InputError(file.string(), "the key has a passphrase, and none was typed",
                         "somebody at a terminal, or in the window, who types it");
    }
    return *typed;
}

using Algorithm = std::unique_ptr<X509_ALGOR, decltype(&::X509_ALGOR_free)>;
using KeyInfo = std::unique_ptr<PKCS8_PRIV_KEY_INFO, decltype(&::PKCS8_PRIV_KEY_INFO_free)>;
using Locked = std::unique_ptr<X509_SIG, decltype(&::X509_SIG_free)>;

/// PKCS #8 under PBES2 (RFC 8018) with scrypt (RFC 7914) and AES-256. The work is stated here and never left to the
/// library: N 2^14, r 8, p 5, which takes 16 MB and is among the choices of OWASP's table for passwords (from memory).
void write_locked(const Memory& memory, EVP_PKEY* key, const std::string& passphrase)
{
    constexpr std::uint64_t kN = 1u << 14;
    constexpr std::uint64_t kR = 8;
    constexpr std::uint64_t kP = 5;
    constexpr int kSaltBytes = 16;
    Algorithm how(::PKCS5_pbe2_set_scrypt(::EVP_aes_256_cbc(), nullptr, kSaltBytes, nullptr, kN, kR, kP),
                  &::X509_ALGOR_free);
    const KeyInfo info(::EVP_PKEY2PKCS8(key), &::PKCS8_PRIV_KEY_INFO_free);
    need(how && info, "the key could not be locked");
    const Locked locked(::PKCS8_set0_pbe(passphrase.data(), static_cast<int>(passphrase.size()), info.get(), how.get()),
                        &::X509_SIG_free);
    need(locked != nullptr, "the key could not be locked");
    static_cast<void>(how.release()); // it is part of the other now
    need(::PEM_write_bio_PKCS8(memory.get(), locked.get()) == 1, "the key could not be written");
}

fs::path home()
{
    const char* home = std::getenv("HOME");
    if (home == nullptr || *home == '\0') {
        throw InputError("HOME", "is not set", "a home folder, or key_file in the bench file");
    }
    return home;
}

fs::path usual_key_file()
{
    const char* data = std::getenv("XDG_DATA_HOME");
    const auto base = data != nullptr && *data != '\0' ? fs::path(data) : home() / ".local" / "share";
    return base / "zeroline" / "bench.key";
}

} // namespace

SigningKey::SigningKey(evp_pkey_st* key) : key_(key, &::EVP_PKEY_free) {}

SigningKey SigningKey::load(const fs::path& file, const AskPassphrase& ask)
{
    const auto text = private_text(file);
    const bool locked = records::is_locked(text);
    // An empty passphrase instead of the library's own question on the terminal.
    auto passphrase = locked ? passphrase_for(file, ask) : std::string();
    const Memory memory(::BIO_new_mem_buf(text.data(), static_cast<int>(text.size())), &::BIO_free);
    auto* key = ::PEM_read_bio_PrivateKey(memory.get(), nullptr, nullptr, passphrase.data());
    ::OPENSSL_cleanse(passphrase.data(), passphrase.size());
    if (key == nullptr && locked) {
        throw InputError(file.string(), "the passphrase does not open it", "the passphrase of this key");
    }
    if (key == nullptr || ::EVP_PKEY_get_id(key) != EVP_PKEY_ED25519) {
        ::EVP_PKEY_free(key);
        throw InputError(file.string(), "holds no key that can be used", "an Ed25519 private key (PEM)");
    }
    return SigningKey(key);
}

bool SigningKey::is_locked(const fs::path& file) { return records::is_locked(private_text(file)); }

SigningKey SigningKey::make()
{
    auto* key = ::EVP_PKEY_Q_keygen(nullptr, nullptr, "ED25519");
    need(key != nullptr, "no key could be made");
    return SigningKey(key);
}

SigningKey SigningKey::from_secret(std::string_view secret)
{
    auto* key = ::EVP_PKEY_new_raw_private_key(EVP_PKEY_ED25519, nullptr, octets_of(secret), secret.size());
    need(key != nullptr, "no Ed25519 secret key");
    return SigningKey(key);
}

void SigningKey::save(const fs::path& file, const std::string& passphrase) const
{
    const Memory memory(::BIO_new(::BIO_s_mem()), &::BIO_free);
    if (passphrase.empty()) {
        need(::PEM_write_bio_PrivateKey(memory.get(), key_.get(), nullptr, nullptr, 0, nullptr, nullptr) == 1,
             "the key could not be written");
    } else {
        write_locked(memory, key_.get(), passphrase);
    }
    write_private_file(file, written(memory));
}

std::string SigningKey::public_key() const
{
    std::string bytes(kKeyBytes, '\0');
    std::size_t size = bytes.size();
    need(::EVP_PKEY_get_raw_public_key(key_.get(), octets(bytes), &size) == 1 && size == kKeyBytes, "no public key");
    return bytes;
}

std::string SigningKey::sign(std::string_view message) const
{
    const Context context(::EVP_MD_CTX_new(), &::EVP_MD_CTX_free);
    std::string bytes(kSignatureBytes, '\0');
    std::size_t size = bytes.size();
    need(::EVP_DigestSignInit(context.get(), nullptr, nullptr, nullptr, key_.get()) == 1 &&
             ::EVP_DigestSign(context.get(), octets(bytes), &size, octets_of(message), message.size()) == 1,
         "the signature could not be made");
    return bytes;
}

std::string fingerprint(std::string_view public_key) { return sha256(public_key); }

bool verifies(std::string_view public_key, std::string_view message, std::string_view signature)
{
    const auto key = trouble_with_key(public_key).empty() ? public_half(public_key) : nullptr;
    const Context context(::EVP_MD_CTX_new(), &::EVP_MD_CTX_free);
    return key && ::EVP_DigestVerifyInit(context.get(), nullptr, nullptr, nullptr, key.get()) == 1 &&
           ::EVP_DigestVerify(context.get(), octets_of(signature), signature.size(), octets_of(message),
                              message.size()) == 1;
}

std::string public_key_pem(std::string_view public_key)
{
    const auto key = public_half(public_key);
    const Memory memory(::BIO_new(::BIO_s_mem()), &::BIO_free);
    need(key && ::PEM_write_bio_PUBKEY(memory.get(), key.get()) == 1, "no Ed25519 public key");
    return written(memory);
}

fs::path key_file(const std::optional<fs::path>& bench_file)
{
    const auto written = bench_file ? load_bench(*bench_file).meaning.key_file : std::string();
    if (written.empty()) {
        return usual_key_file();
    }
    if (written.starts_with("~/")) {
        return home() / written.substr(2);
    }
    // An absolute path replaces what stands in front of it.
    return bench_file->parent_path() / written;
}

} // namespace zeroline::records
