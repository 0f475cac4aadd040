#include "acquisition/serial/trace_file.hpp"

#include "acquisition/serial/line_errors.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace zeroline::serial {

namespace {

// The name must outlive a power cut as well as the rows do.
void sync_folder_of(const std::string& file)
{
    const auto folder = std::filesystem::absolute(file).parent_path();
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor >= 0) {
        ::fsync(descriptor);
        ::close(descriptor);
    }
}

void remove_if_regular(const std::string& file)
{
    std::error_code ignored;
    if (std::filesystem::is_regular_file(file, ignored)) {
        std::filesystem::remove(file, ignored);
    }
}

int create(const std::string& file)
{
    const int descriptor = ::open(file.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
    if (descriptor < 0) {
        throw cannot_create_trace(file, errno);
    }
    struct stat status = {};
    if (::fstat(descriptor, &status) == 0 && status.st_size > 0) {
        ::close(descriptor);
        throw trace_file_not_empty(file);
    }
    return descriptor;
}

} // namespace

TraceFile::TraceFile(const std::filesystem::path& file, std::string_view header, TraceWitness witness)
    : name_(file.string()), witness_(std::move(witness)), descriptor_(create(name_))
{
    write_all(header);
    if (!trouble_.empty()) {
        const int error_number = errno;
        ::close(descriptor_);
        remove_if_regular(name_);
        throw cannot_create_trace(name_, error_number);
    }
    writer_ = std::thread([this] { write_in_turns(); });
    syncer_ = std::thread([this] { sync_in_turns(); });
}

TraceFile::~TraceFile() { close(); }

void TraceFile::append(std::string_view rows)
{
    const std::lock_guard lock(mutex_);
    if (!trouble_.empty() || ending_) {
        return;
    }
    if (unwritten_.size() + rows.size() > kMostUnwritten) {
        trouble_ = disk_too_slow(name_);
        return;
    }
    const bool was_empty = unwritten_.empty();
    unwritten_ += rows;
    if (was_empty) {
        rows_came_.notify_one();
    }
}

std::string TraceFile::trouble() const
{
    const std::lock_guard lock(mutex_);
    return trouble_;
}

void TraceFile::close()
{
    if (descriptor_ < 0) {
        return;
    }
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    rows_came_.notify_all();
    ending_now_.notify_all();
    writer_.join();
    syncer_.join();
    sync_once();
    ::close(descriptor_);
    descriptor_ = -1;
}

void TraceFile::write_in_turns()
{
    std::string rows;
    std::unique_lock lock(mutex_);
    while (true) {
        rows_came_.wait(lock, [this] { return ending_ || !unwritten_.empty(); });
        ending_now_.wait_for(lock, kWriteEvery, [this] { return ending_; });
        const bool last = ending_;
        if (!trouble_.empty()) {
            unwritten_.clear(); // rows after a hole nobody wrote down would look like a whole trace
        }
        rows.clear();
        std::swap(rows, unwritten_);
        lock.unlock();
        write_all(rows);
        lock.lock();
        if (last) {
            return;
        }
    }
}

void TraceFile::write_all(std::string_view rows)
{
    std::size_t written = 0;
    while (written < rows.size()) {
        const ssize_t bytes = ::write(descriptor_, rows.data() + written, rows.size() - written);
        if (bytes < 0 && errno == EINTR) {
            continue;
        }
        if (bytes <= 0) {
            const int error_number = bytes < 0 ? errno : ENOSPC;
            end_with_whole_row(rows, written);
            fail(cannot_write_trace(name_, error_number));
            errno = error_number;
            return;
        }
        written += static_cast<std::size_t>(bytes);
    }
    size_ += written;
    tell(rows);
    const std::lock_guard lock(mutex_);
    unsynced_ = unsynced_ || written > 0;
}

void TraceFile::tell(std::string_view rows)
{
    if (rows.empty() || !witness_.wrote) {
        return;
    }
    if (auto said = witness_.wrote(rows); !said.empty()) {
        fail(std::move(said));
    }
}

void TraceFile::end_with_whole_row(std::string_view rows, std::size_t written)
{
    const auto end = rows.substr(0, written).rfind('\n');
    const auto whole = end == std::string_view::npos ? 0 : end + 1;
    size_ += whole;
    tell(rows.substr(0, whole));
    if (written > 0 && ::ftruncate(descriptor_, static_cast<off_t>(size_)) != 0) {
        return; // a cut last row is dropped on loading
    }
}

void TraceFile::sync_in_turns()
{
    sync_folder_of(name_);
    std::unique_lock lock(mutex_);
    while (!ending_now_.wait_for(lock, kSyncEvery, [this] { return ending_; })) {
        lock.unlock();
        sync_once();
        lock.lock();
    }
}

void TraceFile::sync_once()
{
    {
        const std::lock_guard lock(mutex_);
        if (!std::exchange(unsynced_, false)) {
            return;
        }
    }
    // A file that cannot be synced (a pipe, a device) is no trouble: it was never promised to outlive a power cut.
    if (::fdatasync(descriptor_) != 0 && errno != EINVAL && errno != EROFS) {
        fail(cannot_write_trace(name_, errno));
    } else if (witness_.synced) {
        witness_.synced();
    }
}

void TraceFile::fail(std::string trouble)
{
    const std::lock_guard lock(mutex_);
    if (trouble_.empty()) {
        trouble_ = std::move(trouble);
    }
}

} // namespace zeroline::serial
