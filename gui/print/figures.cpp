#include "gui/print/figures.hpp"

namespace zeroline::print {

namespace {

std::optional<double> about(const std::optional<double>& limit, double level)
{
    return limit ? std::optional(*limit + level) : std::nullopt;
}

double pause_level(const SavedRecord& record, const QString& preset)
{
    for (std::size_t i = 0; i < static_cast<std::size_t>(record.presets.size()); ++i) {
        if (record.presets[static_cast<qsizetype>(i)] == preset) {
            return record.figure("/prescription/" + std::to_string(i) + "/pause/pressure").value_or(0.0);
        }
    }
    return 0.0;
}

} // namespace

Bands bands_of(const SavedRecord& record, const QString& preset)
{
    Bands bands;
    const double level = pause_level(record, preset);
    for (const auto& row : record.judgements) {
        if (row.preset != preset || row.against != "prescribed") {
            continue;
        }
        const auto& known = row.known();
        const bool pressure = known.kind == verification::MeasurandKind::pressure;
        if (pressure && known.phase == signal::PhaseKind::insufflation) {
            bands.insufflation_lower = row.lower;
            bands.insufflation_upper = row.upper;
        } else if (pressure) {
            bands.exsufflation_lower = row.lower;
            bands.exsufflation_upper = row.upper;
        } else if (known.kind == verification::MeasurandKind::residual) {
            bands.pause_lower = about(row.lower, level);
            bands.pause_upper = about(row.upper, level);
        }
    }
    return bands;
}

void draw_bands(Plot& plot, const CycleRow& cycle, const Bands& bands, double origin_s)
{
    const auto next_after = [&](double start) {
        double end = cycle.end_s;
        for (const auto& other : {cycle.insufflation_s, cycle.exsufflation_s, cycle.pause_s}) {
            end = other && *other > start ? std::min(end, *other) : end;
        }
        return end;
    };
    const auto draw = [&](const std::optional<double>& start, std::optional<double> lower,
                          std::optional<double> upper) {
        if (start && (lower || upper)) {
            plot.band(*start - origin_s, next_after(*start) - origin_s, lower, upper);
        }
    };
    draw(cycle.insufflation_s, bands.insufflation_lower, bands.insufflation_upper);
    draw(cycle.exsufflation_s, bands.exsufflation_lower, bands.exsufflation_upper);
    draw(cycle.pause_s, bands.pause_lower, bands.pause_upper);
}

void take_in(Range& range, const Bands& bands)
{
    for (const auto& edge : {bands.insufflation_lower, bands.insufflation_upper, bands.exsufflation_lower,
                             bands.exsufflation_upper, bands.pause_lower, bands.pause_upper}) {
        if (edge) {
            range.take_in(*edge);
        }
    }
}

} // namespace zeroline::print
