#pragma once

#include "acquisition/serial/languages/decoder.hpp"

#include <cmath>
#include <cstdlib>
#include <functional>
#include <memory>
#include <string_view>
#include <vector>

namespace zeroline::fuzz {

using MakeDecoder = std::function<std::unique_ptr<serial::Decoder>()>;

inline std::uint64_t accounted_by(const serial::Decoder& decoder)
{
    return decoder.discarded_bytes() + decoder.understood_bytes() + decoder.unfinished_bytes();
}

/// Decodes in pieces of `length`; aborts where a value is no number, or a byte is not accounted for.
inline std::vector<serial::Reading> decoded(const MakeDecoder& make, std::string_view bytes, std::size_t length,
                                            std::uint64_t& discarded)
{
    const auto decoder = make();
    const std::uint64_t before = accounted_by(*decoder);
    std::vector<serial::Reading> readings;
    for (std::size_t at = 0; at < bytes.size(); at += length) {
        decoder->feed(bytes.substr(at, length), 1.0, readings);
    }
    discarded = decoder->discarded_bytes();
    for (const serial::Reading& reading : readings) {
        if (reading.has_note == std::isfinite(reading.value)) {
            std::abort();
        }
    }
    if (accounted_by(*decoder) - before != bytes.size()) {
        std::abort();
    }
    return readings;
}

/// Whole, by one byte and by ten: the same readings, the same count.
inline void require_the_same_however_cut(const MakeDecoder& make, std::string_view bytes)
{
    std::uint64_t discarded = 0;
    const auto whole = decoded(make, bytes, bytes.size() + 1, discarded);
    for (const std::size_t length : {std::size_t{1}, std::size_t{10}}) {
        std::uint64_t discarded_in_pieces = 0;
        const auto pieces = decoded(make, bytes, length, discarded_in_pieces);
        if (pieces.size() != whole.size() || discarded_in_pieces != discarded) {
            std::abort();
        }
        for (std::size_t i = 0; i < whole.size(); ++i) {
            if (pieces[i].count != whole[i].count || pieces[i].has_note != whole[i].has_note ||
                (!whole[i].has_note && pieces[i].value != whole[i].value)) {
                std::abort();
            }
        }
    }
}

} // namespace zeroline::fuzz
