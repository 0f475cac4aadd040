#pragma once

#include "acquisition/serial/capture.hpp"
#include "acquisition/serial/port_list.hpp"
#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/sample_clock.hpp"

#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

/// A sample as it is shown while it comes in. Its time is provisional: the final clock is fitted when the trace is
/// closed.
struct LiveSample {
    double time_s = 0.0; ///< on the trace's own axis; strictly increasing
    double pressure_cmH2O = 0.0;
};

/// Turns readings into live samples, one after the other, and keeps the readings for a provisional assessment.
///
/// Not bound to a port, so that a run can be played without one. One thread.
class LiveSamples {
public:
    explicit LiveSamples(const trace::Instrument& instrument);

    /// The sample of a reading; none for an event or a reading without a value.
    std::optional<LiveSample> push(const serial::Reading& reading);

    /// Every reading so far as the trace file will have it.
    [[nodiscard]] const trace::RawTrace& raw() const noexcept { return raw_; }

private:
    double time_of(const serial::Reading& reading);

    trace::Language language_;
    double nominal_hz_;
    trace::Correction correction_;
    trace::LiveClock clock_;
    std::int64_t last_count_ = -1;
    double last_s_;
    trace::RawTrace raw_;
};

/// The line as the screen needs it: a capture, its live samples, and one sentence on how it goes.
///
/// start(), stop() and pull() from one thread; the capture's own I/O thread never waits for it.
class LiveFeed {
public:
    explicit LiveFeed(serial::CaptureSettings settings);

    void start(); ///< Throws trace::InputError where port or file cannot be opened.
    void stop();  ///< Idempotent.

    /// What one pull() brought.
    struct Batch {
        std::vector<LiveSample> samples;
        bool lost = false; ///< the line went away in this batch
        bool back = false; ///< it came back in this batch
    };
    [[nodiscard]] Batch pull();

    [[nodiscard]] serial::LineState state() const { return capture_.state(); }
    [[nodiscard]] std::string sentence() const { return capture_.message(); } ///< empty while all is well
    [[nodiscard]] serial::Counters counters() const { return capture_.counters(); }
    [[nodiscard]] std::string identity() const { return capture_.identity(); } ///< what a queried instrument says it is
    [[nodiscard]] bool simulated() const { return capture_.is_pseudo_terminal(); }
    [[nodiscard]] const trace::RawTrace& raw() const noexcept { return samples_.raw(); }

private:
    serial::Capture capture_;
    LiveSamples samples_;
    std::vector<serial::Reading> block_;
};

/// A port offered to a person.
struct OfferedPort {
    std::string path;
    std::string description;
};
[[nodiscard]] std::vector<OfferedPort> offered_ports();

} // namespace zeroline::session
