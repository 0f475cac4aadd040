#include "gui/console/recheck_json.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::console {

namespace {

using nlohmann::ordered_json;

ordered_json text_or_null(const std::string& text) { return text.empty() ? ordered_json(nullptr) : ordered_json(text); }

ordered_json tree_of(const records::Signature& signature)
{
    if (signature.signer.empty()) {
        return nullptr;
    }
    return {{"signer", signature.signer},
            {"role", text_or_null(signature.role)},
            {"meaning", signature.meaning},
            {"time", signature.time}};
}

ordered_json tree_of(const std::vector<records::CheckedAddendum>& addenda)
{
    auto list = ordered_json::array();
    for (const auto& addendum : addenda) {
        list.push_back({{"kind", addendum.kind},
                        {"text", text_or_null(addendum.text)},
                        {"reason", text_or_null(addendum.reason)},
                        {"signature", tree_of(addendum.signature)}});
    }
    return list;
}

std::string line_of(const std::filesystem::path& folder, const std::string& outcome, const records::Recheck& result,
                    ExitStatus status)
{
    const auto& key = result.folder.public_key;
    const ordered_json tree{{"folder", folder.string()},
                            {"outcome", outcome},
                            {"status", static_cast<int>(status)},
                            {"record_number", text_or_null(result.record_number)},
                            {"verdict", text_or_null(result.verdict)},
                            {"critical", result.critical},
                            {"signature", tree_of(result.folder.signature)},
                            {"key", text_or_null(key.empty() ? "" : records::fingerprint(key))},
                            {"known_as", text_or_null(result.signed_by)},
                            {"unknown_keys", result.unknown_keys},
                            {"addenda", tree_of(result.folder.addenda)},
                            {"troubles", result.folder.troubles},
                            {"differences", result.differences},
                            {"dates", result.dates},
                            {"remarks", result.remarks}};
    return tree.dump(-1, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

} // namespace

std::string recheck_json(const std::filesystem::path& folder, const records::Recheck& result, ExitStatus status)
{
    return line_of(folder, result.intact() ? "intact" : "not-intact", result, status);
}

std::string unreadable_json(const std::filesystem::path& folder, const std::string& trouble)
{
    records::Recheck nothing;
    nothing.folder.troubles = {trouble};
    return line_of(folder, "unreadable", nothing, ExitStatus::wrong_input);
}

} // namespace zeroline::console
