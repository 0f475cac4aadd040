#include "gui/records/seal.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/public_key.hpp"
#include "gui/records/schemas.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

using trace::InputError;

namespace {

std::string bytes_at(const nlohmann::json& tree, const char* key, std::size_t size)
{
    auto bytes = from_base64(tree.at(key).get<std::string>());
    if (!bytes || bytes->size() != size) {
        throw InputError("/" + std::string(key), "no base64", std::to_string(size) + " bytes in base64");
    }
    return *bytes;
}

} // namespace

std::string Seal::text() const
{
    const nlohmann::ordered_json tree{{"schema", "zeroline/seal/1"},
                                      {"algorithm", "Ed25519"},
                                      {"manifest_sha256", manifest_sha256},
                                      {"public_key", base64(public_key)},
                                      {"fingerprint", fingerprint(public_key)},
                                      {"signature", base64(signature)}};
    return tree.dump(2) + "\n";
}

Seal seal_manifest(std::string_view manifest, const SigningKey& key)
{
    return {sha256(manifest), key.public_key(), key.sign(manifest)};
}

Seal parse_seal(std::string_view text)
{
    const auto tree = parse_json(text);
    check_schema(tree, "seal");
    Seal seal{tree.at("manifest_sha256").get<std::string>(), bytes_at(tree, "public_key", 32),
              bytes_at(tree, "signature", 64)};
    if (seal.text() != text) {
        throw InputError("", "is not as this program writes it", "the seal exactly as it was written");
    }
    return seal;
}

std::string trouble_with(const Seal& seal, std::string_view manifest)
{
    if (seal.manifest_sha256 != sha256(manifest)) {
        return "belongs to another manifest";
    }
    if (const auto said = trouble_with_key(seal.public_key); !said.empty()) {
        return said;
    }
    return verifies(seal.public_key, manifest, seal.signature) ? "" : "the signature does not hold";
}

} // namespace zeroline::records
