#pragma once

#include "acquisition/serial/capture.hpp"
#include "tests/temporary_folder.hpp"

#include <array>
#include <chrono>
#include <filesystem>
#include <functional>
#include <string>
#include <thread>
#include <vector>

namespace zeroline::serial::test {

using namespace std::chrono_literals;

/// Tries until `holds` or the time is over; says whether it came true.
inline bool soon(const std::function<bool()>& holds, std::chrono::milliseconds within = 5000ms)
{
    const auto end = std::chrono::steady_clock::now() + within;
    while (!holds()) {
        if (std::chrono::steady_clock::now() > end) {
            return false;
        }
        std::this_thread::sleep_for(1ms);
    }
    return true;
}

inline void pull_all(Capture& capture, std::vector<Reading>& into)
{
    std::array<Reading, 512> some;
    while (const std::size_t n = capture.pull(some)) {
        into.insert(into.end(), some.begin(), some.begin() + static_cast<std::ptrdiff_t>(n));
    }
}

/// An invented transducer that sends a number a line.
inline trace::Instrument plain_instrument()
{
    trace::Instrument instrument;
    instrument.name = "bench transducer";
    instrument.port.baud = 115200;
    return instrument;
}

} // namespace zeroline::serial::test
