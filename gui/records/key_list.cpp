#include "gui/records/key_list.hpp"

#include "acquisition/trace/input_error.hpp"
#include "analysis/verification/civil_time.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/open_file.hpp"
#include "gui/records/public_key.hpp"

#include <algorithm>
#include <fcntl.h>
#include <sstream>
#include <sys/stat.h>
#include <unistd.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

std::string public_key_in(const std::string& text)
{
    const auto bytes = from_base64(text);
    if (!bytes || bytes->size() != 32) {
        throw InputError("", "'" + text + "' is no public key", "32 bytes in base64");
    }
    if (const auto said = trouble_with_key(*bytes); !said.empty()) {
        throw InputError("", said, "a key as this program makes it");
    }
    return *bytes;
}

/// What the old key signs. It names its purpose: a signature for a record can never pass for a change of key.
std::string change_text(const std::string& old_key, const std::string& new_key, const std::string& time)
{
    return "zeroline change of key\n" + base64(old_key) + "\n" + base64(new_key) + "\n" + time + "\n";
}

std::string read_own(const fs::path& file)
{
    constexpr std::size_t largest = 1u << 20;
    const auto opened = open_regular(AT_FDCWD, file.string(), Links::followed, file);
    struct stat state {};
    if (::fstat(opened.number(), &state) != 0 || state.st_uid != ::geteuid() || (state.st_mode & 022) != 0) {
        throw InputError(file.string(), "others may write to this list of keys",
                         "a file of whoever runs this program, which nobody else may write to: chmod 644");
    }
    return read_all(opened, file, largest);
}

/// A time that a person or a program wrote. Throws trace::InputError.
const std::string& instant(const std::string& time)
{
    if (!verification::is_instant(time)) {
        throw InputError("", "'" + time + "' is no time", "such as 2026-11-25T09:12:04+01:00");
    }
    return time;
}

bool not_before(const std::string& time, const std::string& other)
{
    return verification::epoch_s_of(time) >= verification::epoch_s_of(other);
}

} // namespace

KeyList KeyList::parse(std::string_view text)
{
    KeyList list;
    // What is revoked comes first: it decides which changes of key are believed.
    for (const bool revoked : {true, false}) {
        std::istringstream lines{std::string(text)};
        std::string line;
        for (std::size_t number = 1; std::getline(lines, line); ++number) {
            try {
                if (line.starts_with("revoked ") == revoked) {
                    list.add_line(line);
                }
            } catch (const InputError& error) {
                throw error.within("line " + std::to_string(number));
            }
        }
    }
    return list;
}

KeyList KeyList::load(const fs::path& file)
{
    constexpr std::size_t largest = 1u << 20;
    const auto text = read_file(file, largest);
    return reading(file, [&] { return parse(text); });
}

void KeyList::add_line(const std::string& line)
{
    std::istringstream words(line);
    std::string kind;
    words >> kind;
    if (kind.empty() || kind.starts_with('#')) {
        return;
    }
    if (kind == "key") {
        std::string first, name;
        std::getline(words >> first >> std::ws, name);
        const auto key = public_key_in(first);
        known_[key].name = name.empty() ? fingerprint(key) : name;
        order_.push_back(key);
    } else if (kind == "change") {
        add_change(words);
    } else if (kind == "revoked") {
        add_revoked(words);
    } else {
        throw InputError("", "'" + kind + "'", "key, change or revoked");
    }
}

void KeyList::add_change(std::istream& words)
{
    std::string first, second, time, signature;
    words >> first >> second >> time >> signature;
    const auto old_key = public_key_in(first);
    const auto new_key = public_key_in(second);
    const auto bytes = from_base64(signature);
    if (!bytes || !verifies(old_key, change_text(old_key, new_key, time), *bytes)) {
        throw InputError("", "the old key did not sign this change", "a line as 'zeroline key --change' writes it");
    }
    const auto revoked = revoked_.find(old_key);
    const auto known = known_.find(old_key);
    // A thief could sign a change too.
    if (known == known_.end() || (revoked != revoked_.end() && not_before(instant(time), revoked->second.time))) {
        return;
    }
    known->second.retired = instant(time);
    known_[new_key].name = known->second.name;
    order_.push_back(new_key);
}

void KeyList::add_revoked(std::istream& words)
{
    std::string first, time, reason;
    std::getline(words >> first >> time >> std::ws, reason);
    revoked_[public_key_in(first)] = {instant(time), reason};
}

std::string KeyList::name_of(const std::string& public_key) const
{
    const auto it = known_.find(public_key);
    return it == known_.end() ? std::string() : it->second.name;
}

std::string KeyList::against(const std::string& public_key, const std::string& time) const
{
    const auto revoked = revoked_.find(public_key);
    const auto known = known_.find(public_key);
    const auto retired = known == known_.end() ? std::string() : known->second.retired;
    if (revoked == revoked_.end() && retired.empty()) {
        return {};
    }
    if (!verification::is_instant(time)) {
        return "no longer seals, and this seal says no time";
    }
    if (revoked != revoked_.end() && not_before(time, revoked->second.time)) {
        return "is revoked from " + revoked->second.time + " on" +
               (revoked->second.reason.empty() ? "" : " (" + revoked->second.reason + ")");
    }
    const bool after = !retired.empty() && verification::epoch_s_of(time) > verification::epoch_s_of(retired);
    return after ? "is retired since " + retired : std::string();
}

std::string KeyList::current() const
{
    const auto key = std::find_if(order_.rbegin(), order_.rend(), [&](const auto& one) { return may_seal(one); });
    return key == order_.rend() ? std::string() : *key;
}

bool KeyList::may_seal(const std::string& public_key) const
{
    const auto known = known_.find(public_key);
    return known != known_.end() && known->second.retired.empty() && !revoked_.contains(public_key);
}

bool KeyList::knows_fingerprint(std::string_view beginning) const
{
    return std::any_of(known_.begin(), known_.end(),
                       [&](const auto& known) { return fingerprint(known.first).starts_with(beginning); });
}

std::optional<KeyList> load_own_list(const fs::path& key_file)
{
    const auto list = list_beside(key_file);
    if (std::error_code none; fs::symlink_status(list, none).type() == fs::file_type::not_found) {
        return std::nullopt;
    }
    const auto text = read_own(list);
    return reading(list, [&] { return KeyList::parse(text); });
}

KeyList own_keys(const fs::path& key_file) { return load_own_list(key_file).value_or(KeyList()); }

std::string key_line(const SigningKey& key, const std::string& name)
{
    return "key " + base64(key.public_key()) + (name.empty() ? "" : " " + name) + "\n";
}

std::string change_line(const SigningKey& old_key, const SigningKey& new_key, const std::string& time)
{
    const auto before = old_key.public_key();
    const auto after = new_key.public_key();
    return "change " + base64(before) + " " + base64(after) + " " + time + " " +
           base64(old_key.sign(change_text(before, after, time))) + "\n";
}

std::string revoked_line(const std::string& public_key, const std::string& time, const std::string& reason)
{
    return "revoked " + base64(public_key) + " " + instant(time) + " " + reason + "\n";
}

fs::path list_beside(const fs::path& key_file)
{
    auto list = key_file;
    list += ".public";
    return list;
}

} // namespace zeroline::records
