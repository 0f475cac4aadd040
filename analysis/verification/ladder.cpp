#include "analysis/verification/ladder.hpp"

#include "analysis/metrology/drift.hpp"
#include "analysis/verification/budgets.hpp"
#include "analysis/verification/measurands.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>

namespace zeroline::verification {

namespace {

using metrology::Contribution;
using metrology::Distribution;

constexpr std::size_t kLeastSettings = 3;

/// Means against settings of one measurand of one preset, and their rows.
struct Points {
    std::vector<double> set, measured;
    std::vector<const Judgement*> rows;
};

Points points_of(const std::vector<Judgement>& judgements, const std::string& preset, const std::string& measurand)
{
    Points points;
    for (const auto& row : judgements) {
        if (row.span && row.preset == preset && row.measurand == measurand && row.set && row.mean) {
            points.set.push_back(*row.set);
            points.measured.push_back(*row.mean);
            points.rows.push_back(&row);
        }
    }
    return points;
}

bool enough(const Points& points)
{
    return std::set<double>(points.set.begin(), points.set.end()).size() >= kLeastSettings;
}

/// What an error that all settings share does to the line, entry by entry: its shares are fitted as the values are.
struct SharedParts {
    std::vector<Contribution> gain, offset;
};

/// A certificate does not say whether its errors at two pressures go the same way: an error of the instrument is taken
/// for one that shifts the line, and once more for one that tilts it about its middle.
bool may_tilt(const std::string& entry, const Judgement& row)
{
    return row.unit == "cmH2O" && !entry.starts_with("zero");
}

void add_tilt(SharedParts& parts, const std::string& name, const std::vector<double>& set,
              const std::vector<double>& shares)
{
    const auto [low, high] = std::minmax_element(set.begin(), set.end());
    const double largest = *std::max_element(shares.begin(), shares.end());
    const double tilt = largest / (0.5 * (*high - *low));
    parts.gain.push_back({name + ", tilt", tilt});
    parts.offset.push_back({name + ", tilt", tilt * 0.5 * (*high + *low)});
}

SharedParts shared_parts(const Points& points)
{
    std::map<std::string, std::vector<double>> shares;
    for (std::size_t i = 0; i < points.rows.size(); ++i) {
        for (const auto& entry : points.rows[i]->budget) {
            if (!differs_by_cycle(entry)) {
                auto& of_entry = shares[entry.name];
                of_entry.resize(points.rows.size(), 0.0);
                of_entry[i] = std::hypot(of_entry[i], entry.share());
            }
        }
    }
    SharedParts parts;
    for (const auto& [name, values] : shares) {
        if (const auto line = metrology::fit_line(points.set, values)) {
            parts.gain.push_back({name, line->slope});
            parts.offset.push_back({name, line->intercept});
        }
        if (may_tilt(name, *points.rows.front())) {
            add_tilt(parts, name, points.set, values);
        }
    }
    return parts;
}

double expanded_u(std::vector<Contribution> budget, double scatter_u, double dof)
{
    for (auto& entry : budget) {
        entry.value = std::fabs(entry.value);
    }
    budget.push_back({"scatter about the line", scatter_u, Distribution::student, dof});
    return metrology::combine(budget).expanded_uncertainty;
}

void add_largest_deviation(LadderFit& fit, const Points& points)
{
    for (std::size_t i = 0; i < points.set.size(); ++i) {
        const double deviation = points.measured[i] - (fit.offset + fit.gain * points.set[i]);
        if (i == 0 || std::fabs(deviation) > std::fabs(fit.largest_deviation)) {
            fit.largest_deviation = deviation;
            fit.deviates_at = points.set[i];
            fit.deviation_uncertainty = points.rows[i]->mean_uncertainty.value_or(0.0);
        }
    }
}

std::optional<LadderFit> fit_of(const Points& points)
{
    const auto line = metrology::fit_line(points.set, points.measured);
    if (!line) {
        return std::nullopt;
    }
    const auto shared = shared_parts(points);
    LadderFit fit;
    fit.measurand = points.rows.front()->measurand;
    fit.preset = points.rows.front()->preset;
    fit.unit = points.rows.front()->unit;
    fit.settings = static_cast<int>(points.set.size());
    fit.gain = line->slope;
    fit.offset = line->intercept;
    fit.gain_uncertainty = expanded_u(shared.gain, line->slope_u, line->dof);
    fit.offset_uncertainty = expanded_u(shared.offset, line->intercept_u, line->dof);
    add_largest_deviation(fit, points);
    return fit;
}

std::set<std::string> presets_of(const std::vector<Judgement>& judgements)
{
    std::set<std::string> presets;
    for (const auto& row : judgements) {
        presets.insert(row.preset);
    }
    return presets;
}

} // namespace

std::vector<LadderFit> ladder_fits(const std::vector<Judgement>& judgements)
{
    static const std::array<std::string, 4> kFitted{measurand::insufflation_pressure, measurand::exsufflation_pressure,
                                                    measurand::insufflation_duration, measurand::exsufflation_duration};
    std::vector<LadderFit> fits;
    for (const auto& preset : presets_of(judgements)) {
        for (const auto& measurand : kFitted) {
            const auto points = points_of(judgements, preset, measurand);
            if (const auto fit = enough(points) ? fit_of(points) : std::nullopt) {
                fits.push_back(*fit);
            }
        }
    }
    return fits;
}

bool is_of_ladder(const Cycle& cycle, const Assessment& assessment)
{
    // Every setting has its rows, and a row names the span that it was asked about.
    return std::any_of(assessment.judgements.begin(), assessment.judgements.end(),
                       [&](const Judgement& row) { return row.span == cycle.span; });
}

} // namespace zeroline::verification
