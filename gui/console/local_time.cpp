#include "gui/console/local_time.hpp"

#include "analysis/verification/civil_time.hpp"

#include <cstdlib>
#include <ctime>

namespace zeroline::console {

std::string local_rfc3339(std::chrono::system_clock::time_point moment)
{
    const std::time_t seconds = std::chrono::system_clock::to_time_t(moment);
    std::tm local{};
    ::localtime_r(&seconds, &local);
    char text[40];
    const auto length = std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%S%z", &local);
    // strftime writes the offset as +0100.
    std::string stamp(text, length);
    return stamp.insert(stamp.size() - 2, ":");
}

std::string local_day() { return verification::day_of(local_rfc3339(std::chrono::system_clock::now())); }

} // namespace zeroline::console
