#include "gui/console/attempts_text.hpp"

#include "analysis/verification/attempts.hpp"

#include <algorithm>

namespace zeroline::console {

using records::KeptAttempt;

namespace {

std::string in_words(metrology::Outcome outcome)
{
    std::string word(metrology::word_of(outcome));
    std::replace(word.begin(), word.end(), '-', ' ');
    return word;
}

} // namespace

std::string attempts_text(const std::vector<KeptAttempt>& attempts)
{
    if (attempts.size() < 2) {
        return {};
    }
    std::string list;
    for (const auto& one : attempts) {
        const auto& attempt = one.attempt;
        list += (list.empty() ? "" : ", ") + ("attempt " + std::to_string(attempt.number)) + " " +
                in_words(attempt.verdict);
        if (attempt.replaces) {
            list += " (in place of " + std::to_string(attempt.replaces->attempt) + ": " + attempt.replaces->cause + ")";
        }
    }
    std::vector<verification::Attempt> plain;
    for (const auto& one : attempts) {
        plain.push_back(one.attempt);
    }
    return attempts.front().work_order + ", " + attempts.front().asset + ": " + list + ". " +
           verification::standing_sentence(plain);
}

std::string all_attempts_text(const std::vector<KeptAttempt>& attempts)
{
    std::vector<std::vector<KeptAttempt>> orders;
    for (const auto& one : attempts) {
        const auto its = std::find_if(orders.begin(), orders.end(),
                                      [&](const auto& order) { return order.front().belongs_with(one); });
        if (its == orders.end()) {
            orders.push_back({one});
        } else {
            its->push_back(one);
        }
    }
    std::string text;
    for (auto& order : orders) {
        std::stable_sort(order.begin(), order.end(),
                         [](const auto& a, const auto& b) { return a.attempt.number < b.attempt.number; });
        const auto line = attempts_text(order);
        text += line.empty() ? "" : line + "\n";
    }
    return text;
}

} // namespace zeroline::console
