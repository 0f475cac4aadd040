#pragma once

// A whole run on the virtual bench, played at once: unit, hose and transducer from a script, the readings as a capture
// would have written them, and the run log as a careful person would have kept it.

#include "acquisition/trace/instrument.hpp"
#include "acquisition/trace/trace.hpp"
#include "analysis/verification/assessment.hpp"
#include "fixtures/virtual_bench/virtual_bench.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace zeroline::verification {

struct PlayedRun {
    WorkOrder order;
    trace::Instrument instrument;
    RunLog run;
    trace::Trace trace;

    [[nodiscard]] Evidence evidence() const;
};

/// The demonstration's order and instrument, judged by the house profile. `oscillation`: prescribed, 10 Hz and 4 cmH2O.
[[nodiscard]] virtual_bench::BenchSettings house_settings(bool oscillation = false);

/// A healthy unit, prescribed, set and read otherwise each time: pressures of 15 to 60 (unequal too), phases of 1 to 3
/// s, pauses of 1 to 3 s, full and reduced flow, 100 to 500 Hz, other resolutions; `oscillation`: prescribed too.
[[nodiscard]] virtual_bench::BenchSettings varied_settings(std::uint64_t seed, bool oscillation = false);

[[nodiscard]] PlayedRun played(const virtual_bench::BenchSettings& settings);

/// One fault as it stands in the list of docs/diagnosis.md, and what names it.
struct ListedFault {
    std::string code;
    std::vector<std::string> accepted; ///< any of these; "none": nothing needs to be raised
    std::string verdict;               ///< at middle and large size, by the house profile; empty: by its tolerances
};
[[nodiscard]] const std::vector<ListedFault>& listed_faults();

/// The demonstration with one fault.
[[nodiscard]] virtual_bench::BenchSettings settings_with(const std::string& code, double size, std::uint64_t seed);

/// "fail", "fail, critical": as it stands in the list.
[[nodiscard]] std::string verdict_of(const Assessment& result);

/// Whether the findings name the fault.
[[nodiscard]] bool is_named(const ListedFault& fault, const std::vector<Finding>& findings);

} // namespace zeroline::verification
