#include "gui/records/record_folder.hpp"

#include "acquisition/trace/input_error.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

std::string reason() { return std::strerror(errno); }

/// A file descriptor that is closed whatever happens.
class Descriptor {
public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor()
    {
        if (number_ >= 0) {
            ::close(number_);
        }
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return number_; }

private:
    int number_;
};

bool write_all(int descriptor, std::string_view text)
{
    while (!text.empty()) {
        const auto written = ::write(descriptor, text.data(), text.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return false;
        }
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

void sync_folder(const fs::path& folder)
{
    const Descriptor descriptor(::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    // Some file systems cannot sync a folder; the rename is then as safe as they make it.
    if (descriptor.number() >= 0) {
        static_cast<void>(::fsync(descriptor.number()));
    }
}

enum class Sync { now, later };

void write_to(const fs::path& file, std::string_view text, Sync sync)
{
    const Descriptor descriptor(::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (descriptor.number() < 0 || !write_all(descriptor.number(), text) ||
        (sync == Sync::now && ::fsync(descriptor.number()) != 0)) {
        throw InputError(file.string(), "cannot be written: " + reason(), "a place that can be written");
    }
}

fs::path without_slash(const fs::path& path)
{
    auto clean = path.lexically_normal();
    return clean.filename().empty() ? clean.parent_path() : clean;
}

bool stands(const fs::path& path)
{
    std::error_code none;
    return fs::symlink_status(path, none).type() != fs::file_type::not_found;
}

/// A plain rename would replace an empty folder that appeared meanwhile; where the file system knows no better, it is
/// taken all the same.
bool rename_to_nothing(const fs::path& from, const fs::path& to)
{
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) {
        return true;
    }
    return (errno == EINVAL || errno == ENOSYS) && ::rename(from.c_str(), to.c_str()) == 0;
}

void refuse_existing(const fs::path& folder)
{
    if (stands(folder)) {
        throw InputError(folder.string(), "is there already",
                         "a folder that does not exist yet; nothing is overwritten");
    }
}

constexpr const char* kSources = "sources.json";

/// Why a FOLDER.part cannot be made, by the system's reason.
[[noreturn]] void refuse_part(const fs::path& part)
{
    if (errno == EEXIST || errno == ENOTEMPTY) {
        static_cast<void>(FolderHold(part)); // who works in it is not to be disturbed
        throw InputError(part.string(), "an unfinished run was left there",
                         "another name, or complete it first with 'zeroline assess " + part.string() + "'");
    }
    throw InputError(part.string(), "cannot be created: " + reason(), "a place that can be written");
}

} // namespace

void write_file_whole(const fs::path& file, std::string_view text)
{
    auto neighbour = file;
    neighbour += ".new";
    try {
        write_to(neighbour, text, Sync::now);
    } catch (...) {
        ::unlink(neighbour.c_str());
        throw;
    }
    if (::rename(neighbour.c_str(), file.c_str()) != 0) {
        const auto why = reason();
        ::unlink(neighbour.c_str());
        throw InputError(file.string(), "cannot be written: " + why, "a place that can be written");
    }
    sync_folder(file.parent_path());
}

void write_private_file(const fs::path& file, std::string_view text)
{
    auto neighbour = file.string() + ".XXXXXX";
    const Descriptor descriptor(::mkostemp(neighbour.data(), O_CLOEXEC));
    const bool whole = descriptor.number() >= 0 && write_all(descriptor.number(), text) &&
                       ::fsync(descriptor.number()) == 0 && rename_to_nothing(neighbour, file);
    if (!whole) {
        const auto why = reason();
        ::unlink(neighbour.c_str());
        throw InputError(file.string(), "cannot be made: " + why,
                         "a file that is not there yet, in a place that can be written");
    }
    sync_folder(file.parent_path());
}

RecordFolder::RecordFolder(fs::path folder, fs::path part)
    : folder_(std::move(folder)), part_(std::move(part)), hold_(part_)
{
    // Another program may have finished it while this one waited for nothing but its turn.
    refuse_existing(folder_);
}

RecordFolder::Names RecordFolder::named(const fs::path& folder)
{
    const auto clean = without_slash(folder);
    if (clean.empty() || clean.filename() == "." || clean.filename() == ".." || clean.extension() == ".part") {
        throw InputError(folder.string(), "cannot be the name of a record",
                         "the name of a new folder, not ending in .part");
    }
    refuse_existing(clean);
    auto part = clean;
    part += ".part";
    return {clean, part};
}

RecordFolder RecordFolder::begin(const fs::path& folder)
{
    const auto [clean, part] = named(folder);
    if (::mkdir(part.c_str(), 0777) != 0) {
        refuse_part(part);
    }
    try {
        return {clean, part};
    } catch (...) {
        ::rmdir(part.c_str()); // of no use where it cannot be held
        throw;
    }
}

RecordFolder RecordFolder::begin_with(const fs::path& folder, std::string_view sources,
                                      const std::function<void(const RecordFolder&)>& fill)
{
    const auto [clean, part] = named(folder);
    auto making = part;
    making += ".new";
    std::error_code none;
    // What a killed program left there is of no use to anybody.
    fs::remove_all(making, none);
    try {
        if (::mkdir(making.c_str(), 0777) != 0) {
            refuse_part(part);
        }
        // Not synced: the FOLDER.part must be there at once, and the evidence itself follows within moments.
        write_to(making / kSources, sources, Sync::later);
        if (!rename_to_nothing(making, part)) {
            refuse_part(part);
        }
    } catch (...) {
        fs::remove_all(making, none);
        throw;
    }
    RecordFolder begun(clean, part);
    try {
        fill(begun);
        fs::remove(begun.file(kSources));
    } catch (...) {
        begun.discard();
        throw;
    }
    return begun;
}

bool RecordFolder::is_part(const fs::path& path)
{
    std::error_code none;
    const auto clean = without_slash(path);
    return clean.extension() == ".part" && fs::is_directory(clean, none);
}

RecordFolder RecordFolder::take_up(const fs::path& part)
{
    const auto clean = without_slash(part);
    if (!is_part(clean)) {
        throw InputError(part.string(), "is no unfinished record", "a folder ending in .part");
    }
    auto folder = clean;
    folder.replace_extension();
    refuse_existing(folder);
    return {folder, clean};
}

void RecordFolder::put(const std::string& name, std::string_view text) const { write_file_whole(file(name), text); }

void RecordFolder::tidy() const
{
    std::error_code none;
    for (const auto* name : {"record.pdf", "manifest.sha256", "seal.json"}) {
        fs::remove(part_ / name, none);
    }
    for (const auto& entry : fs::directory_iterator(part_)) {
        if (entry.path().extension() == ".new") {
            fs::remove(entry.path(), none);
        }
    }
}

void RecordFolder::finish_as(const fs::path& folder) const
{
    refuse_existing(folder);
    sync_folder(part_);
    if (!rename_to_nothing(part_, folder)) {
        throw InputError(folder.string(), "cannot be renamed from " + part_.string() + ": " + reason(),
                         "a place that can be written");
    }
    sync_folder(folder.parent_path());
    hold_.release(); // it is a record now, which others may add to
}

void RecordFolder::discard() const noexcept
{
    std::error_code none;
    fs::remove_all(part_, none);
}

} // namespace zeroline::records
