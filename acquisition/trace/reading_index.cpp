#include "acquisition/trace/reading_index.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::trace {

namespace {

constexpr std::int64_t kUnknown = -1;
// Of an instrument's clock; shorter is no clock of a pressure transducer.
constexpr double kShortestInterval_s = 1e-6;

/// Rows that came over the line as a reading, with a value or without one.
std::vector<bool> rows_with_readings(const RawTrace& raw)
{
    std::vector<bool> readings(raw.moment_s.size(), true);
    for (const auto& note : raw.notes) {
        readings[note.row] = is_of_a_reading(note.kind) || !std::isnan(raw.pressure[note.row]);
    }
    return readings;
}

double quantile(std::vector<double>& values, double share)
{
    if (values.empty()) {
        return 0.0;
    }
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

/// Differences between the claims of rows that follow each other, a bounded sample of them.
template <class Claim> std::vector<double> claimed_steps(const std::vector<bool>& readings, Claim&& claim)
{
    constexpr std::size_t some = 100'000;
    const std::size_t stride = readings.size() / some + 1;
    std::vector<double> steps;
    for (std::size_t i = 1; i < readings.size(); i += stride) {
        const auto step = claim(i) - claim(i - 1);
        if (readings[i] && readings[i - 1] && std::isfinite(static_cast<double>(step))) {
            steps.push_back(static_cast<double>(step));
        }
    }
    return steps;
}

/// Mostly running forwards; a restart or a damaged line now and then is no reason to distrust it.
bool mostly_forwards(const std::vector<double>& steps)
{
    constexpr double tolerated = 0.02;
    const auto back = std::count_if(steps.begin(), steps.end(), [](double step) { return !(step > 0.0); });
    return !steps.empty() && static_cast<double>(back) <= 1.0 + tolerated * static_cast<double>(steps.size());
}

/// The mean of those that are no holes.
double mean_below(const std::vector<double>& values, double limit)
{
    double sum = 0.0;
    double n = 0.0;
    for (const double value : values) {
        sum += value <= limit && value > 0.0 ? value : 0.0;
        n += value <= limit && value > 0.0 ? 1.0 : 0.0;
    }
    return sum / n;
}

bool take_count(RawTrace& raw, const std::vector<bool>& readings, ReadingIndex& result)
{
    if (raw.count.empty()) {
        return false;
    }
    auto steps = claimed_steps(readings, [&](std::size_t i) {
        return raw.count[i] < 0 ? std::numeric_limits<double>::quiet_NaN() : static_cast<double>(raw.count[i]);
    });
    if (!mostly_forwards(steps)) {
        return false;
    }
    // Low, so that many lost readings do not look like a coarser count.
    result.step = std::max<std::int64_t>(1, std::llround(quantile(steps, 0.1)));
    result.counted = true;
    result.index = std::move(raw.count);
    return true;
}

/// The decimal place to which an instrument writes its time, by some of its times.
double written_resolution_s(const std::vector<double>& time_s)
{
    constexpr std::size_t some = 1000;
    const std::size_t stride = time_s.size() / some + 1;
    for (const double resolution_s : {1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5}) {
        bool fits = true;
        for (std::size_t i = 0; fits && i < time_s.size(); i += stride) {
            const double units = time_s[i] / resolution_s;
            fits = std::isnan(units) || std::fabs(units - std::round(units)) < 1e-3;
        }
        if (fits) {
            return resolution_s;
        }
    }
    return 1e-6;
}

/// The instrument's clock as a count: of its sampling interval where it keeps one, else of microseconds.
bool take_instrument_time(const RawTrace& raw, const std::vector<bool>& readings, ReadingIndex& result)
{
    constexpr double largest_s = 1e9;
    constexpr double tolerated = 0.02;
    const auto& time_s = raw.instrument_time_s;
    auto steps = claimed_steps(readings, [&](std::size_t i) { return i < time_s.size() ? time_s[i] : NAN; });
    if (time_s.empty() || !mostly_forwards(steps)) {
        return false;
    }
    const double interval_s = mean_below(steps, 1.5 * quantile(steps, 0.5));
    if (!(interval_s >= kShortestInterval_s)) {
        return false;
    }
    const double allowed_s = 1.01 * written_resolution_s(time_s) + 0.02 * interval_s;
    const auto uneven = std::count_if(steps.begin(), steps.end(), [&](double step) {
        return std::fabs(step - interval_s * std::round(step / interval_s)) > allowed_s;
    });
    result.counted = static_cast<double>(uneven) <= tolerated * static_cast<double>(steps.size());
    const double unit_s = result.counted ? interval_s : 1e-6;
    result.step = result.counted ? 1 : std::max<std::int64_t>(1, std::llround(interval_s / unit_s));
    result.index.assign(raw.moment_s.size(), kUnknown);
    // Times are rounded where they are written: counted from one to the next, the rounding does not add up.
    double before_s = std::numeric_limits<double>::quiet_NaN();
    std::int64_t count = 0;
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        if (readings[i] && std::fabs(time_s[i]) < largest_s) {
            count += std::isnan(before_s) ? 0 : std::llround((time_s[i] - before_s) / unit_s);
            result.index[i] = std::max<std::int64_t>(count, 0);
            count = result.index[i];
            before_s = time_s[i];
        }
    }
    return true;
}

void take_order(const RawTrace& raw, const std::vector<bool>& readings, ReadingIndex& result)
{
    result = {};
    result.index.assign(raw.moment_s.size(), kUnknown);
    std::int64_t next = 0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (readings[i]) {
            result.index[i] = next++;
        }
    }
}

/// Seconds per unit of the index: the middle over short stretches, so that gaps and restarts do not count.
double interval_of_short_stretches_s(const std::vector<double>& arrival_s, const std::vector<std::int64_t>& index)
{
    const std::size_t stretch = std::clamp<std::size_t>(arrival_s.size() / 16, 1, 64);
    std::vector<double> intervals;
    for (std::size_t i = stretch; i < arrival_s.size(); i += stretch) {
        const bool known = index[i] >= 0 && index[i - stretch] >= 0;
        if (known && index[i] > index[i - stretch]) {
            const auto counts = static_cast<double>(index[i] - index[i - stretch]);
            intervals.push_back((arrival_s[i] - arrival_s[i - stretch]) / counts);
        }
    }
    return quantile(intervals, 0.5);
}

/// A count that was damaged on the way, by digits of the line before: it runs far ahead of the time that passed.
bool is_far_ahead(const std::vector<double>& arrival_s, const std::vector<std::int64_t>& index, std::size_t row,
                  double interval_s)
{
    constexpr double far_s = 0.1;
    const bool known = row > 0 && index[row - 1] >= 0;
    return known &&
           interval_s * static_cast<double>(index[row] - index[row - 1]) > arrival_s[row] - arrival_s[row - 1] + far_s;
}

/// The reading between `from` and `to` that was held up least, if time runs by `interval_s`; `to` where there is none.
std::size_t least_held_up(const std::vector<double>& arrival_s, const std::vector<std::int64_t>& index,
                          std::size_t from, std::size_t to, double interval_s)
{
    std::size_t least = to;
    double earliest_s = std::numeric_limits<double>::infinity();
    for (std::size_t i = from; i < to; ++i) {
        const double offset_s = arrival_s[i] - interval_s * static_cast<double>(index[i]);
        if (index[i] >= 0 && offset_s < earliest_s && !is_far_ahead(arrival_s, index, i, interval_s)) {
            earliest_s = offset_s;
            least = i;
        }
    }
    return least;
}

/// The same. What a busy computer held up comes in bursts, in which the stretches look too short: so it is told again
/// between readings that were held up least, one in each sixteenth of the trace; the middle of it, since a gap may lie
/// between two of them.
double typical_interval_s(const std::vector<double>& arrival_s, const std::vector<std::int64_t>& index)
{
    constexpr std::size_t parts = 16, fewest_in_a_part = 64;
    constexpr int rounds = 3;
    double interval_s = interval_of_short_stretches_s(arrival_s, index);
    const std::size_t rows = arrival_s.size();
    for (int round = 0; round < rounds && rows >= parts * fewest_in_a_part; ++round) {
        std::vector<double> intervals;
        std::size_t before = rows;
        for (std::size_t part = 0; part < parts; ++part) {
            const std::size_t end = rows * (part + 1) / parts;
            const auto least = least_held_up(arrival_s, index, rows * part / parts, end, interval_s);
            if (least == end) {
                continue;
            }
            if (before < rows && index[least] > index[before]) {
                intervals.push_back((arrival_s[least] - arrival_s[before]) /
                                    static_cast<double>(index[least] - index[before]));
            }
            before = least;
        }
        const double before_s = interval_s;
        interval_s = intervals.empty() ? interval_s : quantile(intervals, 0.5);
        if (interval_s == before_s) {
            break; // the same readings again
        }
    }
    return interval_s;
}

/// Turns what the rows claim into an index that increases within each series.
class ClaimCheck {
public:
    ClaimCheck(const RawTrace& raw, const std::vector<bool>& readings, ReadingIndex& result)
        : arrival_s_(raw.moment_s), readings_(readings), result_(result),
          interval_s_(typical_interval_s(raw.moment_s, result.index))
    {
    }

    void run()
    {
        for (std::size_t row = 0; row < readings_.size(); ++row) {
            if (!readings_[row]) {
                result_.index[row] = kNoReading;
            } else if (!began_) {
                begin_series(row, std::max<std::int64_t>(result_.index[row], 0));
            } else {
                place(row, result_.index[row]);
            }
        }
    }

private:
    void begin_series(std::size_t row, std::int64_t claim)
    {
        result_.begins.push_back(row);
        result_.index[row] = claim;
        remember(row, claim, claim);
        began_ = true;
    }

    void remember(std::size_t row, std::int64_t claim, std::int64_t index)
    {
        last_row_ = row;
        last_claim_ = claim;
        last_index_ = index;
    }

    void place(std::size_t row, std::int64_t claim)
    {
        if (claim < 0) {
            advance(row, last_claim_ + result_.step, result_.step);
            guessed_ = true;
            return;
        }
        auto increase = claim - last_claim_;
        if (increase < 0) {
            increase = increase_over_wrap(row, claim);
        }
        if (increase == 0) {
            result_.index[guessed_ ? last_row_ : row] = kNoReading;
            result_.index[row] = guessed_ ? last_index_ : kNoReading;
            last_row_ = guessed_ ? row : last_row_;
            guessed_ = false;
        } else if (increase > 0 && time_allows(row, increase)) {
            advance(row, claim, increase);
        } else if (is_damaged(row)) {
            advance(row, last_claim_ + result_.step, result_.step);
            guessed_ = true;
        } else {
            begin_series(row, claim);
        }
    }

    void advance(std::size_t row, std::int64_t claim, std::int64_t increase)
    {
        result_.index[row] = last_index_ + increase;
        remember(row, claim, last_index_ + increase);
        guessed_ = false;
    }

    /// More readings than fit into the time that passed were never sent.
    [[nodiscard]] bool time_allows(std::size_t row, std::int64_t increase) const
    {
        constexpr double held_up_s = 1.0;
        const double passed_s = arrival_s_[row] - arrival_s_[last_row_];
        return static_cast<double>(increase - result_.step) * interval_s_ <= 1.1 * passed_s + held_up_s;
    }

    /// A damaged count: one of the next readings goes on as if it had not been.
    [[nodiscard]] bool is_damaged(std::size_t row) const
    {
        constexpr int few = 3; // more in a row, and the count was set anew
        int seen = 0;
        for (std::size_t next = row + 1; next < readings_.size() && seen < few; ++next) {
            const auto increase = result_.index[next] - last_claim_;
            if (readings_[next] && result_.index[next] >= 0 && increase > result_.step && time_allows(next, increase)) {
                return true;
            }
            seen += readings_[next] ? 1 : 0;
        }
        return false;
    }

    /// The increase where the count began again at 0 because its digits or bits ran out; negative where it did not.
    [[nodiscard]] std::int64_t increase_over_wrap(std::size_t row, std::int64_t claim) const
    {
        constexpr double tolerated_s = 0.1;
        const double passed_s = arrival_s_[row] - arrival_s_[last_row_];
        for (const auto size : kCountSizes) {
            const auto increase = size - last_claim_ + claim;
            if (size > last_claim_ &&
                std::fabs(static_cast<double>(increase) * interval_s_ - passed_s) <= tolerated_s + 0.05 * passed_s) {
                return increase;
            }
        }
        return claim - last_claim_;
    }

    const std::vector<double>& arrival_s_;
    const std::vector<bool>& readings_;
    ReadingIndex& result_;
    double interval_s_;
    bool began_ = false;
    bool guessed_ = false;
    std::size_t last_row_ = 0;
    std::int64_t last_claim_ = 0;
    std::int64_t last_index_ = 0;
};

/// Gaps in the arrivals that the index does not explain: afterwards everything comes later, for good.
class GapSearch {
public:
    GapSearch(const RawTrace& raw, ReadingIndex& result)
        : arrival_s_(raw.moment_s), result_(result), interval_s_(typical_interval_s(raw.moment_s, result.index))
    {
    }

    void run()
    {
        std::vector<std::size_t> begins;
        auto known = result_.begins.begin();
        std::size_t before = arrival_s_.size();
        for (std::size_t row = 0; row < arrival_s_.size(); ++row) {
            if (result_.index[row] == kNoReading) {
                continue;
            }
            if (known != result_.begins.end() && *known <= row) {
                begins.push_back(row);
                ++known;
            } else if (before < row && moved(before, row, begins.empty() ? 0 : begins.back())) {
                begins.push_back(row);
            }
            before = row;
        }
        result_.begins = std::move(begins);
    }

private:
    [[nodiscard]] double offset_s(std::size_t row) const
    {
        return arrival_s_[row] - interval_s_ * static_cast<double>(result_.index[row]);
    }

    [[nodiscard]] bool moved(std::size_t before, std::size_t row, std::size_t begin) const
    {
        constexpr double shortest_s = 0.1;
        const double gap_s = arrival_s_[row] - arrival_s_[before];
        if (!(gap_s > std::max(5.0 * static_cast<double>(result_.step) * interval_s_, shortest_s))) {
            return false;
        }
        const double shift_s = std::fabs(earliest_after(row, gap_s) - earliest_before(before, begin));
        return shift_s > std::max(2.5 * static_cast<double>(result_.step) * interval_s_, 0.5 * shortest_s);
    }

    /// The earliest offset once a hold-up of `gap_s` would have been worked off.
    [[nodiscard]] double earliest_after(std::size_t row, double gap_s) const
    {
        double earliest_s = offset_s(row);
        const std::size_t most = readings_in(1.2 * gap_s + kWindow_s);
        for (std::size_t i = row, seen = 0; i < arrival_s_.size() && seen < most; ++i) {
            if (result_.index[i] != kNoReading) {
                if (result_.index[i] < result_.index[row]) {
                    break;
                }
                earliest_s = std::min(earliest_s, offset_s(i));
                ++seen;
            }
        }
        return earliest_s;
    }

    [[nodiscard]] double earliest_before(std::size_t row, std::size_t begin) const
    {
        double earliest_s = offset_s(row);
        const std::size_t most = readings_in(kWindow_s);
        for (std::size_t i = row + 1, seen = 0; i-- > begin && seen < most;) {
            if (result_.index[i] != kNoReading) {
                if (result_.index[i] > result_.index[row]) {
                    break;
                }
                earliest_s = std::min(earliest_s, offset_s(i));
                ++seen;
            }
        }
        return earliest_s;
    }

    [[nodiscard]] std::size_t readings_in(double time_s) const
    {
        constexpr double most = 20'000.0;
        const double readings = time_s / (static_cast<double>(result_.step) * interval_s_);
        return 8 + static_cast<std::size_t>(std::min(readings, most));
    }

    // A busy computer holds readings up again and again; only what never comes back to its time has moved.
    static constexpr double kWindow_s = 8.0;
    const std::vector<double>& arrival_s_;
    ReadingIndex& result_;
    double interval_s_;
};

} // namespace

ReadingIndex index_readings(RawTrace& raw)
{
    const auto readings = rows_with_readings(raw);
    ReadingIndex result;
    if (!take_count(raw, readings, result) && !take_instrument_time(raw, readings, result)) {
        take_order(raw, readings, result);
    }
    ClaimCheck(raw, readings, result).run();
    GapSearch search(raw, result);
    search.run();
    return result;
}

} // namespace zeroline::trace
