#include "gui/records/journal.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/journal_line.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/schemas.hpp"

#include <algorithm>

namespace zeroline::records {

using nlohmann::json;
using trace::InputError;

namespace {

constexpr std::size_t kLargestJournal = std::size_t{1} << 30;
constexpr std::size_t kPublicKeyBytes = 32;

std::string key_at(const json& body)
{
    auto key = from_base64(body.at("key").get<std::string>());
    if (!key || key->size() != kPublicKeyBytes) {
        throw InputError("/key", "is no public key", "32 bytes in base64");
    }
    return *key;
}

/// Reads entry by entry.
class Reader {
public:
    void take(std::string_view line)
    {
        auto parsed = parse_journal_line(line.substr(0, line.size() - 1));
        check_schema(parsed.body, "journal");
        const bool first = journal_.public_key.empty();
        if (first != (parsed.body.at("entry") == "begin")) {
            throw InputError("/entry", parsed.body.at("entry").get<std::string>(),
                             first ? "begin in the first line" : "begin in the first line only");
        }
        if (parsed.body.at("before") != journal_.last_line_sha256) {
            throw InputError("/before", "does not follow the line before", "the SHA-256 of that line");
        }
        const auto key = parsed.body.contains("key") ? key_at(parsed.body) : journal_.public_key;
        enter(parsed.body, key);
        last_of_[key] = {number_, std::move(parsed)};
        journal_.last_line_sha256 = sha256(line);
        journal_.whole_bytes += line.size();
        ++number_;
    }
    [[nodiscard]] std::size_t number() const { return number_; }

    /// The last line of a key covers all lines before it by the hash that it holds.
    Journal finish()
    {
        for (const auto& [key, last] : last_of_) {
            if (!verifies(key, last.second.signed_text, last.second.signature)) {
                throw InputError("line " + std::to_string(last.first), "the signature does not hold",
                                 "a line signed with the key it names");
            }
        }
        return std::move(journal_);
    }

private:
    void enter(const json& body, const std::string& key)
    {
        const auto& entry = body.at("entry");
        if (journal_.ended && entry != "amended") {
            throw InputError("/entry", entry.get<std::string>(), "nothing but amendments after the end");
        }
        if (entry == "begin") {
            begin(body, key);
        } else if (entry == "trace") {
            mark(body);
        } else if (entry == "amended") {
            amend(body, key);
        } else if (entry == "end") {
            journal_.ended = true;
        }
        if (body.contains("run")) {
            auto run = journal_.runs.empty() ? json::object() : journal_.runs.back();
            apply_changes(run, body.at("run"));
            journal_.runs.push_back(std::move(run));
        }
    }

    void begin(const json& body, const std::string& key)
    {
        journal_.public_key = key;
        journal_.origin = body.at("origin");
        journal_.time = body.at("time");
        for (const auto& [file, hash] : body.at("files").items()) {
            journal_.files[file].sha256.push_back(hash);
        }
    }

    void mark(const json& body)
    {
        const TraceMark mark{body.at("bytes").get<std::uint64_t>(), body.at("sha256")};
        if (!journal_.marks.empty() && mark.bytes <= journal_.marks.back().bytes) {
            throw InputError("/bytes", std::to_string(mark.bytes), "a trace that grows");
        }
        journal_.marks.push_back(mark);
    }

    void amend(const json& body, const std::string& key)
    {
        if (key != journal_.public_key) {
            journal_.other_keys.push_back(key);
        }
        if (!body.contains("file")) {
            return;
        }
        auto& file = journal_.files[body.at("file")];
        file.sha256.push_back(body.at("sha256"));
        file.text = body.at("text");
    }

    Journal journal_;
    std::size_t number_ = 1;
    std::map<std::string, std::pair<std::size_t, JournalLine>> last_of_;
};

} // namespace

Journal read_journal(const OpenFolder& folder)
{
    const auto text = folder.read(name::journal, kLargestJournal);
    return reading(folder.shown(name::journal), [&] {
        Reader reader;
        std::size_t begin = 0;
        for (auto end = text.find('\n'); end != std::string::npos; begin = end + 1, end = text.find('\n', begin)) {
            try {
                reader.take(std::string_view(text).substr(begin, end + 1 - begin));
            } catch (const InputError& error) {
                throw error.within("line " + std::to_string(reader.number()));
            }
        }
        if (begin == 0) {
            throw InputError("", "holds no entry", "a capture journal");
        }
        auto journal = reader.finish();
        journal.torn_bytes = text.size() - begin;
        return journal;
    });
}

void rewrite_journal(const OpenFolder& folder, const Journal& journal, std::string_view line)
{
    auto text = folder.read(name::journal, kLargestJournal);
    text.resize(std::min<std::size_t>(text.size(), journal.whole_bytes));
    folder.put(name::journal, text.append(line));
}

} // namespace zeroline::records
