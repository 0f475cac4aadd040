#include "tests/physics/truth.hpp"

namespace zeroline::physics_study {

std::vector<Value> true_values(const physics::Run& run, Where where, double until_s)
{
    const auto& clean = where == Where::at_sensor ? run.recording.sensed_cmH2O : run.recording.at_end_cmH2O;
    const std::vector<double> pressure(clean.begin(), clean.end());
    std::vector<double> time_s(pressure.size());
    for (std::size_t i = 0; i < time_s.size(); ++i)
        time_s[i] = run.recording.time_s(i);
    std::vector<Dwell> dwells;
    for (std::size_t k = 0; k < run.asked.size(); ++k)
        dwells.push_back({run.asked[k].side == 0, run.asked[k].start_s,
                          k + 1 < run.asked.size() ? run.asked[k + 1].start_s : until_s});
    const auto measured = by_definition({time_s, pressure}, dwells, Bounds::rough);
    std::vector<Value> values;
    for (std::size_t k = 1; k < measured.size(); ++k) {
        const int side = run.asked[k].side;
        const auto kind = side == 0  ? signal::PhaseKind::pause
                          : side > 0 ? signal::PhaseKind::insufflation
                                     : signal::PhaseKind::exsufflation;
        name_values(values, static_cast<int>((k - 1) / 3) + 1, kind, measured[k]);
    }
    return values;
}

} // namespace zeroline::physics_study
