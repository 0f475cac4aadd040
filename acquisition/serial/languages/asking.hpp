#pragma once

#include <cstdint>
#include <deque>
#include <optional>

namespace zeroline::serial {

/// When a polled instrument is asked, how long its answer is waited for, and at which moment its reading was taken.
/// Moments in seconds from any one origin; no clock of its own.
class Asking {
public:
    struct Plan {
        double period_s = 0.0;        ///< from request to request; 0: as soon as the last one is answered
        double timeout_s = 0.5;       ///< from the end of a request to the end of its answer
        int retries = 2;              ///< how often a request is repeated before its reading is given up
        double silence_s = 0.0;       ///< kept on the line before each request
        double request_s = 0.0;       ///< a request's time on the wire
        std::size_t most_waiting = 1; ///< requests under way at a time
    };

    explicit Asking(Plan plan) : plan_(plan) {}

    /// The line was opened: nothing is under way, and a request is due at once.
    void restart();

    /// True where a request may be sent now.
    [[nodiscard]] bool due(double now_s) const;
    /// A request is sent now; `counts` is false for one that is outside the rhythm of readings.
    void ask(double now_s, bool counts = true);

    /// True where the answer to the oldest request has not come in time.
    [[nodiscard]] bool overdue(double now_s) const;
    /// Gives up what is under way. True where the request is to be repeated, false where its reading is lost.
    bool give_up(double now_s);

    /// An answer is complete: the mid-time of its request and of now. Nothing where nobody asked.
    std::optional<double> answered(double arrival_s);
    /// The latest answer was sound: so long they take.
    void trust();
    /// What came was no answer: the true one may be on its way still, and is let pass before the next request, or every
    /// answer from here on would be taken for the next one's. Waits twice as long as sound answers took lately.
    void distrust(double now_s);
    /// Bytes came: from now on counts the silence.
    void heard(double arrival_s) { last_heard_s_ = arrival_s; }

    /// When due() or overdue() may become true.
    [[nodiscard]] double next_s() const;
    /// When the oldest request under way has waited long enough; meant while waiting().
    [[nodiscard]] double overdue_s() const;
    [[nodiscard]] bool waiting() const { return !asked_s_.empty(); }
    /// Requests that were not answered in time, in all.
    [[nodiscard]] std::uint64_t unanswered() const { return unanswered_; }

private:
    [[nodiscard]] double due_s() const;

    Plan plan_;
    std::deque<double> asked_s_;
    double next_reading_s_ = 0.0;
    double last_heard_s_ = 0.0;
    double quiet_until_s_ = 0.0;
    bool began_ = false;
    bool an_answer_may_come_late_ = false;
    double latest_delay_s_ = 0.0;
    std::optional<double> usual_delay_s_;
    int tries_ = 0;
    std::uint64_t unanswered_ = 0;
};

} // namespace zeroline::serial
