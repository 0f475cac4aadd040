#include "analysis/verification/attempts.hpp"

#include <algorithm>

namespace zeroline::verification {

namespace {

using metrology::Outcome;

bool passes(Outcome verdict) { return verdict == Outcome::pass || verdict == Outcome::conditional_pass; }

/// The attempt that stands in place of this one; null where none does.
const Attempt* replacement(const Attempt& attempt, const std::vector<Attempt>& attempts)
{
    const auto it = std::find_if(attempts.begin(), attempts.end(), [&](const Attempt& later) {
        return later.number > attempt.number && passes(later.verdict) && later.replaces &&
               later.replaces->attempt == attempt.number && !later.replaces->evidence.empty();
    });
    return it == attempts.end() ? nullptr : &*it;
}

bool said_nothing(const Attempt& attempt, const std::vector<Attempt>& attempts)
{
    return attempt.verdict == Outcome::incomplete &&
           std::any_of(attempts.begin(), attempts.end(),
                       [](const Attempt& other) { return other.verdict != Outcome::incomplete; });
}

std::string in_words(Outcome outcome)
{
    std::string word(metrology::word_of(outcome));
    std::replace(word.begin(), word.end(), '-', ' ');
    return word;
}

std::string named(const Attempt& attempt) { return "attempt " + std::to_string(attempt.number); }

/// Why an attempt other than the one that stands does not.
std::string why_not(const Attempt& other, const Attempt& standing, const std::vector<Attempt>& attempts)
{
    if (const auto* by = replacement(other, attempts)) {
        return named(other) + " is replaced by attempt " + std::to_string(by->number) + " (" + by->replaces->cause +
               ": " + by->replaces->evidence + ")";
    }
    if (said_nothing(other, attempts)) {
        return named(other) + " said nothing about the unit";
    }
    if (other.number > standing.number && other.verdict < standing.verdict) {
        return named(other) + " names no cause in the set-up with its evidence";
    }
    return named(other) + (other.verdict == standing.verdict ? " says the same" : " is not the worst");
}

} // namespace

std::optional<std::size_t> standing_attempt(const std::vector<Attempt>& attempts)
{
    std::optional<std::size_t> standing;
    for (std::size_t i = 0; i < attempts.size(); ++i) {
        if (replacement(attempts[i], attempts) != nullptr || said_nothing(attempts[i], attempts)) {
            continue;
        }
        const bool worse = !standing || attempts[i].verdict > attempts[*standing].verdict;
        const bool later = standing && attempts[i].verdict == attempts[*standing].verdict &&
                           attempts[i].number > attempts[*standing].number;
        standing = worse || later ? i : *standing;
    }
    return standing;
}

std::string standing_sentence(const std::vector<Attempt>& attempts)
{
    const auto at = standing_attempt(attempts);
    if (!at || attempts.size() < 2) {
        return {};
    }
    const auto& standing = attempts[*at];
    std::string text = "Attempt " + std::to_string(standing.number) + " stands: " + in_words(standing.verdict);
    for (const auto& other : attempts) {
        if (other.number != standing.number) {
            text += "; " + why_not(other, standing, attempts);
        }
    }
    return text + ".";
}

} // namespace zeroline::verification
