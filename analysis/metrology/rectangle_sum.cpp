#include "analysis/metrology/rectangle_sum.hpp"

#include "analysis/metrology/distributions.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <tuple>

namespace zeroline::metrology {

namespace {

// Beyond this a t cannot be told from a normal in double precision of a tail, and its moments lose digits.
constexpr double kNormalFromDof = 1e6;
constexpr double kEndless = std::numeric_limits<double>::infinity();

/// Probability beyond z and partial moments E[(T - z)+] and E[(T - z)+ ^2] / 2, which a rectangle's (two rectangles')
/// convolution is made of. Each is the negative slope of the next.
struct PartialMoments {
    double beyond;
    double first;
    double half_second;
};

PartialMoments of_normal(double z)
{
    const double beyond = tail_beyond(z, kEndless);
    const double density = density_at(z, kEndless);
    return {beyond, density - z * beyond, 0.5 * ((1.0 + z * z) * beyond - z * density)};
}

/// The rest of the sum: a t (or, for many degrees of freedom, a normal) of one scale.
class Rest {
public:
    Rest(double scale, double dof) : scale_(scale), dof_(dof)
    {
        if (scale_ > 0.0 && dof_ <= kNormalFromDof)
            density_at_0_ = density_at(0.0, dof_);
    }

    [[nodiscard]] PartialMoments at(double distance) const
    {
        if (scale_ == 0.0) {
            const double over = std::max(-distance, 0.0);
            return {distance < 0.0 ? 1.0 : 0.0, over, 0.5 * over * over};
        }
        const double z = distance / scale_;
        const auto unit = dof_ > kNormalFromDof ? of_normal(z) : of_student(z);
        return {unit.beyond, scale_ * unit.first, scale_ * scale_ * unit.half_second};
    }

private:
    // By the density's own equation, ((dof + t^2) f)' = -(dof - 1) t f, both moments come from tail and density.
    [[nodiscard]] PartialMoments of_student(double z) const
    {
        const double beyond = tail_beyond(z, dof_);
        const double density = density_at_0_ * std::exp(-0.5 * (dof_ + 1.0) * std::log1p(z * z / dof_));
        const double weighted = (dof_ + z * z) * density;
        const double moment1 = weighted / (dof_ - 1.0);
        const double moment2 = (z * weighted + dof_ * beyond) / (dof_ - 2.0);
        return {beyond, moment1 - z * beyond, 0.5 * (moment2 - 2.0 * z * moment1 + z * z * beyond)};
    }

    double scale_;
    double dof_;
    double density_at_0_ = 0.0;
};

struct Tail {
    double probability;
    double slope;
};

Tail tail_of(const RectangleSum& sum, const Rest& rest, double x)
{
    const double first = sum.first;
    const double second = sum.second;
    if (second == 0.0) {
        const auto near = rest.at(x - first);
        const auto far = rest.at(x + first);
        return {(near.first - far.first) / first, (far.beyond - near.beyond) / first};
    }
    const auto a = rest.at(x - first - second);
    const auto b = rest.at(x - first + second);
    const auto c = rest.at(x + first - second);
    const auto d = rest.at(x + first + second);
    const double area = 2.0 * first * second;
    return {(a.half_second - b.half_second - c.half_second + d.half_second) / area,
            -(a.first - b.first - c.first + d.first) / area};
}

} // namespace

double RectangleSum::tail(double x) const
{
    if (first == 0.0)
        return rest > 0.0 ? 2.0 * tail_beyond(x / rest, rest_dof) : 0.0;
    return tail_of(*this, Rest(rest, rest_dof), x).probability;
}

double RectangleSum::above(double x) const { return x < 0.0 ? 1.0 - 0.5 * tail(-x) : 0.5 * tail(x); }

double RectangleSum::half_interval(double coverage) const
{
    if (first == 0.0)
        return rest > 0.0 ? rest * quantile_beyond(0.5 * (1.0 - coverage), rest_dof) : 0.0;
    constexpr int kDigits = 46;
    const Rest other(rest, rest_dof);
    const double missing = 1.0 - coverage;
    double high = first + second + 3.0 * rest;
    while (tail_of(*this, other, high).probability > missing)
        high *= 2.0;
    // Newton's steps, kept between the bounds: the tail falls all the way, and is all but straight near the rectangle.
    const auto above = [&](double x) {
        const Tail at = tail_of(*this, other, x);
        return std::make_tuple(at.probability - missing, at.slope);
    };
    std::uintmax_t rounds = 200;
    return boost::math::tools::newton_raphson_iterate(above, coverage * first, 0.0, high, kDigits, rounds);
}

} // namespace zeroline::metrology
