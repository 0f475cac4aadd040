#include "gui/records/journal_line.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"

#include <utility>

namespace zeroline::records {

namespace {

/// A signature names its purpose: one of a journal can never pass for that of a record or of a change of key.
constexpr const char* kPurpose = "zeroline capture journal\n";
constexpr std::string_view kSignatureKey = ",\"signature\":\"";
constexpr std::size_t kBytesOfSignature = 64;

} // namespace

std::string journal_line(const nlohmann::ordered_json& body, const std::string& before, const SigningKey& key)
{
    nlohmann::ordered_json whole{{"schema", "zeroline/journal/1"}};
    whole.update(body);
    whole["before"] = before;
    auto text = whole.dump();
    text.pop_back(); // the closing brace
    const auto signature = key.sign(kPurpose + text);
    return text + std::string(kSignatureKey) + base64(signature) + "\"}\n";
}

JournalLine parse_journal_line(std::string_view line)
{
    const auto at = line.rfind(kSignatureKey);
    if (at == std::string_view::npos || !line.ends_with("\"}")) {
        throw trace::InputError("", "is not signed", "a line as this program writes it");
    }
    const auto begin = at + kSignatureKey.size();
    auto signature = from_base64(line.substr(begin, line.size() - begin - 2));
    if (!signature || signature->size() != kBytesOfSignature) {
        throw trace::InputError("", "holds no signature", "64 bytes in base64");
    }
    const auto text = line.substr(0, at);
    return {parse_json(std::string(text) + "}"), kPurpose + std::string(text), std::move(*signature)};
}

} // namespace zeroline::records
