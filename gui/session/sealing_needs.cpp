#include "gui/session/sealing_needs.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/session/run_words.hpp"

namespace zeroline::session {

std::vector<Need> sealing_needs(const verification::WorkOrder& order, const verification::Bench* bench,
                                const std::string& place, const std::string& signer)
{
    const std::pair<Need, std::string> known[] = {{Need::organisation, bench != nullptr ? bench->organisation : ""},
                                                  {Need::address, bench != nullptr ? bench->address : ""},
                                                  {Need::customer, order.customer},
                                                  {Need::place, place},
                                                  {Need::signer, signer}};
    std::vector<Need> needs;
    for (const auto& [need, text] : known) {
        if (is_blank(text)) {
            needs.push_back(need);
        }
    }
    return needs;
}

std::string words_of(Need need)
{
    switch (need) {
    case Need::organisation:
        return said(Run::tr("organisation that runs this bench"));
    case Need::address:
        return said(Run::tr("address of the organisation"));
    case Need::customer:
        return said(Run::tr("customer, or why there is none"));
    case Need::place:
        return said(Run::tr("place of the run"));
    case Need::signer:
        break;
    }
    return said(Run::tr("name of who runs it and signs"));
}

std::string words_of(const std::vector<Need>& needs)
{
    std::string list;
    for (const auto need : needs) {
        list += (list.empty() ? "" : ", ") + words_of(need);
    }
    return list;
}

void refuse_open_needs(const verification::WorkOrder& order, const verification::Bench* bench, const std::string& place,
                       const std::string& signer)
{
    if (const auto needs = sealing_needs(order, bench, place, signer); !needs.empty()) {
        throw trace::InputError(words_of(needs), said(Run::tr("not known")),
                                said(Run::tr("all of it before the run: a record cannot be sealed without")));
    }
}

bool is_blank(const std::string& text) { return text.find_first_not_of(" \t") == std::string::npos; }

} // namespace zeroline::session
