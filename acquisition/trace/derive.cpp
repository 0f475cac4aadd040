#include "acquisition/trace/calibration.hpp"
#include "acquisition/trace/reading_index.hpp"
#include "acquisition/trace/sample_clock.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>

namespace zeroline::trace {

namespace {

double next_above(double value) noexcept { return std::nextafter(value, std::numeric_limits<double>::infinity()); }

/// The k-th smallest of values that are not negative, with no copy of them: their bits sort like the numbers.
template <class At> double nth_smallest(std::size_t size, std::size_t k, At&& at)
{
    std::uint64_t prefix = 0;
    for (unsigned shift = 48;; shift -= 16) {
        std::vector<std::size_t> histogram(65'536, 0);
        for (std::size_t i = 0; i < size; ++i) {
            const double value = at(i);
            std::uint64_t bits = 0;
            std::memcpy(&bits, &value, sizeof bits);
            if (shift == 48 || bits >> (shift + 16U) == prefix) {
                ++histogram[(bits >> shift) & 0xFFFFU];
            }
        }
        std::uint64_t bin = 0;
        for (; k >= histogram[bin]; ++bin) {
            k -= histogram[bin];
        }
        prefix = (prefix << 16U) | bin;
        if (shift == 0) {
            break;
        }
    }
    double found = 0.0;
    std::memcpy(&found, &prefix, sizeof found);
    return found;
}

double interval_quantile_s(const std::vector<double>& time_s, double share)
{
    if (time_s.size() < 2) {
        return 0.0;
    }
    const std::size_t intervals = time_s.size() - 1;
    const auto k = static_cast<std::size_t>(share * static_cast<double>(intervals - 1));
    constexpr std::size_t kFew = 200'000; // a copy that costs less than counting
    if (intervals > kFew) {
        return nth_smallest(intervals, k, [&](std::size_t i) { return time_s[i + 1] - time_s[i]; });
    }
    std::vector<double> copy(intervals);
    std::transform(time_s.begin() + 1, time_s.end(), time_s.begin(), copy.begin(), std::minus<>());
    const auto at = copy.begin() + static_cast<std::ptrdiff_t>(k);
    std::nth_element(copy.begin(), at, copy.end());
    return *at;
}

/// A run of rows whose readings share one clock.
struct RowsOfOneClock {
    std::size_t begin = 0;
    std::size_t end = 0;
    std::optional<ClockFit> fit;
};

/// Sample times in place of arrival times, for one captured trace.
class ArrivalTimes {
public:
    ArrivalTimes(RawTrace& raw, const Instrument* instrument) : raw_(raw), index_(index_readings(raw))
    {
        if (instrument != nullptr) {
            stated_ = StatedRate{instrument->nominal_hz * static_cast<double>(index_.step), instrument->clock_ppm};
        }
    }

    /// Afterwards raw.moment_s holds sample times, and rows that are no readings keep their arrival times.
    void run(Sampling& sampling)
    {
        cut_into_series();
        fit_longest_first();
        for (auto& series : series_) {
            set_times(series);
        }
        describe(sampling);
    }

    /// Whether a row stays a sample where it has a value.
    [[nodiscard]] bool is_reading(std::size_t row) const { return index_.index[row] != kNoReading; }

    void list_lost(const RawTrace& raw, Trace& trace) const
    {
        std::size_t samples = 0;
        for (const auto& series : series_) {
            std::int64_t before = kNoReading;
            for (std::size_t row = series.begin; row < series.end; ++row) {
                if (!is_reading(row)) {
                    continue;
                }
                const auto missing =
                    before == kNoReading ? 0 : (index_.index[row] - before + index_.step / 2) / index_.step - 1;
                if (index_.counted && missing > 0 && samples > 0) {
                    trace.lost.push_back({samples - 1, missing});
                    trace.sampling.lost += missing;
                }
                before = index_.index[row];
                samples += std::isnan(raw.pressure[row]) ? std::size_t{0} : std::size_t{1};
            }
        }
    }

private:
    void cut_into_series()
    {
        for (std::size_t i = 0; i < index_.begins.size(); ++i) {
            const bool last = i + 1 == index_.begins.size();
            series_.push_back({index_.begins[i], last ? raw_.moment_s.size() : index_.begins[i + 1], std::nullopt});
        }
    }

    [[nodiscard]] double length_s(const RowsOfOneClock& series) const
    {
        return raw_.moment_s[series.end - 1] - raw_.moment_s[series.begin];
    }

    /// The longest series knows the rate best; short ones take it from there.
    void fit_longest_first()
    {
        constexpr double long_enough_s = 5.0;
        constexpr double known_ppm = 20.0;
        if (series_.empty()) {
            return;
        }
        longest_ = static_cast<std::size_t>(std::max_element(series_.begin(), series_.end(),
                                                             [&](const RowsOfOneClock& a, const RowsOfOneClock& b) {
                                                                 return length_s(a) < length_s(b);
                                                             }) -
                                            series_.begin());
        series_[longest_].fit = fitted(series_[longest_], stated_);
        const auto& known = series_[longest_].fit;
        for (std::size_t i = 0; i < series_.size(); ++i) {
            if (i == longest_) {
                continue;
            }
            const auto rate = known ? std::optional(StatedRate{1.0 / known->interval_s, known_ppm}) : stated_;
            if (length_s(series_[i]) >= long_enough_s) {
                series_[i].fit = fitted(series_[i], rate);
            }
        }
    }

    [[nodiscard]] std::optional<ClockFit> fitted(const RowsOfOneClock& series, std::optional<StatedRate> rate) const
    {
        const std::span all_arrivals(raw_.moment_s);
        const std::span all_indices(index_.index);
        const auto arrivals = all_arrivals.subspan(series.begin, series.end - series.begin);
        const auto indices = all_indices.subspan(series.begin, series.end - series.begin);
        if (std::find(indices.begin(), indices.end(), kNoReading) == indices.end()) {
            return fit_clock(arrivals, indices, rate);
        }
        std::vector<double> arrival_s;
        std::vector<std::int64_t> index;
        for (std::size_t i = 0; i < indices.size(); ++i) {
            if (indices[i] != kNoReading) {
                arrival_s.push_back(arrivals[i]);
                index.push_back(indices[i]);
            }
        }
        return fit_clock(arrival_s, index, rate);
    }

    /// Seconds per index where a series is too short to tell by itself.
    [[nodiscard]] double interval_s() const
    {
        const auto* known = series_.empty() || !series_[longest_].fit ? nullptr : &*series_[longest_].fit;
        if (known != nullptr && known->interval_s > 0.0) {
            return known->interval_s;
        }
        return stated_ ? 1.0 / stated_->hz : 0.0;
    }

    [[nodiscard]] ClockFit short_fit(const RowsOfOneClock& series) const
    {
        ClockFit fit;
        fit.interval_s = interval_s();
        double sum_s = 0.0;
        double n = 0.0;
        for (std::size_t row = series.begin; row < series.end; ++row) {
            if (is_reading(row)) {
                sum_s += raw_.moment_s[row] - fit.interval_s * static_cast<double>(index_.index[row]);
                n += 1.0;
            }
        }
        fit.first_s = sum_s / n;
        return fit;
    }

    void set_times(const RowsOfOneClock& series)
    {
        const auto fit = series.fit && series.fit->interval_s > 0.0 ? *series.fit : short_fit(series);
        for (std::size_t row = series.begin; row < series.end; ++row) {
            if (is_reading(row)) {
                const double time_s = fit.time_of(static_cast<double>(index_.index[row]));
                raw_.moment_s[row] = time_s > last_s_ ? time_s : next_above(last_s_);
                last_s_ = raw_.moment_s[row];
            }
        }
    }

    void describe(Sampling& sampling) const
    {
        if (series_.empty() || !series_[longest_].fit) {
            return;
        }
        const auto& fit = *series_[longest_].fit;
        sampling.residual_s = fit.residual_s;
        sampling.batch_period_s = fit.batch_period_s;
        if (stated_ && fit.interval_s > 0.0) {
            sampling.rate_error_ppm = (1.0 / (fit.interval_s * stated_->hz) - 1.0) * 1e6;
        }
    }

    RawTrace& raw_;
    ReadingIndex index_;
    std::optional<StatedRate> stated_; ///< of the index
    std::vector<RowsOfOneClock> series_;
    std::size_t longest_ = 0;
    double last_s_ = std::numeric_limits<double>::lowest();
};

/// A reading whose count came before is no sample of its own, but it did come.
template <class IsReading> void list_repeated(const RawTrace& raw, IsReading&& is_reading, Trace& trace)
{
    for (std::size_t row = 0; row < raw.moment_s.size(); ++row) {
        if (!std::isnan(raw.pressure[row]) && !is_reading(row)) {
            trace.events.push_back({raw.moment_s[row], NoteKind::other, "reading with a count that came before"});
        }
    }
}

void list_events(const RawTrace& raw, Trace& trace)
{
    for (const auto& note : raw.notes) {
        trace.events.push_back({raw.moment_s[note.row], note.kind, note.text});
    }
    std::stable_sort(trace.events.begin(), trace.events.end(),
                     [](const Event& a, const Event& b) { return a.time_s < b.time_s; });
}

/// Polled readings carry the middle of question and answer as their time. The answer was sampled somewhere between, and
/// that is not longer than the shortest time from one reading to the next.
void keep_polled_times(RawTrace& raw, Sampling& sampling)
{
    for (std::size_t i = 1; i < raw.moment_s.size(); ++i) {
        if (!(raw.moment_s[i] > raw.moment_s[i - 1])) {
            raw.moment_s[i] = next_above(raw.moment_s[i - 1]);
        }
    }
    if (raw.moment_s.size() > 1) {
        sampling.residual_s = interval_quantile_s(raw.moment_s, 0.05) / std::sqrt(12.0);
    }
}

template <class Keep> void keep_samples(RawTrace& raw, const Correction& correction, Keep&& keep)
{
    std::size_t kept = 0;
    for (std::size_t row = 0; row < raw.moment_s.size(); ++row) {
        if (!std::isnan(raw.pressure[row]) && keep(row)) {
            raw.moment_s[kept] = raw.moment_s[row];
            raw.pressure[kept] = correction.to_cmH2O(raw.pressure[row]);
            ++kept;
        }
    }
    raw.moment_s.resize(kept);
    raw.pressure.resize(kept);
}

} // namespace

Trace derive(RawTrace raw, const Instrument* instrument)
{
    Trace trace;
    trace.sampling.from_arrivals = raw.from_arrivals;
    const Correction correction = instrument ? Correction(raw.unit, *instrument) : Correction(raw.unit);
    const bool polled = instrument != nullptr && instrument->language.polled();
    if (raw.from_arrivals && !polled) {
        ArrivalTimes times(raw, instrument);
        times.run(trace.sampling);
        times.list_lost(raw, trace);
        const auto is_reading = [&](std::size_t row) { return times.is_reading(row); };
        list_repeated(raw, is_reading, trace);
        list_events(raw, trace);
        keep_samples(raw, correction, is_reading);
    } else {
        if (raw.from_arrivals) {
            keep_polled_times(raw, trace.sampling);
        }
        list_events(raw, trace);
        keep_samples(raw, correction, [](std::size_t) { return true; });
    }
    trace.time_s = std::move(raw.moment_s);
    trace.pressure_cmH2O = std::move(raw.pressure);
    const double interval_s = interval_quantile_s(trace.time_s, 0.5);
    trace.sampling.rate_hz = interval_s > 0.0 ? 1.0 / interval_s : 0.0;
    return trace;
}

} // namespace zeroline::trace
