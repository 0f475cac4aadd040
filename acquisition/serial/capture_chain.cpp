#include "acquisition/serial/capture_chain.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>
#include <utility>

namespace zeroline::serial {

namespace {

namespace asio = boost::asio;
using trace::NoteKind;
using namespace std::chrono_literals;

constexpr auto kTick = 50ms;
constexpr auto kFarewell = 300ms; // for the stop text to reach the wire
constexpr auto kWakeMargin = 20us;
constexpr std::uint64_t kLongestTail = 256; // more before the first reading was no line
constexpr double kNoteEvery_s = 1.0;
constexpr double kLookEvery_s = 0.25;
constexpr double kStillRefused_s = 1.0;

trace::TraceCsvWriter::Columns columns_of(const trace::Language& language)
{
    trace::TraceCsvWriter::Columns columns;
    columns.from_arrivals = true;
    columns.unit = language.unit;
    columns.count = language.count_field.has_value();
    columns.instrument_time = language.time_field.has_value();
    columns.note = true;
    return columns;
}

Reading event_at(double moment_s, NoteKind kind)
{
    Reading event;
    event.arrival_s = moment_s;
    event.has_note = true;
    event.note = kind;
    return event;
}

bool counts_as_alive(const Reading& reading) { return !reading.has_note || reading.note != NoteKind::checksum; }

std::chrono::steady_clock::duration as_duration(double seconds)
{
    return std::chrono::duration_cast<std::chrono::steady_clock::duration>(std::chrono::duration<double>(seconds));
}

} // namespace

Capture::Chain::Chain(CaptureSettings settings)
    : settings_(std::move(settings)), words_{settings_.port, in_words(settings_.instrument.port)},
      pseudo_terminal_(serial::is_pseudo_terminal(settings_.port)), csv_(columns_of(settings_.instrument.language)),
      decoder_(decoder_for(settings_.instrument))
{
}

double Capture::Chain::now_s() const { return std::chrono::duration<double>(Clock::now() - began_).count(); }

void Capture::Chain::start()
{
    link_.open(settings_.port, settings_.instrument.port);
    way_back_.emplace(settings_.port);
    if (settings_.file) {
        try {
            file_.emplace(*settings_.file, csv_.header(), settings_.witness);
        } catch (...) {
            link_.close();
            throw;
        }
    }
    began_ = Clock::now();
    begin_line();
    tick_after_a_while();
    thread_ = std::thread([this] { run(); });
}

void Capture::Chain::run()
{
    try {
        io_.run();
    } catch (const std::exception& error) {
        status_.set(LineState::failed, std::string("the capture broke off: ") + error.what());
    }
}

void Capture::Chain::stop()
{
    if (!thread_.joinable()) {
        return;
    }
    asio::post(io_, [this] { end(LineState::ended, {}); });
    thread_.join();
    if (file_) {
        file_->close();
        if (const std::string trouble = file_->trouble(); !trouble.empty()) {
            status_.set(LineState::failed, trouble);
        }
    }
}

void Capture::Chain::begin_line()
{
    restart_decoder();
    discarded_at_opening_ = decoder_->discarded_bytes();
    reading_since_opening_ = false;
    link_.listen([this](std::string_view bytes) { take(bytes); }, [this] { lose_line(); });
    const double settle_s = settings_.instrument.port.settle_s;
    settling_ = settle_s > 0.0;
    if (!settling_) {
        begin_talk();
        return;
    }
    settle_timer_.expires_after(as_duration(settle_s));
    settle_timer_.async_wait([this](boost::system::error_code cancelled) {
        if (!cancelled) {
            begin_talk();
        }
    });
}

void Capture::Chain::begin_talk()
{
    settling_ = false;
    last_reading_s_ = now_s();
    bytes_at_last_reading_ = status_.counters().bytes;
    link_.send(settings_.instrument.port.start);
    talk();
}

void Capture::Chain::take(std::string_view bytes)
{
    const double now = now_s();
    status_.count_bytes(bytes.size());
    // What an instrument says while it starts up (a boot message, half a line) is neither read nor held against it.
    if (!settling_) {
        // One by one up to the first reading, so that it is known what stood before it.
        for (; !reading_since_opening_ && !bytes.empty(); bytes.remove_prefix(1)) {
            decode(bytes.substr(0, 1), now);
        }
        decode(bytes, now);
        save_rows();
        talk();
    }
    publish_counts();
}

void Capture::Chain::decode(std::string_view bytes, double now)
{
    readings_.clear();
    decoder_->feed(bytes, now, readings_);
    for (const Reading& reading : readings_) {
        hand_over(reading);
    }
}

/// An unfinished line that nobody damaged is given up here.
void Capture::Chain::restart_decoder()
{
    const std::uint64_t before = decoder_->discarded_bytes();
    decoder_->restart();
    undamaged_bytes_ += decoder_->discarded_bytes() - before;
}

/// Who begins to listen in the middle of a line hears its tail first: no loss, and nothing to look for.
void Capture::Chain::excuse_the_tail()
{
    const std::uint64_t tail = decoder_->discarded_bytes() - discarded_at_opening_;
    undamaged_bytes_ += tail <= kLongestTail ? tail : 0;
}

void Capture::Chain::publish_counts()
{
    status_.set_discarded(decoder_->discarded_bytes() - undamaged_bytes_);
    status_.set_unanswered(decoder_->unanswered());
}

void Capture::Chain::hand_over(const Reading& reading)
{
    status_.count_reading(reading);
    add_row(reading);
    if (!counts_as_alive(reading)) {
        return;
    }
    if (!std::exchange(reading_since_opening_, true)) {
        noted_discarded_ = decoder_->discarded_bytes();
        excuse_the_tail();
    }
    last_reading_s_ = reading.arrival_s;
    bytes_at_last_reading_ = status_.counters().bytes;
    if (status_.state() != LineState::running) {
        status_.set(LineState::running, {});
        status_.set_identity(decoder_->identity());
    }
}

void Capture::Chain::add_row(const Reading& reading)
{
    add_row(reading, reading.has_note ? trace::word_of(reading.note) : std::string_view());
}

void Capture::Chain::add_row(const Reading& reading, std::string_view note)
{
    last_row_s_ = std::max(last_row_s_, reading.arrival_s); // whoever reads the file refuses times that run back
    if (file_) {
        csv_.append_row(rows_, last_row_s_, reading.value, reading.count, reading.instrument_time_s, note);
    }
    if (!queue_.push(reading)) {
        status_.count_not_displayed();
    }
}

void Capture::Chain::note_event(NoteKind kind)
{
    add_row(event_at(now_s(), kind));
    save_rows();
}

// What was discarded before the first reading of an opening is the tail of a line, and no event.
void Capture::Chain::note_discarded()
{
    const std::uint64_t discarded = decoder_->discarded_bytes();
    if (!reading_since_opening_ || discarded == noted_discarded_) {
        return;
    }
    note_trouble("discarded " + std::to_string(discarded - noted_discarded_) + " bytes");
    noted_discarded_ = discarded;
}

void Capture::Chain::count_damaged()
{
    if (link_.is_open()) {
        damaged_ = damaged_before_ + link_.damaged_characters();
        status_.set_damaged(damaged_);
    }
}

// Like the above: a line that was never right is no event, it is told in the sentence on its silence.
void Capture::Chain::note_damaged()
{
    if (reading_since_opening_ && damaged_ > noted_damaged_) {
        note_trouble("damaged " + std::to_string(damaged_ - noted_damaged_) + " characters");
    }
    noted_damaged_ = damaged_;
}

void Capture::Chain::note_trouble(std::string_view note)
{
    // A polled reading carries the mid-time of its exchange, which may lie before now: rows stay in the order of time.
    const double at_s = settings_.instrument.language.polled() ? last_row_s_ : now_s();
    add_row(event_at(at_s, NoteKind::other), note);
    save_rows();
}

void Capture::Chain::save_rows()
{
    if (file_ && !rows_.empty()) {
        file_->append(rows_);
    }
    rows_.clear();
}

void Capture::Chain::talk()
{
    if (settling_ || !link_.is_open()) {
        return;
    }
    const double now = now_s();
    link_.send(decoder_->to_send(now));
    const double next = decoder_->next_s();
    if (!std::isfinite(next)) {
        return;
    }
    publish_counts();
    // The margin keeps rounding from waking the timer just before its time, over and over.
    talk_timer_.expires_after(as_duration(std::max(next - now, 0.0)) + kWakeMargin);
    talk_timer_.async_wait([this](boost::system::error_code cancelled) {
        if (!cancelled) {
            talk();
        }
    });
}

void Capture::Chain::tick_after_a_while()
{
    tick_timer_.expires_after(kTick);
    tick_timer_.async_wait([this](boost::system::error_code cancelled) {
        if (!cancelled && !ended_) {
            tick();
        }
    });
}

void Capture::Chain::tick()
{
    const double now = now_s();
    if (const std::string trouble = file_ ? file_->trouble() : std::string(); !trouble.empty()) {
        end(LineState::failed, trouble);
        return;
    }
    count_damaged();
    if (now >= next_trouble_note_s_) {
        next_trouble_note_s_ = now + kNoteEvery_s;
        note_discarded();
        note_damaged();
    }
    if (link_.is_open()) {
        watch_silence(now);
    } else if (now >= next_look_s_) {
        next_look_s_ = now + kLookEvery_s;
        look_for_instrument(now);
    }
    if (!ended_) {
        tick_after_a_while();
    }
}

void Capture::Chain::watch_silence(double now)
{
    const double silent_s = now - last_reading_s_;
    if (!settling_ && silent_s > settings_.silence_s) {
        status_.set(LineState::silent, silence_in_words());
    }
}

std::string Capture::Chain::silence_in_words()
{
    const double silence_s = settings_.silence_s;
    const std::uint64_t damaged = link_.damaged_characters();
    const std::string trouble =
        damaged > 0 ? std::to_string(damaged) + " characters came damaged" : decoder_->trouble();
    if (settings_.instrument.language.kind != trace::Language::Kind::numeric_lines) {
        return no_answer(words_, silence_s, trouble);
    }
    const bool bytes_came = status_.counters().bytes > bytes_at_last_reading_;
    return bytes_came ? no_reading(words_, silence_s, trouble) : no_byte(words_, silence_s);
}

void Capture::Chain::lose_line()
{
    talk_timer_.cancel();
    settle_timer_.cancel();
    note_discarded(); // but not the unfinished line, which no one damaged
    note_damaged();
    damaged_before_ = damaged_;
    restart_decoder();
    publish_counts();
    reading_since_opening_ = false;
    note_event(NoteKind::lost);
    lost_at_s_ = now_s();
    next_look_s_ = 0.0;
    refused_since_s_ = std::numeric_limits<double>::infinity();
    status_.set(LineState::lost, instrument_gone(words_.port, settings_.wait_s));
}

void Capture::Chain::look_for_instrument(double now)
{
    if (now - lost_at_s_ >= settings_.wait_s) {
        end(LineState::ended, instrument_stayed_away(words_.port, settings_.wait_s));
        return;
    }
    const std::string path = way_back_->find();
    if (path.empty()) {
        return;
    }
    try {
        link_.open(path, settings_.instrument.port);
    } catch (const trace::InputError& refused) {
        // A device that has just come is not there in every respect yet: its node, its group.
        refused_since_s_ = std::min(refused_since_s_, now);
        if (now - refused_since_s_ >= kStillRefused_s) {
            status_.set(LineState::lost, refused.what());
        }
        return;
    }
    way_back_->found_at(path);
    words_.port = path;
    note_event(NoteKind::back);
    status_.set(LineState::opening, {});
    begin_line();
}

void Capture::Chain::end(LineState state, std::string message)
{
    if (std::exchange(ended_, true)) {
        return;
    }
    settle_timer_.cancel();
    talk_timer_.cancel();
    count_damaged();
    note_discarded(); // but not the unfinished line, which no one damaged
    note_damaged();
    restart_decoder();
    publish_counts();
    status_.set(state, std::move(message));
    if (!link_.is_open() || settings_.instrument.port.stop.empty()) {
        close_line();
        return;
    }
    link_.send(settings_.instrument.port.stop);
    close_when_sent(Clock::now() + kFarewell);
}

void Capture::Chain::close_when_sent(Clock::time_point deadline)
{
    if (!link_.is_sending() || Clock::now() >= deadline) {
        close_line();
        return;
    }
    tick_timer_.expires_after(5ms);
    tick_timer_.async_wait([this, deadline](boost::system::error_code) { close_when_sent(deadline); });
}

void Capture::Chain::close_line()
{
    link_.close();
    tick_timer_.cancel();
}

} // namespace zeroline::serial
