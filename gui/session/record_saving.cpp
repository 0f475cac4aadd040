#include "gui/session/record_saving.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/signing_key.hpp"
#include "gui/register/delivery.hpp"
#include "gui/session/after_the_verdict.hpp"
#include "gui/session/result_view.hpp"

#include <QDateTime>

namespace zeroline::session {

namespace {

/// What was said of the unit goes into the run log before the record is sealed. Nothing was said: as it was judged.
std::optional<Judged> with_disposition(const RunResult& result, const Signing& signing,
                                       const records::SealRequest& request)
{
    const auto& said = signing.disposition;
    if (!said.says_something()) {
        return std::nullopt;
    }
    refuse_disposition(said, result_view(result.assessed.record_json, Reader::screen));
    return judged_again_with(*result.folder, said,
                             request.unlock ? request.unlock() : records::SigningKey::load_or_make(request.key_file));
}

} // namespace

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
    const auto anew = with_disposition(result, signing, request);
    unit_register::expect_record({result.bench_file, other_register}, result.folder->folder());
    const auto sealing = records::seal_and_rename(*result.folder, anew ? anew->evidence : result.evidence,
                                                  anew ? anew->assessed : result.assessed, request);
    return {sealing.missing, sealing.folder, request.unlock};
}

} // namespace zeroline::session
