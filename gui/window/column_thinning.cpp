#include "gui/window/column_thinning.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace zeroline::window {

namespace {

using session::LiveSample;
using Samples = std::span<const LiveSample>;

bool is_before(const LiveSample& sample, double time_s) { return sample.time_s < time_s; }
bool is_lower(const LiveSample& a, const LiveSample& b) { return a.pressure_cmH2O < b.pressure_cmH2O; }

Samples between(Samples samples, double from_s, double to_s)
{
    const auto first = std::lower_bound(samples.begin(), samples.end(), from_s, is_before);
    const auto last = std::upper_bound(first, samples.end(), to_s,
                                       [](double time_s, const LiveSample& sample) { return time_s < sample.time_s; });
    return {first, last};
}

void add_if_new(std::vector<LiveSample>& kept, const LiveSample& sample)
{
    if (kept.empty() || kept.back().time_s < sample.time_s)
        kept.push_back(sample);
}

void add_extremes(std::vector<LiveSample>& kept, Samples column)
{
    if (column.empty())
        return;
    const auto [lowest, highest] = std::minmax_element(column.begin(), column.end(), is_lower);
    add_if_new(kept, lowest < highest ? *lowest : *highest);
    add_if_new(kept, lowest < highest ? *highest : *lowest);
}

} // namespace

std::vector<LiveSample> thinned_to_columns(Samples samples, double from_s, double to_s, int columns)
{
    std::vector<LiveSample> kept;
    if (columns < 1 || !(to_s > from_s))
        return kept;
    auto rest = between(samples, from_s, to_s);
    if (rest.empty())
        return kept;
    const auto first = rest.front();
    const auto last = rest.back();
    kept.reserve(2 * static_cast<std::size_t>(columns) + 2);
    kept.push_back(first);
    const double width_s = (to_s - from_s) / columns;
    for (int column = 1; column < columns && !rest.empty(); ++column) {
        const auto end = std::lower_bound(rest.begin(), rest.end(), from_s + column * width_s, is_before);
        add_extremes(kept, {rest.begin(), end});
        rest = {end, rest.end()};
    }
    add_extremes(kept, rest);
    add_if_new(kept, last);
    return kept;
}

void TraceTail::append(Samples samples)
{
    samples_.insert(samples_.end(), samples.begin(), samples.end());
    const auto kept = all().size();
    // Moving the kept ones to the front costs as much as they are many: done only when it frees as many again.
    if (samples_.size() > 2 * kept + 1000)
        samples_.erase(samples_.begin(), samples_.end() - static_cast<std::ptrdiff_t>(kept));
}

Samples TraceTail::last(double seconds) const
{
    if (samples_.empty())
        return {};
    return between(samples_, samples_.back().time_s - seconds, samples_.back().time_s);
}

} // namespace zeroline::window
