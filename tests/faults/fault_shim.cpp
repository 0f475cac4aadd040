// Stands between a program and the C library (LD_PRELOAD) and lets one call go wrong, the n-th of its kind that
// concerns a folder. Nothing of the program is changed for it.
//
// ZEROLINE_FAULT_UNDER   the folder; calls on files elsewhere are neither counted nor touched
// ZEROLINE_FAULT         CALL:N:WHAT, such as write:3:ENOSPC; CALL is write, read, sync, open, rename, mkdir, unlink,
//                        lock or any;
//                        WHAT is an error's name, short (half is written), kill (the process dies there, before the
//                        call); with a + behind it, that call and all after it (a disk that stays full)
// ZEROLINE_FAULT_COUNTS  file to which "CALL NUMBER" lines are appended when the program ends, for all kinds

#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <string_view>

#include <array>
#include <atomic>
#include <climits>
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

namespace {

enum Call { kWrite, kRead, kSync, kOpen, kRename, kMkdir, kUnlink, kLock, kAny, kCalls };
constexpr std::array<std::string_view, kCalls> kNames{"write", "read",   "sync", "open", "rename",
                                                      "mkdir", "unlink", "lock", "any"};

struct Error {
    std::string_view name;
    int number;
};
constexpr std::array<Error, 8> kErrors{{{"ENOSPC", ENOSPC},
                                        {"EIO", EIO},
                                        {"EINTR", EINTR},
                                        {"EMFILE", EMFILE},
                                        {"EACCES", EACCES},
                                        {"EDQUOT", EDQUOT},
                                        {"EROFS", EROFS},
                                        {"ENOLCK", ENOLCK}}};

struct Fault {
    Call call = kCalls;
    long at = 0;
    bool and_after = false;
    int error = 0; // 0: short or kill
    bool cut = false;
    bool kill = false;
};

Fault fault_from(const char* text)
{
    Fault fault;
    if (text == nullptr) {
        return fault;
    }
    const std::string_view all(text);
    const auto first = all.find(':');
    const auto second = all.find(':', first + 1);
    const auto call = all.substr(0, first);
    auto what = all.substr(second + 1);
    fault.at = std::atol(std::string(all.substr(first + 1, second - first - 1)).c_str());
    if (what.ends_with('+')) {
        fault.and_after = true;
        what.remove_suffix(1);
    }
    for (std::size_t i = 0; i < kNames.size(); ++i) {
        fault.call = kNames[i] == call ? static_cast<Call>(i) : fault.call;
    }
    for (const auto& error : kErrors) {
        fault.error = error.name == what ? error.number : fault.error;
    }
    fault.cut = what == "short";
    fault.kill = what == "kill";
    return fault;
}

// Constructed before main() and never destroyed: calls come from static destructors too.
struct State {
    std::string under;
    Fault fault;
    std::array<std::atomic<long>, kCalls> counted{};
};

State& state()
{
    static auto* const the_one = [] {
        auto* made = new State;
        const char* under = std::getenv("ZEROLINE_FAULT_UNDER");
        made->under = under == nullptr ? "" : under;
        made->fault = fault_from(std::getenv("ZEROLINE_FAULT"));
        return made;
    }();
    return *the_one;
}

bool is_under(std::string_view path)
{
    const auto& under = state().under;
    return !under.empty() && path.starts_with(under) && (path.size() == under.size() || path[under.size()] == '/');
}

std::string target_of(const std::string& link)
{
    std::array<char, PATH_MAX> target{};
    const auto length = ::readlink(link.c_str(), target.data(), target.size());
    return length < 0 ? std::string() : std::string(target.data(), static_cast<std::size_t>(length));
}

bool concerns(int descriptor) { return is_under(target_of("/proc/self/fd/" + std::to_string(descriptor))); }

bool concerns(int folder, const char* path)
{
    if (path == nullptr) {
        return false;
    }
    if (*path == '/') {
        return is_under(path);
    }
    const auto base = target_of(folder == AT_FDCWD ? "/proc/self/cwd" : "/proc/self/fd/" + std::to_string(folder));
    return is_under(base + "/" + path);
}

bool hits(Call call, long number)
{
    const auto& fault = state().fault;
    return fault.call == call && (number == fault.at || (fault.and_after && number > fault.at));
}

enum class Course { usual, fails, cut };

/// Counts a call; whether it goes its usual way. Sets errno where it fails.
Course course_of(Call call)
{
    const bool one = hits(call, ++state().counted[call]);
    const bool any = hits(kAny, ++state().counted[kAny]);
    if (!one && !any) {
        return Course::usual;
    }
    const auto& fault = state().fault;
    if (fault.kill) {
        ::kill(::getpid(), SIGKILL);
    }
    if (fault.error != 0) {
        errno = fault.error;
        return Course::fails;
    }
    return fault.cut ? Course::cut : Course::usual;
}

template <typename Function> Function real(const char* name)
{
    return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name));
}

struct Report {
    ~Report()
    {
        const char* file = std::getenv("ZEROLINE_FAULT_COUNTS");
        if (file == nullptr) {
            return;
        }
        std::string text;
        for (std::size_t i = 0; i < kNames.size(); ++i) {
            text += std::string(kNames[i]) + " " + std::to_string(state().counted[i].load()) + "\n";
        }
        const int out = real<int (*)(const char*, int, ...)>("open")(file, O_WRONLY | O_CREAT | O_APPEND, 0666);
        if (out >= 0 && real<ssize_t (*)(int, const void*, size_t)>("write")(out, text.data(), text.size()) > 0) {
            ::close(out);
        }
    }
};
const Report at_the_end;

mode_t mode_of(int flags, va_list more)
{
    const bool given = (flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE;
    return given ? static_cast<mode_t>(va_arg(more, int)) : 0;
}

int open_at(int folder, const char* path, int flags, mode_t mode)
{
    if (concerns(folder, path) && course_of(kOpen) == Course::fails) {
        return -1;
    }
    static const auto usual = real<int (*)(int, const char*, int, ...)>("openat");
    return usual(folder, path, flags, mode);
}

std::FILE* open_stream(const char* name, const char* path, const char* mode)
{
    if (concerns(AT_FDCWD, path) && course_of(kOpen) == Course::fails) {
        return nullptr;
    }
    return real<std::FILE* (*)(const char*, const char*)>(name)(path, mode);
}

int make_temporary(const char* name, char* pattern, int flags)
{
    if (concerns(AT_FDCWD, pattern) && course_of(kOpen) == Course::fails) {
        return -1;
    }
    return real<int (*)(char*, int)>(name)(pattern, flags);
}

int sync(const char* name, int descriptor)
{
    if (concerns(descriptor) && course_of(kSync) == Course::fails) {
        return -1;
    }
    return real<int (*)(int)>(name)(descriptor);
}

} // namespace

extern "C" {

ssize_t write(int descriptor, const void* bytes, size_t size)
{
    static const auto usual = real<ssize_t (*)(int, const void*, size_t)>("write");
    const auto course = concerns(descriptor) ? course_of(kWrite) : Course::usual;
    return course == Course::fails ? -1 : usual(descriptor, bytes, course == Course::cut ? (size + 1) / 2 : size);
}

ssize_t writev(int descriptor, const iovec* parts, int count)
{
    static const auto usual = real<ssize_t (*)(int, const iovec*, int)>("writev");
    const auto course = concerns(descriptor) ? course_of(kWrite) : Course::usual;
    return course == Course::fails ? -1 : usual(descriptor, parts, course == Course::cut ? 1 : count);
}

ssize_t read(int descriptor, void* bytes, size_t size)
{
    static const auto usual = real<ssize_t (*)(int, void*, size_t)>("read");
    const auto course = concerns(descriptor) ? course_of(kRead) : Course::usual;
    return course == Course::fails ? -1 : usual(descriptor, bytes, course == Course::cut ? (size + 1) / 2 : size);
}

int flock(int descriptor, int operation) noexcept
{
    return concerns(descriptor) && course_of(kLock) == Course::fails
               ? -1
               : real<int (*)(int, int)>("flock")(descriptor, operation);
}

int fsync(int descriptor) { return sync("fsync", descriptor); }
int fdatasync(int descriptor) { return sync("fdatasync", descriptor); }

int open(const char* path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const auto mode = mode_of(flags, more);
    va_end(more);
    return open_at(AT_FDCWD, path, flags, mode);
}

int open64(const char* path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const auto mode = mode_of(flags, more);
    va_end(more);
    return open_at(AT_FDCWD, path, flags, mode);
}

int openat(int folder, const char* path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const auto mode = mode_of(flags, more);
    va_end(more);
    return open_at(folder, path, flags, mode);
}

int openat64(int folder, const char* path, int flags, ...)
{
    va_list more;
    va_start(more, flags);
    const auto mode = mode_of(flags, more);
    va_end(more);
    return open_at(folder, path, flags, mode);
}

std::FILE* fopen(const char* path, const char* mode) { return open_stream("fopen", path, mode); }
std::FILE* fopen64(const char* path, const char* mode) { return open_stream("fopen64", path, mode); }

int mkostemp(char* pattern, int flags) { return make_temporary("mkostemp", pattern, flags); }
int mkostemp64(char* pattern, int flags) { return make_temporary("mkostemp64", pattern, flags); }

int rename(const char* from, const char* to)
{
    const bool ours = concerns(AT_FDCWD, from) || concerns(AT_FDCWD, to);
    return ours && course_of(kRename) == Course::fails ? -1
                                                       : real<int (*)(const char*, const char*)>("rename")(from, to);
}

int renameat(int from_folder, const char* from, int to_folder, const char* to)
{
    const bool ours = concerns(from_folder, from) || concerns(to_folder, to);
    return ours && course_of(kRename) == Course::fails
               ? -1
               : real<int (*)(int, const char*, int, const char*)>("renameat")(from_folder, from, to_folder, to);
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags)
{
    const bool ours = concerns(from_folder, from) || concerns(to_folder, to);
    return ours && course_of(kRename) == Course::fails ? -1
                                                       : real<int (*)(int, const char*, int, const char*, unsigned)>(
                                                             "renameat2")(from_folder, from, to_folder, to, flags);
}

int mkdir(const char* path, mode_t mode)
{
    return concerns(AT_FDCWD, path) && course_of(kMkdir) == Course::fails
               ? -1
               : real<int (*)(const char*, mode_t)>("mkdir")(path, mode);
}

int mkdirat(int folder, const char* path, mode_t mode)
{
    return concerns(folder, path) && course_of(kMkdir) == Course::fails
               ? -1
               : real<int (*)(int, const char*, mode_t)>("mkdirat")(folder, path, mode);
}

int unlink(const char* path)
{
    return concerns(AT_FDCWD, path) && course_of(kUnlink) == Course::fails ? -1
                                                                           : real<int (*)(const char*)>("unlink")(path);
}

int unlinkat(int folder, const char* path, int flags)
{
    return concerns(folder, path) && course_of(kUnlink) == Course::fails
               ? -1
               : real<int (*)(int, const char*, int)>("unlinkat")(folder, path, flags);
}

} // extern "C"
