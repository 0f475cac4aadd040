#pragma once

#include "acquisition/serial/capture.hpp"
#include "acquisition/serial/port_list.hpp"
#include "analysis/verification/bench_file.hpp"
#include "analysis/verification/work_order.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::console {

/// One thing looked at before a person leaves for a unit.
struct Check {
    bool ok = true;
    std::string what;  ///< "calibration"
    std::string found; ///< one sentence; where not `ok`, with what to do
};

/// Space for a day of records; an hour at 1 kHz is 61 MB.
inline constexpr std::uintmax_t kEnoughSpace_bytes = 500'000'000;
/// A run takes ten minutes; half a battery is there in an hour still.
inline constexpr int kEnoughCharge_percent = 50;
/// A calibration that ends within so many days is mentioned.
inline constexpr int kSoon_days = 30;

/// Is the certificate valid on that day (YYYY-MM-DD, both ends included), and not still the template's example?
[[nodiscard]] Check check_calibration(const trace::Instrument& instrument, const std::string& day);

/// Does the instrument's check against a second gauge still hold? One that was never made is named, and no more.
[[nodiscard]] Check check_span(const std::filesystem::path& instrument_file, const std::string& day);

/// Do the pressures prescribed lie within the range the certificate covers?
[[nodiscard]] Check check_range(const verification::WorkOrder& order, const trace::Instrument& instrument);

/// May this person open the port? Names the group that may, where not. Opens nothing.
[[nodiscard]] Check check_permission(const std::string& port);

/// Listens on the first of `ports` that brings a reading, each for `listen_s` after the instrument's settling time.
[[nodiscard]] Check check_sensor(const std::vector<std::string>& ports, const trace::Instrument& instrument,
                                 double listen_s);

/// Whether what sealing needs stands in the files; what is typed at the run is only named. None for a file: there is
/// none.
[[nodiscard]] Check check_sealing(const std::optional<verification::WorkOrder>& order,
                                  const std::optional<verification::Bench>& bench);

/// Whether the key of this bench can seal: it is there, only its owner may read it, its list of public keys does not
/// speak against it. No key and no list is no miss: the first record makes both.
[[nodiscard]] Check check_key(const std::filesystem::path& key_file);

/// Room for records, and the right to write them, in `folder`.
[[nodiscard]] Check check_disk(const std::filesystem::path& folder);

/// Charge of the computer's own battery, from the kernel's list (/sys/class/power_supply); a mouse's does not count. No
/// battery is no miss: such a computer lives on the mains.
[[nodiscard]] Check check_battery(const std::filesystem::path& power_supplies);

} // namespace zeroline::console
