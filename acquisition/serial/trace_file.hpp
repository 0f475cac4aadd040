#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>

namespace zeroline::serial {

/// Told of what stands in a trace file. Empty functions: nobody is told.
struct TraceWitness {
    /// Every byte, in order, header too, as soon as it is written; by the thread that writes. One sentence of trouble,
    /// which ends the capture, or nothing.
    std::function<std::string(std::string_view bytes)> wrote;
    std::function<void()> synced; ///< whatever was written is on the disk now; by the thread that syncs
};

/// A trace file that grows while it is captured.
///
/// append() only copies into memory: a thread of its own writes every kWriteEvery, another one syncs to disk every
/// kSyncEvery. So kill -9 loses what arrived within kWriteEvery and a little, a power cut a second more, and a slow
/// disk delays nobody. append(), trouble() and close() belong to one thread.
class TraceFile {
public:
    static constexpr std::chrono::milliseconds kWriteEvery{50};
    static constexpr std::chrono::milliseconds kSyncEvery{1000};
    static constexpr std::size_t kMostUnwritten = std::size_t{256} << 20;

    /// Creates the file and writes `header`. Throws trace::InputError where it cannot, or where a file with content
    /// stands there already.
    TraceFile(const std::filesystem::path& file, std::string_view header, TraceWitness witness = {});
    ~TraceFile();
    TraceFile(const TraceFile&) = delete;
    TraceFile& operator=(const TraceFile&) = delete;

    /// Whole rows, each with its line end. After trouble rows are dropped.
    void append(std::string_view rows);

    /// One sentence once writing has failed, else empty. The file then ends with the last row written whole.
    [[nodiscard]] std::string trouble() const;

    /// Writes what is left, syncs and closes. Idempotent.
    void close();

private:
    void write_in_turns();
    void write_all(std::string_view rows);
    void end_with_whole_row(std::string_view rows, std::size_t written);
    void tell(std::string_view rows);
    void sync_in_turns();
    void sync_once();
    void fail(std::string trouble);

    std::string name_;
    TraceWitness witness_;
    int descriptor_ = -1;
    std::uint64_t size_ = 0; ///< bytes written; the writing thread's

    mutable std::mutex mutex_;
    std::condition_variable rows_came_;
    std::condition_variable ending_now_;
    std::string unwritten_;
    std::string trouble_;
    bool ending_ = false;
    bool unsynced_ = false;

    std::thread writer_;
    std::thread syncer_;
};

} // namespace zeroline::serial
