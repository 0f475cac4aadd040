#include "gui/records/dates.hpp"

#include "analysis/verification/civil_time.hpp"

#include <nlohmann/json.hpp>

namespace zeroline::records {

using nlohmann::json;

namespace {

std::string stated_at(const json& tree, const char* pointer)
{
    const json::json_pointer place(pointer);
    return tree.contains(place) && tree.at(place).is_string() ? tree.at(place).get<std::string>() : std::string();
}

bool before(const std::string& instant, const std::string& other)
{
    return verification::is_instant(instant) && verification::is_instant(other) &&
           verification::epoch_s_of(instant) < verification::epoch_s_of(other);
}

} // namespace

std::vector<std::string> impossible_dates(const json& record)
{
    std::vector<std::string> said;
    const auto began = stated_at(record, "/run/began");
    if (!verification::is_instant(began)) {
        return said;
    }
    const std::pair<const char*, const char*> days[] = {
        {"/order/ordered_on", "the prescription was ordered on "},
        {"/instrument/calibrated_on", "the instrument was calibrated on "}};
    for (const auto& [pointer, words] : days) {
        if (const auto day = stated_at(record, pointer); !day.empty() && verification::day_of(began) < day) {
            said.push_back("the run began " + began + ", before " + words + day);
        }
    }
    if (const auto signed_at = stated_at(record, "/issue/issued"); before(signed_at, began)) {
        said.push_back("the record was signed " + signed_at + ", before the run began " + began);
    }
    return said;
}

std::vector<std::string> impossible_addition(const std::string& signed_at, const std::string& time)
{
    if (before(time, signed_at)) {
        return {"an addendum was signed " + time + ", before the record itself " + signed_at};
    }
    return {};
}

} // namespace zeroline::records
