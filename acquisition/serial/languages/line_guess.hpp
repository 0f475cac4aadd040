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
    trace::Parity seven_bit_parity = trace::Parity::none; ///< not none: the bytes are 7 bits with this parity
};

/// Guesses the language of a free-running instrument from what it sent, heard with 8 data bits and no parity. A field
/// that counts by one is taken for the counter, the first other number for the pressure. A comma between two whole
/// numbers may be either mark; then both readings are given.
[[nodiscard]] LineGuess guess_lines(std::string_view bytes);

} // namespace zeroline::serial
