#include "gui/console/attempts_text.hpp"

#include "acquisition/trace/visible_text.hpp"
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

namespace {

using Attempts = std::vector<KeptAttempt>;

std::string named(const KeptAttempt& one)
{
    const auto& attempt = one.attempt;
    auto text = "attempt " + std::to_string(attempt.number) + " " + in_words(attempt.verdict);
    if (attempt.replaces) {
        text += " (in place of " + std::to_string(attempt.replaces->attempt) + ": " + attempt.replaces->cause + ")";
    }
    return text + (one.counts == records::Counts::unproven ? " (unproven)" : "");
}

/// Attempts as found, or as left after the same repair, and which of them stands.
std::string stage_text(const Attempts& stage)
{
    std::string list;
    std::vector<verification::Attempt> plain;
    for (const auto& one : stage) {
        list += (list.empty() ? "" : ", ") + named(one);
        plain.push_back(one.attempt);
    }
    const auto standing = verification::standing_sentence(plain);
    return list + "." + (standing.empty() ? "" : " " + standing);
}

std::vector<Attempts> stages_of(const Attempts& attempts)
{
    std::vector<Attempts> stages;
    for (const auto& one : attempts) {
        if (one.counts == records::Counts::not_at_all) {
            continue;
        }
        const auto its = std::find_if(stages.begin(), stages.end(),
                                      [&](const auto& stage) { return stage.front().belongs_with(one); });
        if (its == stages.end()) {
            stages.push_back({one});
        } else {
            its->push_back(one);
        }
    }
    return stages;
}

std::string uncounted_text(const Attempts& attempts)
{
    std::string list;
    for (const auto& one : attempts) {
        if (one.counts == records::Counts::not_at_all) {
            list += (list.empty() ? "" : "; ") + named(one) + " in " + one.folder.string() + " (" + one.why_not + ")";
        }
    }
    return list.empty() ? std::string() : " Not counted: " + list + ".";
}

} // namespace

std::string attempts_text(const Attempts& attempts)
{
    if (attempts.size() < 2) {
        return {};
    }
    auto text = attempts.front().work_order + ", " + attempts.front().asset + ":";
    const auto stages = stages_of(attempts);
    const bool repaired = stages.size() > 1 || (!stages.empty() && !stages.front().front().as_found.empty());
    for (const auto& stage : stages) {
        const auto* when = !repaired ? " " : stage.front().as_found.empty() ? " as found: " : " as left: ";
        text += when + stage_text(stage);
    }
    return trace::visible_on_one_line(text + uncounted_text(attempts));
}

std::string all_attempts_text(const Attempts& attempts)
{
    std::vector<Attempts> orders;
    for (const auto& one : attempts) {
        const auto its = std::find_if(orders.begin(), orders.end(),
                                      [&](const auto& order) { return order.front().same_order(one); });
        if (its == orders.end()) {
            orders.push_back({one});
        } else {
            its->push_back(one);
        }
    }
    std::string text;
    for (auto& order : orders) {
        std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
            return std::pair(a.as_found, a.attempt.number) < std::pair(b.as_found, b.attempt.number);
        });
        const auto line = attempts_text(order);
        text += line.empty() ? "" : line + "\n";
    }
    return text;
}

std::vector<std::string> told_of_earlier(const std::vector<records::KeptAttempt>& earlier, int attempt, bool replaces)
{
    std::vector<std::string> lines{"Attempt " + std::to_string(attempt) +
                                   " of this work order; earlier ones are kept:"};
    bool failed = false;
    for (const auto& one : earlier) {
        lines.push_back("  attempt " + std::to_string(one.attempt.number) + ", " +
                        std::string(metrology::word_of(one.attempt.verdict)) + ": " + one.folder.string());
        failed = failed || metrology::is_fail(one.attempt.verdict);
    }
    if (failed && !replaces) {
        lines.emplace_back(
            "  A pass does not replace a fail unless the set-up was its cause: --replaces, --cause, --evidence.");
    }
    return lines;
}

} // namespace zeroline::console
