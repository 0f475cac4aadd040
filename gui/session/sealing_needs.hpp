#pragma once

#include "analysis/verification/bench_file.hpp"
#include "analysis/verification/work_order.hpp"

#include <string>
#include <vector>

namespace zeroline::session {

/// What a record needs before it can be sealed and only people know: better asked before the first cable is touched
/// than found missing after the run. The rest is measured or stands in the order (records::missing_for_seal()).
enum class Need { organisation, address, customer, place, signer };

/// What of it is not known yet, in the order of a form. `bench`: none where there is no bench file. A blank text is not
/// known.
[[nodiscard]] std::vector<Need> sealing_needs(const verification::WorkOrder& order, const verification::Bench* bench,
                                              const std::string& place, const std::string& signer);

/// "place of the run"
[[nodiscard]] std::string words_of(Need need);
/// "organisation, place of the run"
[[nodiscard]] std::string words_of(const std::vector<Need>& needs);

/// Better said before a run than after it. Throws trace::InputError naming what is not known yet.
void refuse_open_needs(const verification::WorkOrder& order, const verification::Bench* bench, const std::string& place,
                       const std::string& signer);

[[nodiscard]] bool is_blank(const std::string& text);

} // namespace zeroline::session
