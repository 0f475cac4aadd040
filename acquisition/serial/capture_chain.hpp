#pragma once

#include "acquisition/serial/asio.hpp"
#include "acquisition/serial/capture.hpp"
#include "acquisition/serial/capture_status.hpp"
#include "acquisition/serial/languages/decoder.hpp"
#include "acquisition/serial/line_errors.hpp"
#include "acquisition/serial/serial_link.hpp"
#include "acquisition/serial/trace_file.hpp"
#include "acquisition/serial/way_back.hpp"
#include "acquisition/trace/trace_csv.hpp"

#include <boost/lockfree/spsc_queue.hpp>

#include <chrono>
#include <memory>
#include <optional>
#include <string_view>
#include <thread>
#include <vector>

namespace zeroline::serial {

/// What Capture is made of: port, decoder, file and queue on one I/O thread. All private functions run on that thread
/// (before it is started, on the one that starts it).
class Capture::Chain {
public:
    /// Readings the display may be behind: six seconds at 10,000 a second.
    static constexpr std::size_t kQueue = 65536;

    explicit Chain(CaptureSettings settings);

    void start();
    void stop();
    std::size_t pull(std::span<Reading> out) { return queue_.pop(out.data(), out.size()); }

    [[nodiscard]] LineState state() const { return status_.state(); }
    [[nodiscard]] std::string message() const { return status_.message(); }
    [[nodiscard]] std::string identity() const { return status_.identity(); }
    [[nodiscard]] Counters counters() const { return status_.counters(); }
    [[nodiscard]] bool is_pseudo_terminal() const { return pseudo_terminal_; }

private:
    using Clock = std::chrono::steady_clock;

    [[nodiscard]] double now_s() const;
    void run();
    void begin_line();
    void begin_talk();
    void take(std::string_view bytes);
    void talk();
    void decode(std::string_view bytes, double now);
    void restart_decoder();
    void excuse_the_tail();
    void publish_counts();
    void hand_over(const Reading& reading);
    void add_row(const Reading& reading);
    void add_row(const Reading& reading, std::string_view note);
    void note_discarded();
    void note_damaged();
    void count_damaged();
    void note_trouble(std::string_view note);
    void note_event(trace::NoteKind kind);
    void save_rows();
    void tick_after_a_while();
    void tick();
    void watch_silence(double now);
    [[nodiscard]] std::string silence_in_words();
    void lose_line();
    void look_for_instrument(double now);
    void end(LineState state, std::string message);
    void close_when_sent(Clock::time_point deadline);
    void close_line();

    CaptureSettings settings_;
    LineWords words_;
    bool pseudo_terminal_ = false;
    trace::TraceCsvWriter csv_;
    std::unique_ptr<Decoder> decoder_;
    CaptureStatus status_;
    boost::lockfree::spsc_queue<Reading> queue_{kQueue};
    std::optional<TraceFile> file_;
    std::optional<WayBack> way_back_;

    boost::asio::io_context io_;
    SerialLink link_{io_};
    boost::asio::steady_timer tick_timer_{io_};
    boost::asio::steady_timer settle_timer_{io_};
    boost::asio::steady_timer talk_timer_{io_};
    std::thread thread_;
    Clock::time_point began_;

    std::vector<Reading> readings_; ///< of the bytes at hand
    std::string rows_;
    bool settling_ = false;
    bool ended_ = false;
    double last_reading_s_ = 0.0;
    std::uint64_t bytes_at_last_reading_ = 0;
    double last_row_s_ = 0.0;
    bool reading_since_opening_ = false;
    std::uint64_t noted_discarded_ = 0;
    std::uint64_t discarded_at_opening_ = 0;
    std::uint64_t undamaged_bytes_ = 0; ///< discarded by the decoder, though nobody damaged them
    std::uint64_t damaged_before_ = 0;  ///< characters, in earlier openings
    std::uint64_t damaged_ = 0;
    std::uint64_t noted_damaged_ = 0;
    double next_trouble_note_s_ = 0.0;
    double lost_at_s_ = 0.0;
    double next_look_s_ = 0.0;
    double refused_since_s_ = 0.0; ///< the port that may be the instrument's could not be opened
};

} // namespace zeroline::serial
