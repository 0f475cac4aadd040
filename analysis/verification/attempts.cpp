#include "analysis/verification/attempts.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using metrology::Outcome;

bool replaced(const Attempt& attempt, const std::vector<Attempt>& attempts)
{
    return std::any_of(attempts.begin(), attempts.end(), [&](const Attempt& later) {
        return later.number > attempt.number && later.replaces && later.replaces->attempt == attempt.number &&
               !later.replaces->evidence.empty();
    });
}

bool said_nothing(const Attempt& attempt, const std::vector<Attempt>& attempts)
{
    return attempt.verdict == Outcome::incomplete &&
           std::any_of(attempts.begin(), attempts.end(), [&](const Attempt& later) {
               return later.number > attempt.number && later.verdict != Outcome::incomplete;
           });
}

} // namespace

std::optional<std::size_t> standing_attempt(const std::vector<Attempt>& attempts)
{
    std::optional<std::size_t> standing;
    for (std::size_t i = 0; i < attempts.size(); ++i) {
        if (replaced(attempts[i], attempts) || said_nothing(attempts[i], attempts)) {
            continue;
        }
        const bool worse = !standing || attempts[i].verdict > attempts[*standing].verdict;
        const bool later = standing && attempts[i].verdict == attempts[*standing].verdict &&
                           attempts[i].number > attempts[*standing].number;
        standing = worse || later ? i : *standing;
    }
    return standing;
}

} // namespace zeroline::verification
