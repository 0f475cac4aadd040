#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>

namespace zeroline::fuzz {

/// What must hold on any input; the fuzzer keeps the input where it does not.
inline void require(bool holds)
{
    if (!holds) {
        std::abort();
    }
}

/// The fuzzer's input, byte by byte; zeros after its end.
struct Bytes {
    const std::uint8_t* data;
    std::size_t size;
    std::uint8_t next()
    {
        if (size == 0) {
            return 0;
        }
        --size;
        return *data++;
    }
};

} // namespace zeroline::fuzz
