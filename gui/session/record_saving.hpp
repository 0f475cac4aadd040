#pragma once

#include "gui/records/sealing.hpp"
#include "gui/session/bench_session.hpp"

#include <string>
#include <vector>

namespace zeroline::session {

/// Who signs a record, as what, and what the signature means.
struct Signing {
    std::string name, role, meaning;
    verification::Disposition disposition = {}; ///< what is done with the unit
};

/// What saving came to.
struct Saved {
    std::vector<std::string> missing; ///< not empty: not sealed; what was captured stays in the FOLDER.part
    std::filesystem::path folder;     ///< of the record
    records::Unlock unlock;           ///< gives the key it was sealed with, for unit_register::deliver()
};

/// Signs, seals and names the record of a run that was seen to its end (records::seal_and_rename()), with this bench's
/// key. Noted for the register (unit_register::Bench), which may be far away, and is asked apart:
/// unit_register::deliver(). Throws trace::InputError, also where a signature lacks its name or role.
[[nodiscard]] Saved save_record(const RunResult& result, const Signing& signing, const records::PageMaker& make_page,
                                const std::string& other_register = {});

} // namespace zeroline::session
