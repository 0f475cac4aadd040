#pragma once

#include "acquisition/trace/instrument.hpp"

#include <functional>
#include <string>
#include <vector>

namespace zeroline::serial {

/// A set-up with which an instrument could be read.
struct Fit {
    trace::PortSettings port;
    trace::Language language;
    double reads = 0.0;          ///< the latest number it reads, in the unit of the language
    bool unit_is_stated = false; ///< by the line; else the language's unit is nothing but its default
    double rate_hz = 0.0;        ///< about how often it sends by itself; 0: it is asked
    std::string example;         ///< a line or an answer as it came, fit for the eye
    std::string identity;        ///< what the instrument says it is, where it was asked
};

struct SearchResult {
    std::vector<Fit> fits; ///< the likeliest first; more than one where the same bytes can be read in several ways
    std::string sentence;  ///< what was tried, what came, and what to do where nothing fits
};

struct SearchSettings {
    std::string port;          ///< device path
    trace::PortSettings first; ///< tried before the usual ones, with its start text, dtr and rts
    double listen_s = 1.5;     ///< to each setting
    bool may_ask = true;       ///< send queries (`*IDN?`, Modbus reads) where nothing comes by itself
    std::function<bool(const std::string&)> progress; ///< told what is tried next; false: stop searching
};

/// Tries the usual settings and languages on a port. Blocks; opens and closes the port many times. Throws
/// trace::InputError where the port cannot be opened at all.
[[nodiscard]] SearchResult find_settings(const SearchSettings& settings);

} // namespace zeroline::serial
