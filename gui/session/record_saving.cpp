#include "gui/session/record_saving.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/delivery.hpp"

#include <QDateTime>

namespace zeroline::session {

Saved save_record(const RunResult& result, const Signing& signing, const records::PageMaker& make_page,
                  const std::string& other_register)
{
    if (signing.name.empty() || signing.role.empty()) {
        throw trace::InputError("signature", signing.name.empty() ? "no name" : "no role",
                                "the printed name and the role of who signs");
    }
    records::SealRequest request;
    request.signature = {signing.name, signing.role, signing.meaning, local_rfc3339()};
    request.key_file = records::key_file(result.bench_file);
    if (result.key) {
        request.unlock = [key = *result.key] { return key; };
    }
    request.make_page = make_page;
    unit_register::expect_record({result.bench_file, other_register}, result.folder->folder());
    const auto sealing = records::seal_and_rename(*result.folder, result.evidence, result.assessed, request);
    return {sealing.missing, sealing.folder, request.unlock};
}

} // namespace zeroline::session
