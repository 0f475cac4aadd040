#pragma once

#include "acquisition/trace/trace.hpp"

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

namespace zeroline::trace {

/// Marks a row that is no reading: an event, or a reading sent twice.
inline constexpr std::int64_t kNoReading = std::numeric_limits<std::int64_t>::min();

/// Where a count begins again at 0, because its digits or bits ran out.
inline constexpr std::array<std::int64_t, 11> kCountSizes{
    100, 256, 1000, 10'000, 65'536, 100'000, 1'000'000, 10'000'000, 16'777'216, 100'000'000, 4294967296};

/// Which reading each row of a captured trace is, counted by the instrument's sampling.
struct ReadingIndex {
    std::vector<std::int64_t> index; ///< one a row, increasing within a series, or kNoReading
    std::vector<std::size_t> begins; ///< rows at which a series begins: the first, and where the thread was lost
    std::int64_t step = 1;           ///< between two readings that follow each other
    bool counted = false;            ///< holes in the index are readings that were lost
};

/// Takes the instrument's count where it makes sense, else its clock, else the order of arrival. A count that wraps
/// goes on; one that starts again, and a gap in the arrivals that the index does not explain, begin a new series. Takes
/// the count column out of `raw`.
[[nodiscard]] ReadingIndex index_readings(RawTrace& raw);

} // namespace zeroline::trace
