#pragma once

#include "acquisition/trace/trace.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace zeroline::console {

/// The samples of a derived trace: `time_s,pressure_cmH2O`, a line each, numbers as the shortest text that reads back
/// to the same bits. It reads as a trace (docs/formats.md).
[[nodiscard]] std::string trace_csv(const trace::Trace& trace);

/// The judgements of a record.json, a line each. The columns are the same for every record: which record it is, then
/// the keys of a judgement in their order, with `_` for a level. Null is an empty cell; a text is written as
/// session::csv_cell() does.
[[nodiscard]] std::string judgements_csv(const nlohmann::ordered_json& record);

/// The cycles in the same way: `insufflation_duration_s`, `pause_residual_cmH2O` ... and, for each phase, why a value
/// of it is null.
[[nodiscard]] std::string cycles_csv(const nlohmann::ordered_json& record);

} // namespace zeroline::console
