#include "gui/records/record_folder.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/procedure_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

std::string reason() { return std::strerror(errno); }

void sync_named(const fs::path& folder)
{
    const Descriptor opened(::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    sync_folder(opened.number());
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

/// What a run puts into its FOLDER.part before its first reading comes; what else lies there is somebody's own.
bool belongs_to_a_run(const std::string& file)
{
    const auto before = {name::order,   name::instrument, name::bench,          name::run,      name::trace,
                         name::journal, name::earlier,    name::attempt_before, name::as_found, name::procedure};
    return is_neighbour(file) || std::find(before.begin(), before.end(), file) != before.end();
}

bool has_reading(const OpenFolder& part)
{
    if (part.kind(name::trace) == OpenFolder::Kind::none) {
        return false;
    }
    constexpr std::size_t longer_than_any_header = 4096;
    try {
        const auto text = part.read(name::trace, longer_than_any_header);
        return !text.empty() && (!text.starts_with("arrival_s,") || text.find('\n') + 1 < text.size());
    } catch (const InputError&) {
        return true; // long, or no plain file
    }
}

/// A run that was killed before its first reading has nothing to lose, and must not keep the name. Throws
/// trace::InputError while another program works there.
bool clear_where_nothing_was_captured(const fs::path& part)
{
    const FolderHold hold(part);
    const auto folder = OpenFolder::at(part);
    const auto names = folder.names();
    std::error_code failed;
    if (!std::all_of(names.begin(), names.end(), belongs_to_a_run) || has_reading(folder)) {
        return false;
    }
    fs::remove_all(part, failed);
    return !failed;
}

/// False with the system's reason in errno.
bool make_part(const fs::path& part)
{
    if (::mkdir(part.c_str(), 0777) == 0) {
        return true;
    }
    const int why = errno;
    const bool cleared = why == EEXIST && RecordFolder::is_part(part) && clear_where_nothing_was_captured(part);
    const bool made = cleared && ::mkdir(part.c_str(), 0777) == 0;
    errno = made ? 0 : why;
    return made;
}

/// What was made and could not be held goes again, unless another program has it by now. Only an empty folder goes.
void unmake(const fs::path& part)
{
    const Descriptor folder(::open(part.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (::flock(folder.number(), LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK) {
        ::rmdir(part.c_str());
    }
}

fs::path parent_of(const fs::path& path) { return path.has_parent_path() ? path.parent_path() : fs::path("."); }

/// What a program that was killed left there before its FOLDER.part could appear. One that is at work holds its own.
void clear_left_beside(const fs::path& part)
{
    const auto start = part.filename().string() + ".";
    const auto tail = neighbour_of("").size() - 1;
    for (const auto& name : OpenFolder::at(parent_of(part)).names()) {
        if (is_neighbour(name) && name.starts_with(start) && name.size() == start.size() + tail) {
            try {
                const FolderHold hold(parent_of(part) / name);
                std::error_code none;
                fs::remove_all(parent_of(part) / name, none);
            } catch (const InputError&) {
                continue;
            }
        }
    }
}

/// A new folder beside `part`, held. Throws trace::InputError.
std::pair<fs::path, FolderHold> make_beside(const fs::path& part)
{
    for (;;) {
        const fs::path making = neighbour_of(part.string());
        if (::mkdir(making.c_str(), 0777) != 0) {
            refuse_part(part);
        }
        try {
            return {making, FolderHold(making)};
        } catch (const InputError&) {
            const bool gone = ::rmdir(making.c_str()) != 0 && errno == ENOENT;
            if (!gone) { // else another program took it for one that was left there: once more
                throw;
            }
        }
    }
}

} // namespace

void write_file_whole(const fs::path& file, std::string_view text) { write_whole(AT_FDCWD, file.string(), text, file); }

void write_private_file(const fs::path& file, std::string_view text)
{
    write_private(AT_FDCWD, file.string(), text, file);
}

RecordFolder::RecordFolder(fs::path folder, fs::path part)
    : folder_(std::move(folder)), part_(std::move(part)), hold_(part_), opened_(OpenFolder::at(part_))
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
    if (!make_part(part)) {
        refuse_part(part);
    }
    try {
        return {clean, part};
    } catch (...) {
        unmake(part);
        throw;
    }
}

RecordFolder RecordFolder::begin_with(const fs::path& folder, std::string_view sources,
                                      const std::function<void(const RecordFolder&)>& fill)
{
    const auto [clean, part] = named(folder);
    clear_left_beside(part);
    const auto [making, hold] = make_beside(part);
    std::error_code none;
    try {
        OpenFolder::at(making).put(kSources, sources);
        if (!rename_to_nothing(AT_FDCWD, making, AT_FDCWD, part)) {
            refuse_part(part);
        }
    } catch (...) {
        fs::remove_all(making, none);
        throw;
    }
    hold.release();
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
    return clean.extension() == ".part" && fs::symlink_status(clean, none).type() == fs::file_type::directory;
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

void RecordFolder::put(const std::string& name, std::string_view text) const { opened_.put(name, text); }

void RecordFolder::tidy() const
{
    for (const auto* name : {"record.pdf", "manifest.sha256", "seal.json"}) {
        ::unlinkat(opened_.descriptor(), name, 0);
    }
    for (const auto& name : opened_.names()) {
        if (is_neighbour(name) || fs::path(name).extension() == ".new") {
            ::unlinkat(opened_.descriptor(), name.c_str(), 0);
        }
    }
}

void RecordFolder::finish_as(const fs::path& folder) const
{
    refuse_existing(folder);
    sync_folder(opened_.descriptor());
    if (!rename_to_nothing(AT_FDCWD, part_, AT_FDCWD, folder)) {
        throw InputError(folder.string(), "cannot be renamed from " + part_.string() + ": " + reason(),
                         "a place that can be written");
    }
    sync_named(folder.parent_path());
    hold_.release(); // it is a record now, which others may add to
}

void RecordFolder::discard() const noexcept
{
    std::error_code none;
    fs::remove_all(part_, none);
}

} // namespace zeroline::records
