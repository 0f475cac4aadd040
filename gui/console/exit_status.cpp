#include "gui/console/exit_status.hpp"

#include <algorithm>

namespace zeroline::console {

ExitStatus status_of(metrology::Outcome outcome)
{
    switch (outcome) {
    case metrology::Outcome::pass:
        return ExitStatus::pass;
    case metrology::Outcome::conditional_pass:
        return ExitStatus::conditional_pass;
    case metrology::Outcome::fail:
    case metrology::Outcome::conditional_fail:
        return ExitStatus::fail;
    case metrology::Outcome::incomplete:
    case metrology::Outcome::not_judged:
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
