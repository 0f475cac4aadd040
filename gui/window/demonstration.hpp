#pragma once

#include "acquisition/trace/instrument.hpp"
#include "gui/session/run_files.hpp"
#include "gui/session/run_steps.hpp"

#include <string>

namespace zeroline::window {

/// The demonstration that is built in: "order.json", "instrument.json", "bench.json".
[[nodiscard]] std::string demonstration_text(const char* file);

/// A file that was chosen, or FileChoice::kDemonstration. Throw trace::InputError.
[[nodiscard]] records::Read<verification::WorkOrder> chosen_order(const QString& file);
[[nodiscard]] records::Read<trace::Instrument> chosen_instrument(const QString& file);

/// A file that still holds values of the demonstration is no file of a real unit or instrument. Throws
/// trace::InputError that names `file` and the value.
void refuse_demonstration(const verification::WorkOrder& order, const std::string& file);
void refuse_demonstration(const trace::Instrument& instrument, const std::string& file);

/// What *New* begins with: nothing of the demonstration, nothing that a person has to know.
[[nodiscard]] verification::WorkOrder empty_order();
[[nodiscard]] trace::Instrument empty_instrument();

} // namespace zeroline::window
