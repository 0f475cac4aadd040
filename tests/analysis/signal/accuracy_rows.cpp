#include "tests/analysis/signal/accuracy_study.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace zeroline::signal::analytic {
namespace {

constexpr double kRates[] = {100.0, 250.0, 1000.0};

double between(double low, double high, std::mt19937_64& random)
{
    return std::uniform_real_distribution<double>(low, high)(random);
}

// Any of the shapes, those with slow starts too.
Shape any_shape(std::mt19937_64& random)
{
    constexpr Shape kShapes[] = {Shape::exponential,   Shape::ramp,      Shape::second_order,
                                 Shape::raised_cosine, Shape::two_poles, Shape::gaussian};
    return kShapes[std::uniform_int_distribution<int>(0, 5)(random)];
}

CycleForm cycles_with(double pressure_cmH2O, EdgeForm edge, std::mt19937_64& random)
{
    CycleForm form;
    form.cycles = 2;
    form.form = edge;
    form.insufflation_cmH2O = pressure_cmH2O;
    form.exsufflation_cmH2O = -pressure_cmH2O * between(0.8, 1.2, random);
    form.insufflation_s = between(1.3, 2.0, random);
    form.exsufflation_s = between(1.3, 2.0, random);
    form.pause_s = between(1.0, 2.0, random);
    return form;
}

EdgeForm main_edge(Shape shape, std::mt19937_64& random)
{
    return {shape, between(0.08, 0.15, random), between(0.65, 1.0 - 1e-3, random)};
}

Case plain_case(const CycleForm& form)
{
    Case one;
    one.form = form;
    one.twin = form;
    return one;
}

Case in_main_region(Shape shape, std::mt19937_64& random)
{
    return plain_case(cycles_with(between(50.0, 58.0, random), main_edge(shape, random), random));
}

// 5-40 cmH2O, edges of 20-800 ms on phases long enough to hold them.
Case elsewhere(std::mt19937_64& random)
{
    const EdgeForm edge{any_shape(random), std::exp(between(std::log(0.02), std::log(0.8), random)), 0.7};
    CycleForm form = cycles_with(between(6.0, 33.0, random), edge, random);
    const double longer_s = std::max(0.0, 3.0 * edge.edge_s - 0.5);
    form.insufflation_s += longer_s;
    form.exsufflation_s += longer_s;
    form.pause_s += longer_s;
    return plain_case(form);
}

// What trouble is tried on: edges of 30-300 ms, 10-50 cmH2O.
CycleForm to_be_troubled(std::mt19937_64& random)
{
    const EdgeForm edge{any_shape(random), std::exp(between(std::log(0.03), std::log(0.3), random)), 0.7};
    return cycles_with(between(12.0, 42.0, random), edge, random);
}

Case ringing(std::mt19937_64& random)
{
    CycleForm form = to_be_troubled(random);
    form.form.shape = Shape::second_order;
    form.form.edge_s = std::min(form.form.edge_s, 0.15); // a slower one rings as long as the phase lasts
    Case one = plain_case(form);
    one.form.form.damping = 0.4037; // overshoot of 25 %
    return one;
}

Case residual(std::mt19937_64& random)
{
    CycleForm form = to_be_troubled(random);
    form.rest_cmH2O = between(0.0, 1.0, random) < 0.5 ? 3.0 : -3.0;
    form.insufflation_cmH2O = std::max(form.insufflation_cmH2O, 20.0);
    form.exsufflation_cmH2O = std::min(form.exsufflation_cmH2O, -20.0);
    return plain_case(form);
}

Case oscillation(std::mt19937_64& random)
{
    CycleForm form = to_be_troubled(random);
    form.form.edge_s = std::min(form.form.edge_s, 0.15); // slower S-shaped ones: see the gaps in docs/method.md
    Case one = plain_case(form);
    one.form.oscillation_hz = std::exp(between(std::log(1.0), std::log(20.0), random));
    one.form.oscillation_cmH2O = std::min(10.0, between(0.05, 0.25, random) * one.form.insufflation_cmH2O);
    return one;
}

Case spikes(std::mt19937_64& random)
{
    Case one = plain_case(to_be_troubled(random));
    one.trouble.spikes = 12;
    return one;
}

Case no_pause(std::mt19937_64& random)
{
    CycleForm form = to_be_troubled(random);
    form.pause_s = 0.0;
    return plain_case(form);
}

Case short_phases(std::mt19937_64& random)
{
    CycleForm form = to_be_troubled(random);
    form.form.edge_s = std::min(form.form.edge_s, 0.12);
    form.insufflation_s = form.exsufflation_s = form.pause_s = 0.5;
    return plain_case(form);
}

} // namespace

std::vector<Row> accuracy_rows()
{
    std::vector<Row> rows;
    const auto add = [&rows](const char* name, double rate_hz, bool main, std::function<Case(std::mt19937_64&)> draw) {
        char text[64];
        std::snprintf(text, sizeof text, "%s, %g Hz", name, rate_hz);
        rows.push_back({text, rate_hz, main, std::move(draw), published_rows().at(rows.size())});
    };
    const auto of_shape = [](Shape shape) { return [shape](std::mt19937_64& r) { return in_main_region(shape, r); }; };
    for (const double rate : kRates) {
        for (const Shape shape : {Shape::exponential, Shape::ramp, Shape::second_order}) {
            add(name_of(shape), rate, true, of_shape(shape));
        }
    }
    for (const double rate : kRates) {
        add("other S-shaped edges of 80-150 ms", rate, false, [](std::mt19937_64& r) {
            constexpr Shape kOthers[] = {Shape::raised_cosine, Shape::two_poles, Shape::gaussian};
            return in_main_region(kOthers[std::uniform_int_distribution<int>(0, 2)(r)], r);
        });
        add("5-40 cmH2O, edges of 20-800 ms", rate, false, elsewhere);
        add("ringing of 25 %", rate, false, ringing);
        add("residual of 3 cmH2O", rate, false, residual);
        add("oscillation", rate, false, oscillation);
        add("12 spikes", rate, false, spikes);
        add("no pause", rate, false, no_pause);
        add("phases of 0.5 s", rate, false, short_phases);
    }
    return rows;
}

} // namespace zeroline::signal::analytic
