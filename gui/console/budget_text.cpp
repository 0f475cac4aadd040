#include "gui/console/budget_text.hpp"

#include "acquisition/trace/visible_text.hpp"
#include "gui/console/text_table.hpp"
#include "gui/session/number_text.hpp"

#include <cmath>
#include <cstdio>

namespace zeroline::console {

using metrology::Contribution;
using metrology::Expanded;
using session::fixed_text;
using verification::Assessment;
using verification::Judgement;

namespace {

std::string freedom(double dof) { return std::isinf(dof) ? "inf" : fixed_text(dof, 1); }

/// Microseconds, a ten-thousandth of a cmH2O: fine enough for the smallest entry, and decimal points stand below each
/// other.
int decimals_of(const std::string& unit) { return unit == "cmH2O" ? 4 : 6; }

std::string percent(double part, double whole)
{
    return whole > 0.0 ? fixed_text(100.0 * part * part / (whole * whole), 1) + " %" : "";
}

std::string sensitivity_text(double sensitivity)
{
    char text[32];
    std::snprintf(text, sizeof text, "%.4g", sensitivity);
    return text;
}

std::string name_of(const Judgement& judgement)
{
    const auto name =
        trace::visible_on_one_line(judgement.measurand + ", preset " + judgement.preset + ", against " +
                                   judgement.against + (judgement.power.empty() ? "" : ", on " + judgement.power));
    return judgement.worst_cycle ? name + ", cycle " + std::to_string(*judgement.worst_cycle) : name;
}

TextTable table_of(const Judgement& judgement, const Expanded& whole)
{
    TextTable table({"  contribution", "value", "unit", "distribution", "divisor", "u", "sensitivity",
                     "|c| u, " + judgement.unit, "share", "dof"});
    const int decimals = decimals_of(judgement.unit);
    for (const auto& one : judgement.budget) {
        const auto& unit = one.unit.empty() ? judgement.unit : one.unit;
        table.add({"  " + one.name, fixed_text(one.value, decimals_of(unit)), unit,
                   std::string(metrology::word_of(one.distribution)), fixed_text(one.divisor(), 3),
                   fixed_text(one.standard_uncertainty(), decimals_of(unit)), sensitivity_text(one.sensitivity),
                   fixed_text(one.share(), decimals), percent(one.share(), whole.standard_uncertainty),
                   freedom(one.dof)});
    }
    table.add({"  combined", "", "", "", "", "", "", fixed_text(whole.standard_uncertainty, decimals), "100.0 %",
               freedom(whole.effective_dof)});
    return table;
}

/// Where rectangles dominate, k is not Student's: it is that of the distribution which results.
std::string source_of_factor(const Expanded& whole)
{
    const double student = metrology::student_factor(metrology::kCoverage, whole.effective_dof);
    if (std::abs(whole.coverage_factor - student) > 1e-9) {
        return "of the sum: one or two rectangles are larger than all the rest";
    }
    return std::isinf(whole.effective_dof) ? "normal"
                                           : "Student t, " + freedom(whole.effective_dof) + " degrees of freedom";
}

std::string budget_of(const Judgement& judgement)
{
    const auto whole = metrology::combine(judgement.budget);
    const int decimals = decimals_of(judgement.unit);
    return name_of(judgement) + "\n" + table_of(judgement, whole).text() +
           "  k = " + fixed_text(whole.coverage_factor, 3) + " for 95.45 % (" + source_of_factor(whole) +
           ")\n  result " + fixed_text(*judgement.worst, decimals) + " " + judgement.unit +
           ", U = " + fixed_text(whole.expanded_uncertainty, decimals) + " " + judgement.unit + "\n";
}

} // namespace

std::string budget_text(const Assessment& assessment)
{
    std::string text = "Uncertainty budgets, each of the worst judged cycle (JCGM 100). u: standard uncertainty of the "
                       "contribution; share: of the variance\n";
    for (const auto& judgement : assessment.judgements) {
        if (judgement.worst && !judgement.budget.empty()) {
            text += "\n" + budget_of(judgement);
        }
    }
    return text;
}

} // namespace zeroline::console
