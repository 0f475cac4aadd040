#include "gui/console/budget_text.hpp"

#include "gui/console/text_table.hpp"
#include "gui/session/number_text.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::console {

using session::fixed_text;
using verification::Assessment;
using verification::Cycle;
using verification::Judgement;

namespace {

std::string freedom(double dof) { return std::isinf(dof) ? "inf" : fixed_text(dof, 1); }

std::string budget_of(const Judgement& judgement, const Cycle::Quantity& quantity)
{
    constexpr int digits = 5;
    TextTable table({"  contribution", "value", "distribution", "sensitivity", "share", "freedom", ""});
    for (const auto& one : quantity.budget) {
        table.add({"  " + one.name, fixed_text(one.value, digits), std::string(metrology::word_of(one.distribution)),
                   fixed_text(one.sensitivity, 3), fixed_text(one.share(), digits), freedom(one.dof), judgement.unit});
    }
    const auto& whole = quantity.expanded;
    return table.text() + "  combined " + fixed_text(whole.standard_uncertainty, digits) + ", freedom " +
           freedom(whole.effective_dof) + ", k " + fixed_text(whole.coverage_factor, 3) + ", U " +
           fixed_text(whole.expanded_uncertainty, digits) + " " + judgement.unit + " (95.45 %)\n";
}

const Cycle::Quantity* worst_of(const Assessment& assessment, const Judgement& judgement)
{
    if (!judgement.worst_cycle) {
        return nullptr;
    }
    const auto cycle = std::find_if(assessment.cycles.begin(), assessment.cycles.end(),
                                    [&](const Cycle& one) { return one.index == *judgement.worst_cycle; });
    if (cycle == assessment.cycles.end()) {
        return nullptr;
    }
    const auto quantity = cycle->quantities.find(judgement.measurand);
    return quantity == cycle->quantities.end() ? nullptr : &quantity->second;
}

} // namespace

std::string budget_text(const Assessment& assessment)
{
    std::string text = "Uncertainty budgets, each of the worst judged cycle\n";
    for (const auto& judgement : assessment.judgements) {
        if (const auto* quantity = worst_of(assessment, judgement)) {
            text += judgement.preset + ", " + judgement.measurand + ", cycle " +
                    std::to_string(*judgement.worst_cycle) + "\n" + budget_of(judgement, *quantity);
        }
    }
    return text;
}

} // namespace zeroline::console
