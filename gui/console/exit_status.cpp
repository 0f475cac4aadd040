#include "gui/console/exit_status.hpp"

#include <algorithm>

namespace zeroline::console {

using metrology::Outcome;

ExitStatus status_of(Outcome outcome)
{
    switch (outcome) {
    case Outcome::pass:
        return ExitStatus::pass;
    case Outcome::conditional_pass:
        return ExitStatus::conditional_pass;
    case Outcome::fail:
    case Outcome::conditional_fail:
        return ExitStatus::fail;
    case Outcome::incomplete:
    case Outcome::not_judged:
        break;
    }
    return ExitStatus::incomplete;
}

ExitStatus status_of(const verification::Assessment& assessment)
{
    return status_of(metrology::worse(assessment.verdict, assessment.unit_accuracy));
}

ExitStatus status_of(const std::vector<ExitStatus>& inputs)
{
    for (const auto first :
         {ExitStatus::wrong_input, ExitStatus::fail, ExitStatus::incomplete, ExitStatus::conditional_pass}) {
        if (std::find(inputs.begin(), inputs.end(), first) != inputs.end()) {
            return first;
        }
    }
    return ExitStatus::pass;
}

} // namespace zeroline::console
