#include "gui/records/bench_key.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"
#include "gui/records/folder_hold.hpp"
#include "gui/records/open_folder.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/sealing.hpp"

#include <cerrno>
#include <chrono>
#include <sys/file.h>
#include <thread>
#include <unistd.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

constexpr std::size_t kShown = 16;
constexpr const char* kNext = ".next-";
constexpr const char* kBefore = ".before-";

bool key_stands(const fs::path& file)
{
    std::error_code none;
    return fs::symlink_status(file, none).type() != fs::file_type::not_found;
}

fs::path beside(const fs::path& file, const std::string& tail)
{
    auto other = file;
    other += tail;
    return other;
}

std::string shown_fingerprint(const std::string& public_key) { return fingerprint(public_key).substr(0, kShown); }

/// The folder of a key, kept to oneself: two programs never change one key at once. What another does there takes a
/// moment, which is waited for; whoever stays longer is named.
OpenFolder lock_folder_of(const fs::path& key_file)
{
    using Clock = std::chrono::steady_clock;
    constexpr std::chrono::seconds patience{3};
    constexpr std::chrono::milliseconds between{20};
    const auto parent = key_file.parent_path();
    auto folder = OpenFolder::at(parent.empty() ? "." : parent);
    const auto give_up = Clock::now() + patience;
    while (::flock(folder.descriptor(), LOCK_EX | LOCK_NB) != 0) {
        if (errno != EWOULDBLOCK || Clock::now() >= give_up) {
            static_cast<void>(FolderHold(folder.path())); // says who holds it, or why it cannot be held
        }
        std::this_thread::sleep_for(between);
    }
    return folder;
}

void rename_or_throw(const fs::path& from, const fs::path& to)
{
    std::error_code trouble;
    fs::rename(from, to, trouble);
    if (trouble) {
        throw InputError(to.string(), "cannot be made: " + trouble.message(), "a place that can be written");
    }
}

/// The old key under another name, without it leaving its own: a second name, or a copy where there are none.
void keep_old(const fs::path& key_file, const fs::path& kept)
{
    if (!key_stands(key_file) || key_stands(kept) || ::link(key_file.c_str(), kept.c_str()) == 0) {
        return;
    }
    constexpr std::size_t largest = 1u << 16;
    write_private_file(kept, read_file(key_file, largest));
}

/// The list names the key in KEY.next-FINGERPRINT: it takes its place.
fs::path finish(const fs::path& key_file, const std::string& mark)
{
    auto kept = beside(key_file, kBefore + mark);
    keep_old(key_file, kept);
    rename_or_throw(beside(key_file, kNext + mark), key_file);
    const auto parent = key_file.parent_path();
    sync_folder(OpenFolder::at(parent.empty() ? "." : parent).descriptor());
    return kept;
}

/// Finishes or undoes a change of key that was cut off. Call it with the folder locked.
void settle(const OpenFolder& folder, const fs::path& key_file)
{
    const auto own = key_file.filename().string();
    const auto start = own + kNext;
    for (const auto& name : folder.names()) {
        if (is_neighbour(name) && name.starts_with(own)) {
            ::unlinkat(folder.descriptor(), name.c_str(), 0); // half written
            continue;
        }
        if (!name.starts_with(start)) {
            continue;
        }
        const auto mark = name.substr(start.size());
        const auto list = load_own_list(key_file);
        if (list && list->knows_fingerprint(mark)) {
            finish(key_file, mark);
        } else {
            ::unlinkat(folder.descriptor(), name.c_str(), 0);
        }
    }
}

/// The new key and the list that names it, in this order; then it takes its place.
fs::path put_in_place(const fs::path& key_file, const SigningKey& key, const std::string& list,
                      const std::string& passphrase)
{
    const auto mark = shown_fingerprint(key.public_key());
    key.save(beside(key_file, kNext + mark), passphrase);
    write_file_whole(list_beside(key_file), list);
    return finish(key_file, mark);
}

void make_first_key(const OpenFolder& folder, const fs::path& key_file)
{
    settle(folder, key_file);
    if (key_stands(key_file)) {
        return; // another program was faster: its key is the bench's
    }
    if (key_stands(list_beside(key_file))) {
        throw InputError(key_file.string(), "the key is missing, though its public list is there",
                         "its backup in this place; where there is none, 'zeroline key --lost \"what happened\"'");
    }
    const auto key = SigningKey::make();
    key.save(key_file);
    write_file_whole(list_beside(key_file), key_line(key, {}));
}

void make_list(const fs::path& key_file, const SigningKey& key, const std::string& name)
{
    if (!key_stands(list_beside(key_file))) {
        write_file_whole(list_beside(key_file), key_line(key, name));
    }
}

/// An old backup in place of the key would seal what its own list disowns.
void refuse_past(const fs::path& key_file, const SigningKey& key)
{
    if (const auto list = load_own_list(key_file); list && !list->may_seal(key.public_key())) {
        throw InputError(key_file.string(),
                         "this key is retired, revoked or not named in " + list_beside(key_file).string(),
                         "the key that the list names last");
    }
}

} // namespace

SigningKey SigningKey::load_or_make(const fs::path& file, const AskPassphrase& ask)
{
    std::error_code none;
    fs::create_directories(file.parent_path(), none);
    {
        const auto folder = lock_folder_of(file);
        make_first_key(folder, file);
    }
    auto key = load(file, ask);
    make_list(file, key, {});
    refuse_past(file, key);
    return key;
}

fs::path public_list(const fs::path& key_file, const std::string& name)
{
    const auto list = list_beside(key_file);
    if (!key_stands(list)) {
        make_list(key_file, SigningKey::load(key_file), name);
    }
    const auto folder = lock_folder_of(key_file);
    auto text = read_file(list);
    const auto current = KeyList::parse(text).current();
    const auto nameless = "key " + base64(current) + "\n";
    if (const auto at = text.find(nameless); !name.empty() && !current.empty() && at != std::string::npos) {
        text.insert(at + nameless.size() - 1, " " + name);
        write_file_whole(list, text);
    }
    return list;
}

fs::path change_key(const fs::path& key_file, const SigningKey& old_key, const std::string& time,
                    const std::string& passphrase)
{
    make_list(key_file, old_key, {});
    const auto folder = lock_folder_of(key_file);
    refuse_past(key_file, old_key);
    const auto new_key = SigningKey::make();
    const auto list = read_file(list_beside(key_file)) + change_line(old_key, new_key, time);
    // The list first: a key that nobody knows must never seal, a known one that is not used does no harm.
    return put_in_place(key_file, new_key, list, passphrase);
}

void revoke_key(const fs::path& key_file, const std::string& name, const std::string& since, const std::string& reason,
                const std::string& passphrase)
{
    check_signature_text(reason, "why the key is revoked");
    const auto folder = lock_folder_of(key_file);
    settle(folder, key_file);
    const auto list = list_beside(key_file);
    const auto text = read_file(list);
    const auto lost = reading(list, [&] { return KeyList::parse(text); }).current();
    if (lost.empty()) {
        throw InputError(list.string(), "names no key that could be lost", "the list of this bench's public keys");
    }
    const auto new_key = SigningKey::make();
    put_in_place(key_file, new_key, text + revoked_line(lost, since, reason) + key_line(new_key, name), passphrase);
}

void set_passphrase(const fs::path& key_file, const SigningKey& key, const std::string& passphrase)
{
    const auto folder = lock_folder_of(key_file);
    settle(folder, key_file);
    refuse_past(key_file, key); // changed meanwhile: the new key must not be written over
    // Cut off here, it is a neighbour that the next one clears away. The file before it goes: kept, it would make the
    // passphrase worthless.
    const fs::path locked = neighbour_of(key_file.string());
    key.save(locked, passphrase);
    rename_or_throw(locked, key_file);
}

} // namespace zeroline::records
