#include "gui/session/record_saving.hpp"

#include "acquisition/trace/input_error.hpp"

namespace zeroline::session {

void save_record(const RunResult& result, const Signature& signature)
{
    if (signature.name.empty() || signature.role.empty()) {
        throw trace::InputError("signature", signature.name.empty() ? "no name" : "no role",
                                "the printed name and the role of who signs");
    }
    result.folder->put(records::name::record, result.assessed.record_json);
    result.folder->finish();
}

} // namespace zeroline::session
