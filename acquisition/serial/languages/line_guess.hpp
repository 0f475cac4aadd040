#pragma once

#include "acquisition/trace/instrument.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace zeroline::serial {

/// What bytes of an unknown instrument look like.
struct LineGuess {
    double text_share = 0.0;                ///< bytes that are printable ASCII, blanks or line ends; 0 to 1
    std::size_t lines = 0;                  ///< whole lines
    std::string example;                    ///< the last whole line, fit for the eye
    std::vector<trace::Language> languages; ///< numeric-lines that read nine lines of ten, the likeliest first
    std::vector<double> reads;              ///< the latest number that each of them reads, in its unit
    std::string unknown_unit; ///< stands behind the number, but is no unit that is known; its line gives no language
    trace::Parity seven_bit_parity = trace::Parity::none; ///< not none: the bytes are 7 bits with this parity
};

/// Guesses the language of a free-running instrument from what it sent, heard with 8 data bits and no parity. Fields
/// may have names, lines a prefix or the frame bytes STX and ETX. A field that counts by one is taken for the counter,
/// the first other number for the pressure: one with a unit before one without, and no number that always rises. A
/// comma between two whole numbers may be either mark; then both readings are given, unless one of them cuts a number.
/// A unit that stands on the line becomes the language's own; a language without `unit_field` states none.
[[nodiscard]] LineGuess guess_lines(std::string_view bytes);

} // namespace zeroline::serial
