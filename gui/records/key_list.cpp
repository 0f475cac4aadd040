#include "gui/records/key_list.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include <sstream>

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
    return *bytes;
}

/// What the old key signs. It names its purpose: a signature for a record can never pass for a change of key.
std::string change_text(const std::string& old_key, const std::string& new_key, const std::string& time)
{
    return "zeroline change of key\n" + base64(old_key) + "\n" + base64(new_key) + "\n" + time + "\n";
}

void rename_or_throw(const fs::path& from, const fs::path& to)
{
    std::error_code trouble;
    fs::rename(from, to, trouble);
    if (trouble) {
        throw InputError(to.string(), "cannot be made: " + trouble.message(), "a place that can be written");
    }
}

} // namespace

KeyList KeyList::parse(std::string_view text)
{
    KeyList list;
    std::istringstream lines{std::string(text)};
    std::string line;
    for (std::size_t number = 1; std::getline(lines, line); ++number) {
        try {
            list.add_line(line);
        } catch (const InputError& error) {
            throw error.within("line " + std::to_string(number));
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
    std::string kind, first, second, time, signature;
    words >> kind;
    if (kind.empty() || kind.starts_with('#')) {
        return;
    }
    words >> first;
    if (kind == "key") {
        std::string name;
        std::getline(words >> std::ws, name);
        names_[public_key_in(first)] = name.empty() ? fingerprint(public_key_in(first)) : name;
        return;
    }
    if (kind != "change") {
        throw InputError("", "'" + kind + "'", "key or change");
    }
    words >> second >> time >> signature;
    const auto old_key = public_key_in(first);
    const auto new_key = public_key_in(second);
    const auto bytes = from_base64(signature);
    if (!bytes || !verifies(old_key, change_text(old_key, new_key, time), *bytes)) {
        throw InputError("", "the old key did not sign this change", "a line as 'zeroline key --change' writes it");
    }
    if (const auto name = name_of(old_key); !name.empty()) {
        names_[new_key] = name;
    }
}

std::string KeyList::name_of(const std::string& public_key) const
{
    const auto it = names_.find(public_key);
    return it == names_.end() ? std::string() : it->second;
}

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

fs::path public_list(const fs::path& key_file, const std::string& name)
{
    auto list = key_file;
    list += ".public";
    if (std::error_code none; !fs::exists(list, none)) {
        write_file_whole(list, key_line(SigningKey::load(key_file), name));
    }
    return list;
}

fs::path change_key(const fs::path& key_file, const std::string& name, const std::string& time)
{
    const auto old_key = SigningKey::load(key_file);
    const auto list = public_list(key_file, name);
    const auto new_key = SigningKey::make();
    auto beside = key_file;
    beside += ".next";
    std::error_code none;
    fs::remove(beside, none);
    new_key.save(beside);
    constexpr std::size_t short_fingerprint = 16;
    auto kept = key_file;
    kept += ".until-" + time.substr(0, 10) + "-" + fingerprint(old_key.public_key()).substr(0, short_fingerprint);
    old_key.save(kept);
    // The list first: a key that nobody knows must never seal, a known one that is not used does no harm.
    write_file_whole(list, read_file(list) + change_line(old_key, new_key, time));
    rename_or_throw(beside, key_file);
    return kept;
}

} // namespace zeroline::records
