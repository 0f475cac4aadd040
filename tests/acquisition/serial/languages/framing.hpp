#pragma once

#include "acquisition/serial/languages/decoder.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial::test {

/// What a decoder made of a stream.
struct Outcome {
    std::vector<Reading> readings;
    std::uint64_t discarded = 0;
    std::uint64_t understood = 0;
};

using MakeDecoder = std::function<std::unique_ptr<Decoder>()>;

inline std::uint64_t accounted_by(const Decoder& decoder)
{
    return decoder.discarded_bytes() + decoder.understood_bytes() + decoder.unfinished_bytes();
}

inline Outcome decoded(const MakeDecoder& make, const std::vector<std::string_view>& pieces)
{
    const auto decoder = make();
    Outcome outcome;
    const std::uint64_t before = accounted_by(*decoder);
    std::uint64_t fed = 0;
    for (const std::string_view piece : pieces) {
        decoder->feed(piece, 1.0, outcome.readings);
        fed += piece.size();
    }
    outcome.discarded = decoder->discarded_bytes();
    outcome.understood = decoder->understood_bytes();
    EXPECT_EQ(accounted_by(*decoder) - before, fed) << "a byte is not accounted for";
    return outcome;
}

inline std::vector<std::string_view> in_pieces_of(std::string_view bytes, std::size_t length)
{
    std::vector<std::string_view> pieces;
    for (std::size_t at = 0; at < bytes.size(); at += length) {
        pieces.push_back(bytes.substr(at, length));
    }
    return pieces;
}

inline bool same(const Reading& a, const Reading& b)
{
    const auto equal = [](double x, double y) { return x == y || (std::isnan(x) && std::isnan(y)); };
    return equal(a.value, b.value) && a.count == b.count && equal(a.instrument_time_s, b.instrument_time_s) &&
           a.has_note == b.has_note && a.note == b.note;
}

inline void expect_same(const Outcome& expected, const Outcome& found, const std::string& how)
{
    EXPECT_EQ(expected.discarded, found.discarded) << how;
    EXPECT_EQ(expected.understood, found.understood) << how;
    ASSERT_EQ(expected.readings.size(), found.readings.size()) << how;
    for (std::size_t i = 0; i < found.readings.size(); ++i) {
        EXPECT_TRUE(same(expected.readings[i], found.readings[i])) << how << ", reading " << i;
    }
}

/// Decodes the stream whole, one byte at a time, ten at a time and cut in two at every byte, which must make no
/// difference (after the tests of Boost.Asio's read_until); returns the outcome.
inline Outcome decoded_in_every_way(const MakeDecoder& make, std::string_view bytes)
{
    const Outcome whole = decoded(make, {bytes});
    expect_same(whole, decoded(make, in_pieces_of(bytes, 1)), "one byte at a time");
    expect_same(whole, decoded(make, in_pieces_of(bytes, 10)), "ten bytes at a time");
    for (std::size_t cut = 1; cut < bytes.size(); ++cut) {
        expect_same(whole, decoded(make, {bytes.substr(0, cut), bytes.substr(cut)}),
                    "cut at byte " + std::to_string(cut));
    }
    return whole;
}

} // namespace zeroline::serial::test
