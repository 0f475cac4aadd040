#pragma once

#include "fixtures/physics/run.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace zeroline::physics_study {

/// Values of one kind, taken together.
enum class Group { durations, transitions, mid_levels, levels };
inline constexpr Group kGroups[] = {Group::durations, Group::transitions, Group::mid_levels, Group::levels};

/// One value of the product beside the truth at the sensor. In s or cmH2O.
struct Comparison {
    physics::Family family{};
    double rate_hz = 0.0;
    std::uint64_t seed = 0;
    Group group{};
    int cycle = 0;
    std::string measurand;
    double error = 0.0;       ///< the product's
    double plain_error = 0.0; ///< the yardstick's
    double U = 0.0;           ///< from the product's own budget
};

/// What an amount of comparisons comes to.
struct Figures {
    std::size_t values = 0;
    double rms = 0.0, plain_rms = 0.0, covered = 0.0, median_U = 0.0;
};

struct StudyPlan {
    std::vector<physics::Family> families = physics::all_families();
    std::vector<double> rates_hz{100.0, 250.0, 500.0, 1000.0};
    int draws = 10; ///< units for each family and rate
    std::uint64_t seed = 1;
};

/// Everything a plan compares, and how many values of the truth the product had none for.
struct Study {
    std::vector<Comparison> all;
    std::size_t missing = 0;
    std::size_t traces = 0;
};

[[nodiscard]] Study carried_out(const StudyPlan& plan);
[[nodiscard]] Figures figures_of(const std::vector<const Comparison*>& some);
[[nodiscard]] std::vector<const Comparison*> chosen(const Study& study, Group group, const physics::Family* family,
                                                    double rate_hz = 0.0);
[[nodiscard]] std::string word_of(Group group);

/// The table of docs/accuracy.md: one row for each family at each rate, one for the family, one for all.
[[nodiscard]] std::string markdown(const Study& study, const StudyPlan& plan, Group group);

} // namespace zeroline::physics_study
