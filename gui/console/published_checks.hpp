#pragma once

#include <string>
#include <vector>

namespace zeroline::console {

/// One published value, and what this installation makes of it.
struct PublishedCheck {
    std::string
        group; ///< "units", "statistics", "uncertainty", "decision", "waveform", "protocol", "hashes", "signature"
    std::string what;
    std::string source; ///< publication and clause; "closed form" where it follows from a formula
    std::string expected, got;
    std::string within; ///< how far they may lie apart; empty: exactly
    bool agrees = false;
};

/// `got` agrees with `expected` within `within` (absolute).
[[nodiscard]] PublishedCheck numbers_agree(std::string what, std::string source, double expected, double got,
                                           double within);
/// Texts agree exactly.
[[nodiscard]] PublishedCheck texts_agree(std::string what, std::string source, std::string expected, std::string got);

/// Every check, computed now through the libraries that judge a unit, in the order of the groups.
[[nodiscard]] std::vector<PublishedCheck> published_checks();

/// The group "waveform": edges of a known shape, whose levels and times follow from a formula.
[[nodiscard]] std::vector<PublishedCheck> waveform_checks();

} // namespace zeroline::console
