#pragma once

#include "acquisition/serial/trace_file.hpp"
#include "gui/records/capture_journal.hpp"

namespace zeroline::session {

/// Lets a capture tell a journal what stands in its trace file. The journal must outlive the capture.
[[nodiscard]] serial::TraceWitness witness_of(records::CaptureJournal& journal);

} // namespace zeroline::session
