#include "gui/records/folder_hold.hpp"

#include "acquisition/trace/input_error.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <string>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace zeroline::records {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

/// "zeroline verify", of a program that runs; without its options, which may say more than another person should see.
std::string command_of(const std::string& process)
{
    std::ifstream in("/proc/" + process + "/cmdline", std::ios::binary);
    std::string program, command;
    std::getline(in, program, '\0');
    std::getline(in, command, '\0');
    const auto name = fs::path(program).filename().string();
    return command.empty() || command.starts_with('-') || command.find('/') != std::string::npos ? name
                                                                                                 : name + " " + command;
}

/// The process that holds a lock on the file with this number, by the system's list; empty where it does not tell.
std::string holder_of(ino_t number)
{
    std::ifstream locks("/proc/locks");
    for (std::string line; std::getline(locks, line);) {
        std::istringstream words(line);
        std::string ordinal, kind, advisory, mode, process, place;
        words >> ordinal >> kind >> advisory >> mode >> process >> place;
        const auto colon = place.rfind(':');
        if (kind == "FLOCK" && colon != std::string::npos && place.substr(colon + 1) == std::to_string(number)) {
            return process;
        }
    }
    return {};
}

[[noreturn]] void refuse_held(const fs::path& folder, ino_t number)
{
    const auto process = holder_of(number);
    const auto command = process.empty() ? std::string() : command_of(process);
    throw InputError(folder.string(),
                     process.empty()
                         ? "another program works in it"
                         : "process " + process + (command.empty() ? "" : " (" + command + ")") + " works in it",
                     "a folder that nobody else works in; wait until that is done");
}

bool is_at(const fs::path& folder, const struct stat& held)
{
    struct stat there {};
    return ::stat(folder.empty() ? "." : folder.c_str(), &there) == 0 && there.st_ino == held.st_ino &&
           there.st_dev == held.st_dev;
}

std::shared_ptr<const int> opened(const fs::path& folder)
{
    const int descriptor = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) {
        throw InputError(folder.string(), std::strerror(errno), "a folder that can be read");
    }
    return {new int(descriptor), [](const int* held) {
                ::close(*held);
                delete held;
            }};
}

} // namespace

FolderHold::FolderHold(const fs::path& folder) : descriptor_(opened(folder))
{
    struct stat held {};
    static_cast<void>(::fstat(*descriptor_, &held));
    if (::flock(*descriptor_, LOCK_EX | LOCK_NB) != 0) {
        if (errno == EWOULDBLOCK) {
            refuse_held(folder, held.st_ino);
        }
        throw InputError(folder.string(), "cannot be locked: " + std::string(std::strerror(errno)),
                         "a folder of a file system that can, such as one on this computer's own disk");
    }
    // Between opening and locking, another program may have finished it and renamed it.
    if (!is_at(folder, held)) {
        throw InputError(folder.string(), "another program has just renamed or replaced it", "the folder as it is now");
    }
}

void FolderHold::release() const noexcept { static_cast<void>(::flock(*descriptor_, LOCK_UN)); }

} // namespace zeroline::records
