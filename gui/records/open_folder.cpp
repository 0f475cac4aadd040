#include "gui/records/open_folder.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/digest.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

constexpr int kFolder = O_RDONLY | O_DIRECTORY | O_NONBLOCK | O_CLOEXEC;

[[noreturn]] void refuse(const fs::path& shown)
{
    const bool other = errno == ENOTDIR || errno == ELOOP;
    throw InputError(shown.string(), other ? "is no folder" : std::strerror(errno), "a folder that can be read");
}

/// The folder that a name with slashes leads through, step by step; the last step is left over.
struct Step {
    std::shared_ptr<const Descriptor> folder;
    std::string name;
};

Step last_step(std::shared_ptr<const Descriptor> folder, const std::string& name)
{
    auto rest = name;
    for (auto slash = rest.find('/'); slash != std::string::npos && folder->number() >= 0; slash = rest.find('/')) {
        const auto step = rest.substr(0, slash);
        errno = ENOTDIR;
        folder = std::make_shared<const Descriptor>(
            step == ".." ? -1 : ::openat(folder->number(), step.c_str(), kFolder | O_NOFOLLOW));
        rest.erase(0, slash + 1);
    }
    return {std::move(folder), std::move(rest)};
}

} // namespace

OpenFolder::OpenFolder(fs::path path, Descriptor folder)
    : path_(std::move(path)), folder_(std::make_shared<const Descriptor>(std::move(folder)))
{
}

OpenFolder OpenFolder::at(const fs::path& folder)
{
    Descriptor opened(::open(folder.empty() ? "." : folder.c_str(), kFolder));
    if (opened.number() < 0) {
        refuse(folder);
    }
    return {folder, std::move(opened)};
}

std::optional<OpenFolder> OpenFolder::folder_if_any(const std::string& name) const
{
    const auto step = last_step(folder_, name);
    Descriptor opened(step.folder->number() < 0 || step.name == ".."
                          ? -1
                          : ::openat(step.folder->number(), step.name.c_str(), kFolder | O_NOFOLLOW));
    if (opened.number() < 0) {
        return std::nullopt;
    }
    return OpenFolder(shown(name), std::move(opened));
}

OpenFolder OpenFolder::folder(const std::string& name) const
{
    errno = ENOTDIR;
    auto opened = folder_if_any(name);
    if (!opened) {
        refuse(shown(name));
    }
    return *opened;
}

OpenFolder::Kind OpenFolder::kind(const std::string& name) const
{
    const auto step = last_step(folder_, name);
    struct stat state {};
    if (step.folder->number() < 0 ||
        ::fstatat(step.folder->number(), step.name.c_str(), &state, AT_SYMLINK_NOFOLLOW) != 0) {
        return Kind::none;
    }
    return S_ISREG(state.st_mode) ? Kind::file : S_ISDIR(state.st_mode) ? Kind::folder : Kind::other;
}

std::vector<std::string> OpenFolder::names() const
{
    const int again = ::openat(descriptor(), ".", kFolder);
    const std::unique_ptr<DIR, int (*)(DIR*)> stream(again < 0 ? nullptr : ::fdopendir(again), &::closedir);
    if (!stream) {
        refuse(path_);
    }
    std::vector<std::string> names;
    errno = 0;
    while (const auto* entry = ::readdir(stream.get())) {
        const std::string name = entry->d_name;
        if (name != "." && name != "..") {
            names.push_back(name);
        }
    }
    if (errno != 0) {
        refuse(path_);
    }
    std::sort(names.begin(), names.end());
    return names;
}

Descriptor OpenFolder::open(const std::string& name) const
{
    const auto step = last_step(folder_, name);
    if (step.folder->number() < 0) {
        refuse(shown(name));
    }
    return open_regular(step.folder->number(), step.name, Links::refused, shown(name));
}

std::string OpenFolder::read(const std::string& name, std::size_t largest) const
{
    return read_all(open(name), shown(name), largest);
}

nlohmann::json OpenFolder::json(const std::string& name) const
{
    const auto text = read(name);
    return reading(shown(name), [&] { return parse_json(text); });
}

std::string OpenFolder::sha256(const std::string& name) const { return sha256_of(open(name), shown(name)); }

OpenFolder OpenFolder::make_folder(const std::string& name) const
{
    if (::mkdirat(descriptor(), name.c_str(), 0777) != 0) {
        throw InputError(shown(name).string(), std::string("cannot be created: ") + std::strerror(errno),
                         "a place that can be written");
    }
    return folder(name);
}

void OpenFolder::put(const std::string& name, std::string_view text) const
{
    write_whole(descriptor(), name, text, shown(name));
}

} // namespace zeroline::records
