#pragma once

#include "gui/session/bench_session.hpp"

#include <string>

namespace zeroline::session {

/// Who signs a record, as what, and what the signature means.
struct Signature {
    std::string name, role, meaning; ///< meaning: "performed", "reviewed", "approved"
};

/// Makes the record of a run that was seen to its end: record.json, and one rename. Throws trace::InputError, also
/// where a signature lacks its name or role; what was captured then stays in the FOLDER.part.
void save_record(const RunResult& result, const Signature& signature);

} // namespace zeroline::session
