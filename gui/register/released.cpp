#include "gui/register/released.hpp"

#include <algorithm>
#include <array>
#include <span>

namespace zeroline::unit_register {

namespace {

constexpr std::array kPassed{"pass", "conditional-pass"};
constexpr std::array kAccuracyPassed{"pass", "conditional-pass", "not-judged"};

bool is_among(std::span<const char* const> words, const std::string& word)
{
    return std::find(words.begin(), words.end(), word) != words.end();
}

std::string in_list(std::span<const char* const> words)
{
    std::string list;
    for (const auto* word : words) {
        list += (list.empty() ? " IN ('" : ", '") + std::string(word) + "'";
    }
    return list + ")";
}

} // namespace

bool is_released(const std::string& verdict, const std::string& unit_accuracy, bool critical)
{
    return is_among(kPassed, verdict) && is_among(kAccuracyPassed, unit_accuracy) && !critical;
}

std::string released_in_sql(const std::string& name)
{
    return name + ".verdict" + in_list(kPassed) + " AND " + name + ".unit_accuracy" + in_list(kAccuracyPassed) +
           " AND " + name + ".critical = 0";
}

} // namespace zeroline::unit_register
