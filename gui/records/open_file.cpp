#include "gui/records/open_file.hpp"

#include "acquisition/trace/input_error.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <optional>
#include <random>
#include <sys/stat.h>
#include <unistd.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

std::string said_by_the_system() { return std::strerror(errno); }

constexpr const char* kNew = ".new";
constexpr std::size_t kRandomDigits = 16;

[[noreturn]] void refuse_read(const fs::path& shown)
{
    throw InputError(shown.string(), errno != 0 ? said_by_the_system() : "cannot be read", "a readable file");
}

/// What bears the name in place of a regular file; empty for a regular file.
const char* other_than_a_file(mode_t mode)
{
    switch (mode & S_IFMT) {
    case S_IFREG:
        return "";
    case S_IFDIR:
        return "is a folder";
    case S_IFLNK:
        return "is a link";
    case S_IFIFO:
        return "is a pipe";
    case S_IFSOCK:
        return "is a socket";
    default:
        return "is a device";
    }
}

void refuse_other(const struct stat& state, const fs::path& shown)
{
    if (const std::string other = other_than_a_file(state.st_mode); !other.empty()) {
        throw InputError(shown.string(), other, "a file");
    }
}

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

/// A file of a name that nobody could have put there before; -1 with errno set.
Descriptor make_file(int at, const std::string& name, mode_t mode)
{
    return Descriptor(::openat(at, name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode));
}

/// Writes a neighbour and lets `place` put it in its place; what went wrong, or none. Nothing of it stays then.
template <typename Place>
std::optional<std::string> try_write(int at, const std::string& name, std::string_view text, mode_t mode, Place place)
{
    const auto neighbour = neighbour_of(name);
    const auto file = make_file(at, neighbour, mode);
    if (file.number() < 0) {
        return said_by_the_system();
    }
    if (write_all(file.number(), text) && ::fsync(file.number()) == 0 && place(neighbour)) {
        return std::nullopt;
    }
    auto why = said_by_the_system();
    ::unlinkat(at, neighbour.c_str(), 0);
    return why;
}

void sync_folder_of(int at, const std::string& name)
{
    const auto parent = fs::path(name).parent_path();
    const Descriptor folder(::openat(at, parent.empty() ? "." : parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    sync_folder(folder.number());
}

} // namespace

Descriptor::~Descriptor()
{
    if (number_ >= 0) {
        ::close(number_);
    }
}

Descriptor open_regular(int at, const std::string& name, Links links, const fs::path& shown)
{
    const bool follow = links == Links::followed;
    struct stat state {};
    errno = 0;
    // Looked at first: to open a device can be to use it. Looked at again, as another may have come in its place.
    if (::fstatat(at, name.c_str(), &state, follow ? 0 : AT_SYMLINK_NOFOLLOW) != 0) {
        refuse_read(shown);
    }
    refuse_other(state, shown);
    Descriptor file(
        ::openat(at, name.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY | (follow ? 0 : O_NOFOLLOW)));
    if (file.number() < 0 || ::fstat(file.number(), &state) != 0) {
        refuse_read(shown);
    }
    refuse_other(state, shown);
    return file;
}

void read_pieces(const Descriptor& file, const fs::path& shown, const std::function<void(std::string_view)>& take)
{
    std::array<char, 1U << 16U> block{};
    for (;;) {
        const auto got = ::read(file.number(), block.data(), block.size());
        if (got == 0) {
            return;
        }
        if (got > 0) {
            take({block.data(), static_cast<std::size_t>(got)});
        } else if (errno != EINTR) {
            refuse_read(shown);
        }
    }
}

std::string read_all(const Descriptor& file, const fs::path& shown, std::size_t largest)
{
    std::string text;
    read_pieces(file, shown, [&](std::string_view piece) {
        text += piece;
        if (text.size() > largest) {
            throw InputError(shown.string(), "larger than " + std::to_string(largest) + " bytes", "a smaller file");
        }
    });
    return text;
}

void write_whole(int at, const std::string& name, std::string_view text, const fs::path& shown)
{
    const auto why = try_write(at, name, text, 0666, [&](const std::string& neighbour) {
        return ::renameat(at, neighbour.c_str(), at, name.c_str()) == 0;
    });
    if (why) {
        throw InputError(shown.string(), "cannot be written: " + *why, "a place that can be written");
    }
    sync_folder_of(at, name);
}

void write_private(int at, const std::string& name, std::string_view text, const fs::path& shown)
{
    const auto why = try_write(
        at, name, text, 0600, [&](const std::string& neighbour) { return rename_to_nothing(at, neighbour, at, name); });
    if (why) {
        throw InputError(shown.string(), "cannot be made: " + *why,
                         "a file that is not there yet, in a place that can be written");
    }
    sync_folder_of(at, name);
}

std::string neighbour_of(const std::string& name)
{
    std::random_device dice;
    std::array<char, kRandomDigits + 1> digits{};
    std::snprintf(digits.data(), digits.size(), "%08x%08x", dice(), dice());
    return name + "." + digits.data() + kNew;
}

bool is_neighbour(const std::string& name)
{
    const auto tail = kRandomDigits + std::string_view(kNew).size() + 1;
    return name.size() > tail && name.ends_with(kNew) && name[name.size() - tail] == '.' &&
           name.find_first_not_of("0123456789abcdef", name.size() - tail + 1) == name.size() - 4;
}

/// A plain rename would replace an empty folder that appeared meanwhile; where the file system knows no better, it is
/// taken all the same.
bool rename_to_nothing(int from_at, const std::string& from, int to_at, const std::string& to)
{
    if (::renameat2(from_at, from.c_str(), to_at, to.c_str(), RENAME_NOREPLACE) == 0) {
        return true;
    }
    return (errno == EINVAL || errno == ENOSYS) && ::renameat(from_at, from.c_str(), to_at, to.c_str()) == 0;
}

void sync_folder(int folder)
{
    if (folder >= 0) {
        static_cast<void>(::fsync(folder));
    }
}

} // namespace zeroline::records
