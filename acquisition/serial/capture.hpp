#pragma once

#include "acquisition/serial/reading.hpp"
#include "acquisition/serial/trace_file.hpp"
#include "acquisition/trace/instrument.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>

namespace zeroline::serial {

struct CaptureSettings {
    std::string port; ///< device path
    trace::Instrument instrument;
    std::optional<std::filesystem::path> file; ///< trace file to append to; none: nothing is saved
    TraceWitness witness;                      ///< told of what stands in that file
    double wait_s = 60.0;                      ///< how long a lost instrument is waited for
    double silence_s = 2.0;                    ///< no reading for so long: the state says so
};

/// Counts that belong into a record and on the screen.
struct Counters {
    std::uint64_t readings = 0;      ///< with a value
    std::uint64_t without_value = 0; ///< overrange, not-a-number, checksum
    std::uint64_t bytes = 0;
    std::uint64_t discarded_bytes = 0;    ///< damaged or foreign; not the halves of lines at opening and closing
    std::uint64_t damaged_characters = 0; ///< parity, framing and overrun errors that the driver counted
    std::uint64_t lost_readings = 0;      ///< by the instrument's count
    std::uint64_t counts_back = 0;        ///< times the instrument's count ran back, other than round its end
    std::uint64_t unanswered = 0;         ///< requests of a polled language that got no answer in time
    std::uint64_t not_displayed = 0;      ///< readings the display's queue could not take (the file has them)
};

enum class LineState { opening, running, silent, lost, ended, failed };

/// The chain from the wire to the trace file: opens the port, decodes, stamps, writes, hands readings over.
///
/// One I/O thread of its own. start(), stop() and pull() belong to one other thread (the consumer); the others
/// may be called from any. The I/O thread never waits for the consumer or for the disk's sync.
class Capture {
public:
    explicit Capture(CaptureSettings settings);
    ~Capture();
    Capture(const Capture&) = delete;
    Capture& operator=(const Capture&) = delete;

    /// Opens port and file. Throws trace::InputError where either cannot be opened (port path in `where`).
    void start();
    /// Sends the instrument's stop text, closes the port, flushes and syncs the file. Idempotent.
    void stop();

    /// Takes up to out.size() readings from the queue; returns how many.
    std::size_t pull(std::span<Reading> out);

    [[nodiscard]] LineState state() const;
    /// One sentence on the last trouble: what was tried, what came, what to do. Empty while all is well.
    [[nodiscard]] std::string message() const;
    [[nodiscard]] Counters counters() const;
    /// What the instrument says it is, where its language can ask; empty otherwise or until it has answered.
    [[nodiscard]] std::string identity() const;
    /// True where the port is a pseudo-terminal (a simulated instrument).
    [[nodiscard]] bool is_pseudo_terminal() const;

private:
    class Chain;
    std::unique_ptr<Chain> chain_;
};

/// True if `path` names a pseudo-terminal (links followed). False for anything else, also for what does not exist.
[[nodiscard]] bool is_pseudo_terminal(const std::string& path);

} // namespace zeroline::serial
