#include "analysis/verification/strength.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::verification {

namespace {

using metrology::Contribution;
using metrology::Distribution;
using signal::PhaseKind;

constexpr double kDischarge = 0.62;
constexpr double kAir_kg_per_m3 = 1.2;
constexpr double kPa_per_cmH2O = 98.0665;
constexpr double kSameDiameter_mm = 0.01;

/// Plateaus of one phase, alike but for their scatter.
struct Levels {
    std::vector<double> all;

    [[nodiscard]] double mean() const
    {
        double sum = 0.0;
        for (const double one : all) {
            sum += one;
        }
        return sum / static_cast<double>(all.size());
    }
    [[nodiscard]] double mean_u() const
    {
        double squares = 0.0;
        for (const double one : all) {
            squares += (one - mean()) * (one - mean());
        }
        const auto n = static_cast<double>(all.size());
        return std::sqrt(squares / (n - 1.0) / n);
    }
    [[nodiscard]] double dof() const { return static_cast<double>(all.size()) - 1.0; }
};

constexpr std::size_t kFewest = 2;

Levels at_closed_end(const MeasuredTrace& measured_trace, const MeasuredSpan& under_flow, const std::string& measurand)
{
    Levels levels;
    for (const auto& span : measured_trace.spans) {
        const bool same = span.span.what == SpanKind::automatic && span.span.preset == under_flow.span.preset;
        for (const auto& cycle : measured_trace.cycles) {
            const auto found = cycle.quantities.find(measurand);
            if (same && cycle.judged && cycle.span == span.index && found != cycle.quantities.end()) {
                levels.all.push_back(found->second.value);
            }
        }
    }
    return levels;
}

Levels with_flow(const MeasuredSpan& under_flow, PhaseKind kind, int lead_cycles)
{
    Levels levels;
    int seen = 0;
    for (const auto& phase : under_flow.phases) {
        if (phase.kind == kind && phase.plateau && !phase.cut() && seen++ >= lead_cycles) {
            levels.all.push_back(phase.plateau->value_cmH2O);
        }
    }
    return levels;
}

/// An error that both levels share shifts them alike; a wrong gain leaves their ratio as it is.
double share_u(const Levels& open, const Levels& closed, double instrument_u)
{
    const double w = open.mean(), c = closed.mean();
    return metrology::combine(
               {{"scatter under flow", open.mean_u(), Distribution::student, open.dof(), 1.0 / c},
                {"scatter at the closed end", closed.mean_u(), Distribution::student, closed.dof(), w / (c * c)},
                {"instrument", instrument_u, Distribution::normal, std::numeric_limits<double>::infinity(),
                 (1.0 - w / c) / c}})
        .expanded_uncertainty;
}

void compare_with_first(Strength& row, const FirstStrength* first)
{
    if (first == nullptr || std::fabs(first->diameter_mm - row.orifice.diameter_mm) > kSameDiameter_mm) {
        return;
    }
    row.first_share = row.phase == "insufflation" ? first->insufflation : first->exsufflation;
    if (row.first_share && *row.first_share > 0.0) {
        row.lost = 1.0 - row.share / *row.first_share;
    }
}

} // namespace

double orifice_flow_L_min(double diameter_mm, double pressure_cmH2O)
{
    const double area_m2 = std::numbers::pi / 4.0 * diameter_mm * diameter_mm * 1e-6;
    const double speed_m_s = std::sqrt(2.0 * std::fabs(pressure_cmH2O) * kPa_per_cmH2O / kAir_kg_per_m3);
    return kDischarge * area_m2 * speed_m_s * 60000.0;
}

std::vector<Strength> strength_in(const MeasuredTrace& measured_trace, const MeasuredSpan& under_flow,
                                  double instrument_u_cmH2O)
{
    const auto* run = measured_trace.evidence->run;
    std::vector<Strength> rows;
    for (const auto& [kind, word, measurand] :
         {std::tuple{PhaseKind::insufflation, "insufflation", measurand::insufflation_pressure},
          {PhaseKind::exsufflation, "exsufflation", measurand::exsufflation_pressure}}) {
        const auto open = with_flow(under_flow, kind, measured_trace.evidence->order->lead_cycles);
        const auto closed = at_closed_end(measured_trace, under_flow, measurand);
        if (open.all.size() < kFewest || closed.all.size() < kFewest) {
            continue;
        }
        Strength row;
        row.preset = under_flow.span.preset;
        row.orifice = under_flow.span.orifice.value_or(Orifice{});
        row.phase = word;
        row.cycles = static_cast<int>(open.all.size());
        row.closed_cmH2O = closed.mean();
        row.open_cmH2O = open.mean();
        row.share = row.open_cmH2O / row.closed_cmH2O;
        row.share_uncertainty = share_u(open, closed, instrument_u_cmH2O);
        row.flow_L_min = orifice_flow_L_min(row.orifice.diameter_mm, row.open_cmH2O);
        compare_with_first(row, run != nullptr && run->first_strength ? &*run->first_strength : nullptr);
        rows.push_back(std::move(row));
    }
    return rows;
}

} // namespace zeroline::verification
