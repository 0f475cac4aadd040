// Published examples of JCGM 100:2008 (GUM), Annex H, clauses 4.4.3 and G.4.1, and table G.2.

#include "analysis/metrology/drift.hpp"
#include "analysis/metrology/uncertainty.hpp"
#include "analysis/signal/statistics.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

namespace zeroline::metrology {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kPrinted = 5e-8; // relative: figures below carry eight digits or more

void expect_figures(double value, double expected) { EXPECT_NEAR(value, expected, kPrinted * std::abs(expected)); }

// Source: JCGM 100:2008, H.1 (end gauge), inputs as printed; read in two independent libraries' documentation.
std::vector<Contribution> end_gauge_nm()
{
    const double length_nm = 50'000'623.0;
    return {{"standard", 25.0, Distribution::normal, 18.0, 1.0},
            {"comparison", 9.7, Distribution::normal, 25.6, 1.0},
            {"difference in expansion", 0.58e-6, Distribution::normal, 50.0, length_nm * 0.1},
            {"difference in temperature", 0.029, Distribution::normal, 2.0, length_nm * 11.5e-6}};
}

TEST(GumH1EndGauge, gives_the_printed_contributions)
{
    const auto budget = end_gauge_nm();
    expect_figures(budget[2].share(), 2.900036134);
    expect_figures(budget[3].share(), 16.675207771);
}

TEST(GumH1EndGauge, gives_the_printed_combined_uncertainty_and_degrees_of_freedom)
{
    const auto result = combine(end_gauge_nm(), 0.99);
    expect_figures(result.standard_uncertainty, 31.710609640); // printed 32
    expect_figures(result.effective_dof, 16.656062703);        // printed 16, truncated from 16.7
}

TEST(GumH1EndGauge, gives_the_printed_expanded_uncertainty_when_dof_are_truncated)
{
    const auto result = combine(end_gauge_nm(), 0.99);
    const double k = student_factor(0.99, std::floor(result.effective_dof));
    expect_figures(k, 2.920781622);                                // printed 2.92
    EXPECT_NEAR(k * result.standard_uncertainty, 92.619766, 1e-5); // printed 93
}

TEST(GumH1EndGauge, interpolates_between_whole_degrees_of_freedom)
{
    EXPECT_NEAR(combine(end_gauge_nm(), 0.99).expanded_uncertainty, 92.139848, 1e-5);
}

// Source: JCGM 100:2008, H.1.3.2: mean of five readings of a pooled deviation,
// comparator's random and systematic parts, as printed.
TEST(GumH1EndGauge, combines_the_comparison_from_its_parts)
{
    const auto comparison = combine({{"mean of five", 5.8, Distribution::normal, 24.0},
                                     {"comparator, random", 3.9, Distribution::normal, 5.0},
                                     {"comparator, systematic", 6.7, Distribution::normal, 8.0}});
    EXPECT_NEAR(comparison.standard_uncertainty, 9.681942, 1e-6); // printed 9.7
    EXPECT_NEAR(comparison.effective_dof, 25.447, 1e-3);          // printed 25.6, from rounded parts
}

// Source: JCGM 100:2008, 4.3.7, 4.3.8 and H.1.3.4: half-widths into standard uncertainties.
TEST(GumH1EndGauge, turns_half_widths_into_standard_uncertainties)
{
    const auto u = [](double half_width, Distribution shape) {
        return Contribution{"", half_width, shape, kInfinite, 1.0}.standard_uncertainty();
    };
    expect_figures(u(2e-6, Distribution::rectangular), 1.154700538e-6);
    expect_figures(u(1e-6, Distribution::rectangular), 5.773502692e-7);
    EXPECT_NEAR(std::hypot(0.2, u(0.5, Distribution::arcsine)), 0.41, 0.005);
    expect_figures(u(1.0, Distribution::triangular), 0.408248290);
}

// Source: JCGM 100:2008, G.4.1 (from memory): relative 0.25, 0.57, 0.82 % from 10, 5, 15 readings.
TEST(GumG41, gives_the_printed_degrees_of_freedom_without_truncating_19_to_18)
{
    const auto result = combine({{"X1", 0.25, Distribution::normal, 9.0},
                                 {"X2", 0.57, Distribution::normal, 4.0},
                                 {"X3", 0.82, Distribution::normal, 14.0}},
                                0.95);
    expect_figures(result.standard_uncertainty, 1.029465881); // printed 1.03
    expect_figures(result.effective_dof, 18.998742314);       // printed 19.0
    EXPECT_NEAR(result.expanded_uncertainty, 2.154697, 1e-4); // printed 2.2, t of 19
}

// Source: JCGM 100:2008, 4.4.3 (from memory): 20 temperatures.
TEST(Gum443, gives_the_printed_mean_and_its_uncertainty)
{
    const std::vector<double> degC{96.90,  98.18,  98.25,  98.61,  99.03,  99.49,  99.56,  99.74,  99.89,  100.07,
                                   100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72};
    const double s = signal::standard_deviation(degC).value();
    EXPECT_NEAR(signal::mean(degC).value(), 100.145, 1e-9); // printed 100.14
    expect_figures(s, 1.488844483);                         // printed 1.49
    expect_figures(s / std::sqrt(20.0), 0.332915747);       // printed 0.33
}

// Source: JCGM 100:2008, H.2 (resistance and reactance), read in a library's documentation.
struct Impedance {
    static constexpr std::array<double, 5> volt{5.007, 4.994, 5.005, 4.990, 4.999};
    static constexpr std::array<double, 5> ampere{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3};
    static constexpr std::array<double, 5> radian{1.0456, 1.0438, 1.0468, 1.0428, 1.0433};

    static double mean(const std::array<double, 5>& of) { return signal::mean(of).value(); }

    static std::array<double, 9> covariance_of_means()
    {
        const std::array<const std::array<double, 5>*, 3> all{&volt, &ampere, &radian};
        std::array<double, 9> v{};
        for (std::size_t i = 0; i < 3; ++i)
            for (std::size_t j = 0; j < 3; ++j)
                for (std::size_t k = 0; k < 5; ++k)
                    v[3 * i + j] += ((*all[i])[k] - mean(*all[i])) * ((*all[j])[k] - mean(*all[j])) / 20.0;
        return v;
    }
};

TEST(GumH2Impedance, propagates_correlated_inputs)
{
    const double v = Impedance::mean(Impedance::volt), i = Impedance::mean(Impedance::ampere),
                 phi = Impedance::mean(Impedance::radian);
    const auto covariance = Impedance::covariance_of_means();
    const double r = v / i * std::cos(phi), x = v / i * std::sin(phi), z = v / i;
    expect_figures(r, 127.732169928);
    expect_figures(x, 219.846511913);
    expect_figures(z, 254.259701948);
    expect_figures(propagated_uncertainty(std::array{r / v, -r / i, -x}, covariance), 0.071071410);  // printed 0.071
    expect_figures(propagated_uncertainty(std::array{x / v, -x / i, r}, covariance), 0.295581680);   // printed 0.295
    expect_figures(propagated_uncertainty(std::array{z / v, -z / i, 0.0}, covariance), 0.236336130); // printed 0.236
}

// Source: JCGM 100:2008, H.3 (thermometer), read in a library's documentation.
TEST(GumH3Thermometer, fits_and_predicts_as_printed)
{
    std::vector<double> t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
    const std::vector<double> b{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160};
    for (double& at : t)
        at -= 20.0;
    const auto line = fit_line(t, b).value();
    expect_figures(line.intercept, -0.171203790131);
    expect_figures(line.slope, 0.002182697740);
    expect_figures(line.intercept_u, 0.0028775978);
    expect_figures(line.slope_u, 0.0006679388);
    expect_figures(line.covariance / (line.intercept_u * line.slope_u), -0.9304296031);
    expect_figures(line.scatter, 0.0034975640);
    expect_figures(line.predict(10.0).value, -0.1493768127);
    expect_figures(line.predict(10.0).line_uncertainty, 0.0041385958);
    EXPECT_EQ(line.dof, 9.0);
}

// Source: JCGM 100:2008, table G.2, columns 68.27, 90, 95, 95.45, 99, 99.73 % at the exact normal probabilities; spot
// values read in a calculator's own tests, the rest recomputed.
TEST(GumTableG2, agrees_with_the_student_factors)
{
    const std::array<double, 6> coverage{0.682689492137, 0.90, 0.95, 0.954499736104, 0.99, 0.997300203937};
    struct Row {
        double dof;
        std::array<double, 6> t;
    };
    const std::vector<Row> rows{{1, {1.8373, 6.3138, 12.7062, 13.9677, 63.6567, 235.8015}},
                                {2, {1.3213, 2.9200, 4.3027, 4.5265, 9.9248, 19.2067}},
                                {3, {1.1969, 2.3534, 3.1824, 3.3068, 5.8409, 9.2189}},
                                {4, {1.1416, 2.1318, 2.7764, 2.8693, 4.6041, 6.6202}},
                                {5, {1.1105, 2.0150, 2.5706, 2.6486, 4.0321, 5.5071}},
                                {8, {1.0665, 1.8595, 2.3060, 2.3664, 3.3554, 4.2766}},
                                {10, {1.0526, 1.8125, 2.2281, 2.2837, 3.1693, 3.9569}},
                                {16, {1.0322, 1.7459, 2.1199, 2.1689, 2.9208, 3.5441}},
                                {20, {1.0256, 1.7247, 2.0860, 2.1330, 2.8453, 3.4222}},
                                {50, {1.0101, 1.6759, 2.0086, 2.0512, 2.6778, 3.1571}},
                                {100, {1.0050, 1.6602, 1.9840, 2.0253, 2.6259, 3.0768}},
                                {kInfinite, {1.0000, 1.6449, 1.9600, 2.0000, 2.5758, 3.0000}}};
    for (const auto& row : rows)
        for (std::size_t i = 0; i < coverage.size(); ++i)
            EXPECT_NEAR(student_factor(coverage[i], row.dof), row.t[i], 0.51e-4) << row.dof << " at " << coverage[i];
}

} // namespace
} // namespace zeroline::metrology
