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

// Sums over powers of the time since the kink: the normal equations hold nothing else.
struct Moments {
    static constexpr std::size_t kPowers = 2 * (kSize - kBase) - 1;
    std::array<double, kPowers> powers{};
    std::array<double, kSize - kBase> with_value{};

    template <std::size_t Powers, std::size_t Values> void add(double u, double value, double weight)
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
};

void take_sums(Place& place, const Edge& edge)
{
    const double kink = edge.kink_before(place.after);
    Moments before;
    Moments after;
    for (std::size_t i = 0; i < place.after; ++i) {
        before.add<2 * kBase - 1, kBase>(edge.x(i) - kink, edge.y(i), edge.weight(i));
    }
    for (std::size_t i = place.after; i < edge.size(); ++i) {
        after.add<Moments::kPowers, kSize - kBase>(edge.x(i) - kink, edge.y(i), edge.weight(i));
    }
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

Place place_before(const Edge& edge, std::size_t after, double spacing)
{
    Place place;
    place.after = after;
    place.spacing = spacing;
    place.gap = edge.gap_before(after);
    take_sums(place, edge);
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
    for (std::size_t after = 1; after <= last_kink; after += stride) {
        places.push_back(place_before(edge, after, static_cast<double>(stride)));
    }
    while (stride > 1) {
        const std::size_t finer = stride > 3 ? stride / 3 : 1;
        Place& best = places[best_of(places)];
        const std::size_t centre = best.after;
        best.spacing = static_cast<double>(finer);
        const std::size_t reach = stride - 1;
        for (std::size_t away = finer; away <= reach; away += finer) {
            if (centre > away) {
                places.push_back(place_before(edge, centre - away, static_cast<double>(finer)));
            }
            if (centre + away <= last_kink) {
                places.push_back(place_before(edge, centre + away, static_cast<double>(finer)));
            }
        }
        stride = finer;
    }
    return places;
}

} // namespace zeroline::signal::kink
