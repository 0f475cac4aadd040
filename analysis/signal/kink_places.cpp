#include "analysis/signal/kink_places.hpp"

#include <algorithm>
#include <cmath>

namespace zeroline::signal::kink {
namespace {

// Standard deviations beforehand, time in units of the edge's 10-90 % time.
constexpr std::array<double, kBase> kLevel{0.1, 0.3, 0.3};
constexpr std::array<double, 4> kBends{4.0 / 2.0, 10.0 / 6.0, 30.0 / 24.0, 100.0 / 120.0};

constexpr double kJump = 1.0;       // slope of an edge at its corner, for the jump
constexpr std::size_t kCoarse = 16; // places tried at first

} // namespace

Vector deviations(double gap, const Supposed& supposed)
{
    Vector deviation{};
    for (std::size_t i = 0; i < kBase; ++i) {
        deviation[i] = supposed.level * kLevel[i];
    }
    deviation[kBase] = kJump * std::min(1.0, supposed.slope) * gap + 1e-6;
    deviation[kBase + 1] = supposed.slope;
    for (std::size_t k = 0; k < kBends.size(); ++k) {
        deviation[kBase + 2 + k] = supposed.bends * kBends[k];
    }
    return deviation;
}

namespace {

// The same sums over powers, of times that are longer by `by`: the binomial theorem. All its terms have one sign where
// the times only grow away from 0, so that nothing is lost by it.
template <std::size_t N> void lengthen(std::array<double, N>& sums, double by)
{
    for (std::size_t round = 1; round < N; ++round) {
        for (std::size_t k = N; k-- > round;) {
            sums[k] += by * sums[k - 1];
        }
    }
}

// Sums over powers of the time since the kink: the normal equations hold nothing else.
template <std::size_t Powers, std::size_t Values> struct Moments {
    std::array<double, Powers> powers{};
    std::array<double, Values> with_value{};

    void add(double u, double value, double weight)
    {
        double power = weight;
        for (std::size_t k = 0; k < Powers; ++k) {
            powers[k] += power;
            if (k < Values) {
                with_value[k] += power * value;
            }
            power *= u;
        }
    }

    void move_kink(double from, double to)
    {
        lengthen(powers, from - to);
        lengthen(with_value, from - to);
    }
};
using MomentsBefore = Moments<2 * kBase - 1, kBase>;
using MomentsAfter = Moments<2 * (kSize - kBase) - 1, kSize - kBase>;

// Neighbouring kinks have most of their points in common: the sums are taken point by point for some kinks, one every
// `stride` points, and those of a kink between two of them begin with theirs.
class KinkSums {
public:
    KinkSums(const Edge& edge, std::size_t last_kink, std::size_t stride) : edge_(edge), stride_(stride)
    {
        for (std::size_t kink = 1; kink < last_kink; kink += stride) {
            kinks_.push_back(kink);
        }
        kinks_.push_back(last_kink);
        before_.resize(kinks_.size());
        after_.resize(kinks_.size());
        add(before_.front(), kinks_.front(), 0, kinks_.front());
        for (std::size_t k = 1; k < kinks_.size(); ++k) {
            before_[k] = moved(before_[k - 1], kinks_[k - 1], kinks_[k]);
        }
        add(after_.back(), last_kink, last_kink, edge.size());
        for (std::size_t k = kinks_.size() - 1; k-- > 0;) {
            after_[k] = moved(after_[k + 1], kinks_[k + 1], kinks_[k]);
        }
    }

    // Of the points before the kink that lies before point `kink`, and of those after it.
    [[nodiscard]] MomentsBefore before(std::size_t kink) const
    {
        const std::size_t k = (kink - 1) / stride_;
        return moved(before_[k], kinks_[k], kink);
    }
    [[nodiscard]] MomentsAfter after(std::size_t kink) const
    {
        const std::size_t k = (kink - 1 + stride_ - 1) / stride_;
        return moved(after_[k], kinks_[k], kink);
    }

private:
    template <class Sums> void add(Sums& sums, std::size_t kink, std::size_t first, std::size_t last) const
    {
        const double at = edge_.kink_before(kink);
        for (std::size_t i = first; i < last; ++i) {
            sums.add(edge_.x(i) - at, edge_.y(i), edge_.weight(i));
        }
    }

    template <class Sums> [[nodiscard]] Sums moved(Sums sums, std::size_t from, std::size_t to) const
    {
        if (from != to) {
            sums.move_kink(edge_.kink_before(from), edge_.kink_before(to));
            add(sums, to, std::min(from, to), std::max(from, to));
        }
        return sums;
    }

    const Edge& edge_;
    std::size_t stride_;
    std::vector<std::size_t> kinks_;
    std::vector<MomentsBefore> before_;
    std::vector<MomentsAfter> after_;
};

void take_sums(Place& place, const KinkSums& sums)
{
    const MomentsBefore before = sums.before(place.after);
    const MomentsAfter after = sums.after(place.after);
    for (std::size_t a = 0; a < kSize; ++a) {
        const std::size_t power = a < kBase ? a : a - kBase;
        place.right[a] = after.with_value[power] + (a < kBase ? before.with_value[power] : 0.0);
        for (std::size_t b = 0; b <= a; ++b) {
            const std::size_t both = power + (b < kBase ? b : b - kBase);
            place.normal[a][b] = after.powers[both] + (a < kBase ? before.powers[both] : 0.0);
            place.normal[b][a] = place.normal[a][b];
        }
    }
}

// The first columns of the normal equations eliminated: they are the same for all that is supposed of the edge.
struct LevelsOff {
    Matrix normal{};
    Vector right{};
    double explained = 0.0;
    double determinant = 1.0;
};

LevelsOff levels_off(const Place& place, const Supposed& supposed)
{
    const Vector deviation = deviations(place.gap, supposed);
    LevelsOff rest{place.normal, place.right};
    for (std::size_t c = 0; c < kBase; ++c) {
        const double pivot = rest.normal[c][c] + 1.0 / (deviation[c] * deviation[c]);
        rest.determinant *= pivot;
        rest.explained += rest.right[c] * rest.right[c] / pivot;
        for (std::size_t i = c + 1; i < kSize; ++i) {
            const double factor = rest.normal[i][c] / pivot;
            rest.right[i] -= factor * rest.right[c];
            for (std::size_t j = c + 1; j <= i; ++j) {
                rest.normal[i][j] -= factor * rest.normal[j][c];
            }
        }
    }
    return rest;
}

// One number for each thing supposed: what is done to one is done to all in step.
using Lanes = std::array<double, kSupposed.size()>;

// Evidence of all that is supposed: half of what it explains, and the volume of what it allows. Elimination without
// square roots.
class Evidence {
public:
    explicit Evidence(const Place& place)
    {
        const LevelsOff free = levels_off(place, kSupposed.front());
        const LevelsOff held = levels_off(place, kSupposed.back());
        for (std::size_t k = 0; k < kSupposed.size(); ++k) {
            place_lane(k, kSupposed[k].level == kSupposed.front().level ? free : held,
                       deviations(place.gap, kSupposed[k]));
        }
    }

    void eliminate(std::size_t column)
    {
        Lanes inverse{};
        for (std::size_t k = 0; k < inverse.size(); ++k) {
            const double pivot = normal_[column][column][k];
            determinant[k] *= pivot;
            inverse[k] = 1.0 / pivot;
            explained[k] += right_[column][k] * right_[column][k] * inverse[k];
        }
        for (std::size_t i = column + 1; i < kAdded; ++i) {
            Lanes factor{};
            for (std::size_t k = 0; k < factor.size(); ++k) {
                factor[k] = normal_[i][column][k] * inverse[k];
                right_[i][k] -= factor[k] * right_[column][k];
            }
            for (std::size_t j = column + 1; j <= i; ++j) {
                for (std::size_t k = 0; k < factor.size(); ++k) {
                    normal_[i][j][k] -= factor[k] * normal_[j][column][k];
                }
            }
        }
    }

    static constexpr std::size_t kAdded = kSize - kBase;
    Lanes explained{};
    Lanes determinant{};
    Lanes prior{};

private:
    void place_lane(std::size_t k, const LevelsOff& levels, const Vector& deviation)
    {
        explained[k] = levels.explained;
        determinant[k] = levels.determinant;
        prior[k] = 1.0;
        for (const double one : deviation) {
            prior[k] *= one;
        }
        for (std::size_t i = 0; i < kAdded; ++i) {
            right_[i][k] = levels.right[kBase + i];
            for (std::size_t j = 0; j <= i; ++j) {
                normal_[i][j][k] = levels.normal[kBase + i][kBase + j];
            }
            normal_[i][i][k] += 1.0 / (deviation[kBase + i] * deviation[kBase + i]);
        }
    }

    std::array<std::array<Lanes, kAdded>, kAdded> normal_{};
    std::array<Lanes, kAdded> right_{};
};

Place place_before(const Edge& edge, const KinkSums& sums, std::size_t after, double spacing)
{
    Place place;
    place.after = after;
    place.spacing = spacing;
    place.gap = edge.gap_before(after);
    take_sums(place, sums);
    Evidence evidence(place);
    for (std::size_t column = 0; column < Evidence::kAdded; ++column) {
        evidence.eliminate(column);
    }
    const double most = *std::max_element(evidence.explained.begin(), evidence.explained.end());
    double sum = 0.0;
    for (std::size_t k = 0; k < kSupposed.size(); ++k) {
        const bool solved = evidence.determinant[k] > 0.0 && std::isfinite(evidence.explained[k]);
        place.share[k] = solved ? std::exp(0.5 * (evidence.explained[k] - most)) /
                                      (evidence.prior[k] * std::sqrt(evidence.determinant[k]))
                                : 0.0;
        sum += place.share[k];
    }
    for (double& share : place.share) {
        share = sum > 0.0 ? share / sum : 0.0;
    }
    place.total = sum > 0.0 ? 0.5 * most + std::log(sum) : place.total;
    return place;
}

} // namespace

std::size_t best_of(const std::vector<Place>& places)
{
    const auto best = std::max_element(places.begin(), places.end(),
                                       [](const Place& a, const Place& b) { return a.total < b.total; });
    return static_cast<std::size_t>(best - places.begin());
}

std::vector<Place> places_of(const Edge& edge, std::size_t last_kink)
{
    std::vector<Place> places;
    std::size_t stride = std::max<std::size_t>(1, last_kink / kCoarse);
    const KinkSums sums(edge, last_kink, stride);
    for (std::size_t after = 1; after <= last_kink; after += stride) {
        places.push_back(place_before(edge, sums, after, static_cast<double>(stride)));
    }
    while (stride > 1) {
        const std::size_t finer = stride > 3 ? stride / 3 : 1;
        Place& best = places[best_of(places)];
        const std::size_t centre = best.after;
        best.spacing = static_cast<double>(finer);
        const std::size_t reach = stride - 1;
        for (std::size_t away = finer; away <= reach; away += finer) {
            if (centre > away) {
                places.push_back(place_before(edge, sums, centre - away, static_cast<double>(finer)));
            }
            if (centre + away <= last_kink) {
                places.push_back(place_before(edge, sums, centre + away, static_cast<double>(finer)));
            }
        }
        stride = finer;
    }
    return places;
}

} // namespace zeroline::signal::kink
