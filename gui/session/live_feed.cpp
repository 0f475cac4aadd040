#include "gui/session/live_feed.hpp"

#include <cmath>
#include <limits>
#include <utility>

namespace zeroline::session {

namespace {

constexpr std::size_t kBlock = 4096;

/// Columns that the instrument does not send stay empty: an hour at 1 kHz is held in memory.
void append(trace::RawTrace& raw, const serial::Reading& reading, const trace::Language& language)
{
    if (reading.has_note) {
        raw.notes.push_back({raw.moment_s.size(), reading.note, {}});
    }
    raw.moment_s.push_back(reading.arrival_s);
    raw.pressure.push_back(reading.value);
    if (language.count_field) {
        raw.count.push_back(reading.count);
    }
    if (language.time_field) {
        raw.instrument_time_s.push_back(reading.instrument_time_s);
    }
}

} // namespace

LiveSamples::LiveSamples(const trace::Instrument& instrument)
    : language_(instrument.language), nominal_hz_(instrument.nominal_hz),
      correction_(instrument.language.unit, instrument), clock_(instrument.nominal_hz),
      last_s_(-std::numeric_limits<double>::infinity())
{
    raw_.unit = instrument.language.unit;
    raw_.from_arrivals = true;
}

/// Where a reading came without its count, it is taken for the one after the last.
double LiveSamples::time_of(const serial::Reading& reading)
{
    last_count_ = reading.count >= 0 ? reading.count : last_count_ + 1;
    // Polled instruments are stamped with the mid-time of request and answer: that is the sample time.
    const double time_s = language_.polled() ? reading.arrival_s : clock_.push(reading.arrival_s, last_count_);
    last_s_ = time_s > last_s_ ? time_s : std::nextafter(last_s_, std::numeric_limits<double>::infinity());
    return last_s_;
}

std::optional<LiveSample> LiveSamples::push(const serial::Reading& reading)
{
    append(raw_, reading, language_);
    const bool event =
        reading.has_note && (reading.note == trace::NoteKind::lost || reading.note == trace::NoteKind::back);
    if (event) {
        // Nobody counted while the line was away: the count begins anew, and with it the clock.
        clock_ = trace::LiveClock(nominal_hz_);
        last_count_ = -1;
        return std::nullopt;
    }
    if (reading.has_note && std::isnan(reading.value) && !trace::is_of_a_reading(reading.note)) {
        return std::nullopt;
    }
    const double time_s = time_of(reading);
    if (std::isnan(reading.value)) {
        return std::nullopt;
    }
    return LiveSample{time_s, correction_.to_cmH2O(reading.value)};
}

LiveFeed::LiveFeed(serial::CaptureSettings settings) : capture_(settings), samples_(settings.instrument), block_(kBlock)
{
}

void LiveFeed::start() { capture_.start(); }

void LiveFeed::stop() { capture_.stop(); }

LiveFeed::Batch LiveFeed::pull()
{
    Batch batch;
    while (const auto count = capture_.pull(block_)) {
        for (std::size_t i = 0; i < count; ++i) {
            const auto& reading = block_[i];
            batch.lost = batch.lost || (reading.has_note && reading.note == trace::NoteKind::lost);
            batch.back = batch.back || (reading.has_note && reading.note == trace::NoteKind::back);
            if (const auto sample = samples_.push(reading)) {
                batch.samples.push_back(*sample);
            }
        }
    }
    return batch;
}

std::vector<OfferedPort> offered_ports()
{
    std::vector<OfferedPort> offered;
    for (const auto& port : serial::list_ports()) {
        offered.push_back({port.path, port.description});
    }
    return offered;
}

} // namespace zeroline::session
