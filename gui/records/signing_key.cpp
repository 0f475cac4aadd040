#include "gui/records/signing_key.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include <openssl/evp.h>
#include <openssl/pem.h>

#include <cstdlib>
#include <stdexcept>
#include <sys/stat.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

constexpr std::size_t kKeyBytes = 32;
constexpr std::size_t kSignatureBytes = 64;

using Memory = std::unique_ptr<BIO, decltype(&::BIO_free)>;
using Context = std::unique_ptr<EVP_MD_CTX, decltype(&::EVP_MD_CTX_free)>;

const unsigned char* octets(std::string_view text) { return reinterpret_cast<const unsigned char*>(text.data()); }
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
    return {::EVP_PKEY_new_raw_public_key(EVP_PKEY_ED25519, nullptr, octets(public_key), public_key.size()),
            &::EVP_PKEY_free};
}

/// A key that others may read is no key: whoever has it seals records in this bench's name.
void refuse_shared(const fs::path& file)
{
    struct stat state {};
    if (::stat(file.c_str(), &state) == 0 && (state.st_mode & 077) != 0) {
        throw InputError(file.string(), "the key may be read by others", "a file for its owner only: chmod 600");
    }
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

SigningKey SigningKey::load(const fs::path& file)
{
    constexpr std::size_t largest = 1u << 16;
    const auto text = read_file(file, largest);
    refuse_shared(file);
    const Memory memory(::BIO_new_mem_buf(text.data(), static_cast<int>(text.size())), &::BIO_free);
    // An empty pass phrase instead of a question on the terminal.
    char none[] = "";
    auto* key = ::PEM_read_bio_PrivateKey(memory.get(), nullptr, nullptr, none);
    if (key == nullptr || ::EVP_PKEY_get_id(key) != EVP_PKEY_ED25519) {
        ::EVP_PKEY_free(key);
        throw InputError(file.string(), "holds no key that can be used",
                         "an Ed25519 private key (PEM) without pass phrase");
    }
    return SigningKey(key);
}

SigningKey SigningKey::load_or_make(const fs::path& file)
{
    std::error_code trouble;
    if (!fs::exists(file, trouble)) {
        fs::create_directories(file.parent_path(), trouble);
        try {
            make().save(file);
        } catch (const InputError&) {
            // Another program was faster: its key is the bench's.
            if (!fs::exists(file, trouble)) {
                throw;
            }
        }
    }
    return load(file);
}

SigningKey SigningKey::make()
{
    auto* key = ::EVP_PKEY_Q_keygen(nullptr, nullptr, "ED25519");
    need(key != nullptr, "no key could be made");
    return SigningKey(key);
}

SigningKey SigningKey::from_secret(std::string_view secret)
{
    auto* key = ::EVP_PKEY_new_raw_private_key(EVP_PKEY_ED25519, nullptr, octets(secret), secret.size());
    need(key != nullptr, "no Ed25519 secret key");
    return SigningKey(key);
}

void SigningKey::save(const fs::path& file) const
{
    const Memory memory(::BIO_new(::BIO_s_mem()), &::BIO_free);
    need(::PEM_write_bio_PrivateKey(memory.get(), key_.get(), nullptr, nullptr, 0, nullptr, nullptr) == 1,
         "the key could not be written");
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
             ::EVP_DigestSign(context.get(), octets(bytes), &size, octets(message), message.size()) == 1,
         "the signature could not be made");
    return bytes;
}

std::string fingerprint(std::string_view public_key) { return sha256(public_key); }

bool verifies(std::string_view public_key, std::string_view message, std::string_view signature)
{
    const auto key = public_half(public_key);
    const Context context(::EVP_MD_CTX_new(), &::EVP_MD_CTX_free);
    return key && ::EVP_DigestVerifyInit(context.get(), nullptr, nullptr, nullptr, key.get()) == 1 &&
           ::EVP_DigestVerify(context.get(), octets(signature), signature.size(), octets(message), message.size()) == 1;
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
