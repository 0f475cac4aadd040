#include "analysis/verification/findings/phase_shapes.hpp"

#include "analysis/signal/statistics.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::verification {

namespace {

struct Stretch {
    double from_s, to_s;
};

/// Phases that can be compared: whole, and not much longer than usual (a rest of a series).
std::vector<Stretch> comparable(const MeasuredSpan& span, signal::PhaseKind kind)
{
    std::vector<Stretch> all;
    std::vector<double> lengths;
    for (const auto& phase : span.phases)
        if (phase.kind == kind && !phase.cut() && phase.leaving) {
            all.push_back({phase.start_s(), phase.leaving->onset.time_s});
            lengths.push_back(all.back().to_s - all.back().from_s);
        }
    const auto usual = signal::median(lengths);
    all.erase(std::remove_if(all.begin(), all.end(),
                             [&](const Stretch& s) { return std::abs(s.to_s - s.from_s - *usual) > 0.3 * *usual; }),
              all.end());
    return all;
}

/// Medians, so that a spike moves none of them.
std::optional<std::vector<double>> block_levels(const FindingBasis& basis, double from_s, std::size_t blocks,
                                                double block_s)
{
    const auto samples = basis.samples_between(from_s, from_s + static_cast<double>(blocks) * block_s);
    std::vector<double> levels;
    for (std::size_t i = 0, block = 1; block <= blocks; ++block) {
        std::vector<double> inside;
        for (; i < samples.size() && samples.time_s[i] < from_s + static_cast<double>(block) * block_s; ++i)
            inside.push_back(samples.pressure_cmH2O[i]);
        const auto level = signal::median(std::move(inside));
        if (!level)
            return std::nullopt;
        levels.push_back(*level);
    }
    return levels;
}

} // namespace

void take_off(TakenOff what, std::vector<std::vector<double>>& rows)
{
    const auto centre = [](std::size_t count, auto at) {
        double mean = 0.0;
        for (std::size_t i = 0; i < count; ++i)
            mean += at(i);
        mean /= static_cast<double>(count);
        for (std::size_t i = 0; i < count; ++i)
            at(i) -= mean;
    };
    if (what.levels)
        for (auto& row : rows)
            centre(row.size(), [&](std::size_t i) -> double& { return row[i]; });
    if (what.overall) {
        std::vector<double*> all;
        for (auto& row : rows)
            for (auto& value : row)
                all.push_back(&value);
        centre(all.size(), [&](std::size_t i) -> double& { return *all[i]; });
    }
    if (what.shape && !rows.empty()) {
        std::vector<double> mean(rows.front().size());
        for (const auto& row : rows)
            for (std::size_t j = 0; j < mean.size(); ++j)
                mean[j] += row[j];
        for (double& value : mean)
            value /= static_cast<double>(rows.size());
        for (auto& row : rows)
            for (std::size_t j = 0; j < mean.size(); ++j)
                row[j] -= mean[j];
    }
}

std::vector<std::vector<double>> without(TakenOff what, std::vector<std::vector<double>> rows)
{
    take_off(what, rows);
    return rows;
}

void append_stretch(PhaseShapes& shapes, const FindingBasis& basis, double from_s, double to_s)
{
    const double blocks = std::floor((to_s - from_s) / shapes.block_s);
    if (blocks < 1.0)
        return;
    if (auto row = block_levels(basis, from_s, static_cast<std::size_t>(blocks), shapes.block_s)) {
        shapes.start_s.push_back(from_s);
        shapes.pressure.push_back(std::move(*row));
    }
}

PhaseShapes shapes_of(const FindingBasis& basis, const MeasuredSpan& span, signal::PhaseKind kind, double from_s,
                      double before_end_s, double block_s)
{
    PhaseShapes shapes;
    shapes.block_s = block_s;
    const auto stretches = comparable(span, kind);
    double shortest_s = stretches.empty() ? 0.0 : stretches.front().to_s - stretches.front().from_s;
    for (const auto& stretch : stretches)
        shortest_s = std::min(shortest_s, stretch.to_s - stretch.from_s);
    const double blocks = std::floor((shortest_s - from_s - before_end_s) / block_s);
    if (blocks < 1.0)
        return shapes;
    for (const auto& stretch : stretches)
        if (auto row = block_levels(basis, stretch.from_s + from_s, static_cast<std::size_t>(blocks), block_s)) {
            shapes.start_s.push_back(stretch.from_s + from_s);
            shapes.pressure.push_back(std::move(*row));
        }
    return shapes;
}

} // namespace zeroline::verification
