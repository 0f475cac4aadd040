#include "gui/session/trace_witness.hpp"

namespace zeroline::session {

serial::TraceWitness witness_of(records::CaptureJournal& journal)
{
    return {[&journal](std::string_view bytes) { return journal.trace_grew(bytes); }, [&journal] { journal.sync(); }};
}

} // namespace zeroline::session
