#include "tests/physics/study.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <sstream>

// Every row of the physics tables in docs/accuracy.md, computed again: no worse than 1.2 times what is published. The
// ordinary test takes the rows at 250 Hz, the long one all of them.
namespace zeroline::physics_study {
namespace {

/// What the page says of one family at one rate.
struct Published {
    std::string family;
    double rate_hz = 0.0, rms = 0.0, covered_percent = 0.0, median_U = 0.0;
};

std::vector<std::string> cells_of(const std::string& line)
{
    std::vector<std::string> cells;
    std::istringstream in(line);
    for (std::string cell; std::getline(in, cell, '|');) {
        const auto first = cell.find_first_not_of(' ');
        cells.push_back(first == std::string::npos ? "" : cell.substr(first, cell.find_last_not_of(' ') - first + 1));
    }
    return cells;
}

Group group_headed(const std::string& cell)
{
    for (const Group group : kGroups)
        if (cell.starts_with(word_of(group)))
            return group;
    throw std::runtime_error("no group '" + cell + "'");
}

/// The rows between the marks, those of a single family at a single rate.
std::map<Group, std::vector<Published>> published()
{
    std::ifstream in(std::string(ZEROLINE_SOURCE_DIR) + "/docs/accuracy.md");
    std::map<Group, std::vector<Published>> rows;
    bool inside = false;
    Group group{};
    for (std::string line; std::getline(in, line);) {
        inside = (inside || line == "<!-- begin: physics -->") && line != "<!-- end: physics -->";
        const auto cells = cells_of(line);
        if (!inside || cells.size() < 9 || cells[2].empty())
            continue;
        if (cells[2].starts_with("rate"))
            group = group_headed(cells[1]);
        else if (std::isdigit(static_cast<unsigned char>(cells[2].front())) != 0 && !cells[1].starts_with("*"))
            rows[group].push_back(
                {cells[1], std::stod(cells[2]), std::stod(cells[4]), std::stod(cells[7]), std::stod(cells[8])});
    }
    return rows;
}

void expect_as_published(const Study& study, const StudyPlan& plan, Group group, const Published& row)
{
    for (const physics::Family& family : plan.families) {
        if (physics::word_of(family) != row.family)
            continue;
        const Figures now = figures_of(chosen(study, group, &family, row.rate_hz));
        const double scale = group == Group::levels ? 1.0 : 1000.0, last_digit = group == Group::levels ? 5e-4 : 5e-3;
        EXPECT_LE(scale * now.rms, 1.2 * row.rms + last_digit) << word_of(group) << " " << row.family << row.rate_hz;
        EXPECT_LE(scale * now.median_U, 1.2 * row.median_U + last_digit) << word_of(group) << " " << row.family;
        EXPECT_GE(100.0 * now.covered, row.covered_percent - 2.0) << word_of(group) << " " << row.family;
    }
}

TEST(PhysicsStudy, every_row_of_the_page_holds_within_a_fifth)
{
    StudyPlan plan;
#ifndef ZEROLINE_WHOLE_STUDY
    plan.rates_hz = {250.0};
#endif
    const Study study = carried_out(plan);
    int compared = 0;
    for (const auto& [group, rows] : published())
        for (const Published& row : rows)
            for (const double rate_hz : plan.rates_hz)
                if (row.rate_hz == rate_hz) {
                    expect_as_published(study, plan, group, row);
                    ++compared;
                }
    EXPECT_EQ(compared, 26 * static_cast<int>(plan.rates_hz.size()));
}

} // namespace
} // namespace zeroline::physics_study
