#include "analysis/signal/crossings.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace zeroline::signal {
namespace {

constexpr std::size_t kSustainedSamples = 3; // two may be a spike that was let pass
constexpr double kClear = 0.25; // noise over the step between two neighbours: with less, noise does not order them
constexpr double kEnough = 0.2; // of an interval: noise over slope that more samples need not lower
constexpr std::size_t kMostBeside = 64; // samples on each side of a crossing that a line may take in
constexpr double kMostOfStep = 0.2;     // that a line may run along: from the foot at 10 % to where the edge is steep
constexpr double kAgree = 1.5;          // standard uncertainties within which a wider piece must confirm a narrower one
constexpr double kLeftOver = 2.0;       // standard deviations of the noise's variance that a piece may leave beyond it
constexpr double kLeastBend = 0.1;   // of an interval: how far an edge of 80 ms at 100 Hz bends between two samples ...
constexpr double kBendOfStep = 0.35; // ... and one that passes the whole step between them, if not at its middle
constexpr double kKinked =
    0.7; // of what a kink between two samples moves: it lies there in few edges, and anywhere ...
constexpr double kKinkedFoot =
    0.5;                       // ... before the middle, where an edge only grows steeper, one of two ways falls out
constexpr double kReach = 3.0; // standard deviations that noise moves a sample by at most, seldom excepted

} // namespace

Edge::Edge(Samples samples, EdgeLevels levels, double noise_cmH2O)
    : samples_(samples), levels_(levels), per_step_(1.0 / levels.step()), noise_(noise_cmH2O * std::abs(per_step_))
{
}

void Edge::take_off(const SteadyOscillation* before, const SteadyOscillation* after, double changeover_s) noexcept
{
    before_ = before;
    after_ = after;
    changeover_s_ = changeover_s;
    swings_ = before_ != nullptr || after_ != nullptr;
}

double Edge::swing_at(double time_s) const
{
    const SteadyOscillation* swing = time_s < changeover_s_ ? before_ : after_;
    return swing != nullptr ? swing->at(time_s) : 0.0;
}

namespace {

bool long_enough(const Edge& edge, std::size_t first, std::size_t last)
{
    return last - first >= kSustainedSamples && edge.time(last - 1) - edge.time(first) >= kSustained_s - 1e-9;
}

// One past the last sample of the last sustained stay before the middle, at or before `from`.
std::optional<std::size_t> end_of_stay(const Edge& edge, std::size_t from)
{
    std::size_t last = from + 1;
    for (std::size_t i = from + 1; i-- > 0;) {
        if (edge.fraction(i) >= 0.5) {
            last = i;
        } else if (last > i && long_enough(edge, i, last)) {
            return last;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> start_of_stay(const Edge& edge, std::size_t from)
{
    std::size_t first = from;
    for (std::size_t i = from; i < edge.size(); ++i) {
        if (edge.fraction(i) < 0.5) {
            first = i + 1;
        } else if (long_enough(edge, first, i + 1)) {
            return first;
        }
    }
    return std::nullopt;
}

// The last crossing of a fraction before the middle, the first of one above it after that: the sample beyond it. 0
// where the samples do not go that far.
std::size_t beyond(const Edge& edge, std::size_t middle, double fraction)
{
    std::size_t i = middle;
    if (fraction > 0.5) {
        while (i < edge.size() && edge.fraction(i) < fraction) {
            ++i;
        }
        return i < edge.size() ? i : 0;
    }
    while (i > 0 && edge.fraction(i - 1) >= fraction) {
        --i;
    }
    return i;
}

// By how much the crossing moves where the edge has a kink between the two samples: it runs on as before them, or runs
// already as behind them.
double kink_s(const Edge& edge, std::size_t after, double fraction, double time_s)
{
    double farthest_s = 0.0;
    const double from_s = edge.time(after - 1);
    const double to_s = edge.time(after);
    const auto consider = [&](std::size_t i, double base_s, double base) {
        const double slope = (edge.fraction(i) - edge.fraction(i - 1)) / (edge.time(i) - edge.time(i - 1));
        const double at_s = slope > 0.0 ? base_s + (fraction - base) / slope : (base_s == from_s ? to_s : from_s);
        farthest_s = std::max(farthest_s, std::abs(std::clamp(at_s, from_s, to_s) - time_s));
    };
    if (after >= 2) {
        consider(after - 1, from_s, edge.fraction(after - 1));
    }
    if (after + 1 < edge.size()) {
        consider(after + 1, to_s, edge.fraction(after));
    }
    return farthest_s;
}

Crossing between_two(const Edge& edge, std::size_t after, double fraction)
{
    const double interval_s = edge.time(after) - edge.time(after - 1);
    const double below = edge.fraction(after - 1);
    const double step = edge.fraction(after) - below;
    const double share = step > 0.0 ? std::clamp((fraction - below) / step, 0.0, 1.0) : 0.5;
    Crossing crossing;
    crossing.time_s = edge.time(after - 1) + share * interval_s;
    crossing.slope_per_s = std::max(step, 1e-9) / interval_s;
    // Of two samples each weighs by how near the crossing lies to it.
    crossing.noise_u_s = edge.noise() * std::hypot(1.0 - share, share) / crossing.slope_per_s;
    const double least_s = interval_s * std::clamp(kBendOfStep * step, kLeastBend, 0.5);
    const double kinked_s = (fraction < 0.5 ? kKinkedFoot : kKinked) * kink_s(edge, after, fraction, crossing.time_s);
    crossing.half_width_s = std::min(std::max(least_s, kinked_s), interval_s);
    return crossing;
}

// Sums for a straight line and a parabola through samples about a place, from the inside out.
class Piece {
public:
    explicit Piece(double centre_s, double scale_s) : centre_s_(centre_s), scale_s_(scale_s) {}

    void add(double time_s, double value)
    {
        const double t = (time_s - centre_s_) / scale_s_;
        const double tt = t * t;
        n_ += 1.0;
        t1_ += t;
        t2_ += tt;
        t3_ += tt * t;
        t4_ += tt * tt;
        y_ += value;
        ty_ += t * value;
        tty_ += tt * value;
        yy_ += value * value;
    }

    struct Line {
        double slope_per_s = 0.0;
        double time_s = 0.0; // where it reaches the fraction
        double factor = 0.0; // standard uncertainty of the value there for unit noise
        double left = 0.0;   // variance that it leaves
        double bend = 0.0;   // by how much a parabola lies beside it there
    };

    [[nodiscard]] Line line(double fraction) const
    {
        const double mean_t = t1_ / n_;
        const double mean_y = y_ / n_;
        const double stt = t2_ - n_ * mean_t * mean_t;
        const double sty = ty_ - n_ * mean_t * mean_y;
        Line line;
        const double slope = sty / stt;
        const double at = slope > 0.0 ? mean_t + (fraction - mean_y) / slope : mean_t;
        line.slope_per_s = slope / scale_s_;
        line.time_s = centre_s_ + scale_s_ * at;
        line.factor = std::sqrt(1.0 / n_ + (at - mean_t) * (at - mean_t) / stt);
        const double left = yy_ - n_ * mean_y * mean_y - slope * sty;
        line.left = std::max(0.0, left) / std::max(1.0, n_ - 2.0);
        line.bend = parabola_beside(mean_t, stt, slope, mean_y, at);
        return line;
    }

private:
    // The parabola's own column, made orthogonal to the line's.
    [[nodiscard]] double parabola_beside(double mean_t, double stt, double slope, double mean_y, double at) const
    {
        const double mean_tt = t2_ / n_;
        const double along = (t3_ - n_ * mean_t * mean_tt) / stt;
        const double square = t4_ - n_ * mean_tt * mean_tt - along * along * stt;
        if (n_ < 4.0 || !(square > 1e-9 * t4_)) {
            return 0.0;
        }
        const double product = tty_ - n_ * mean_tt * mean_y - along * slope * stt;
        return product / square * (at * at - mean_tt - along * (at - mean_t));
    }

    double centre_s_, scale_s_;
    double n_ = 0.0, t1_ = 0.0, t2_ = 0.0, t3_ = 0.0, t4_ = 0.0;
    double y_ = 0.0, ty_ = 0.0, tty_ = 0.0, yy_ = 0.0;
};

// Grows a piece about a crossing for as long as the line through it is confirmed: it leaves no more than noise, and it
// crosses where the narrower ones did, within what noise explains.
Crossing through_piece(const Edge& edge, std::size_t after, double fraction, Crossing plain)
{
    const double interval_s = edge.time(after) - edge.time(after - 1);
    Piece piece(edge.time(after), interval_s);
    Crossing best = plain;
    double earliest_s = -1e300;
    double latest_s = 1e300;
    bool any = false;
    for (std::size_t beside = 1; beside <= kMostBeside && beside <= after && after + beside <= edge.size(); ++beside) {
        piece.add(edge.time(after - beside), edge.fraction(after - beside));
        piece.add(edge.time(after + beside - 1), edge.fraction(after + beside - 1));
        const double n = 2.0 * static_cast<double>(beside);
        if (beside < 2) {
            continue;
        }
        const auto line = piece.line(fraction);
        const double noise = edge.noise();
        const double reach_s = static_cast<double>(beside + 1) * interval_s;
        const bool noise_only = line.left <= noise * noise * (1.0 + kLeftOver * std::sqrt(2.0 / (n - 2.0)));
        if (!noise_only || (any && line.slope_per_s * n * interval_s > kMostOfStep)) {
            break;
        }
        if (!(line.slope_per_s > 0.0) || std::abs(line.time_s - edge.time(after)) > reach_s) {
            continue; // noise alone so far: wider
        }
        const double u_s = noise * line.factor / line.slope_per_s;
        earliest_s = std::max(earliest_s, line.time_s - kAgree * u_s);
        latest_s = std::min(latest_s, line.time_s + kAgree * u_s);
        if (earliest_s > latest_s) {
            break;
        }
        any = true;
        best = {line.time_s, u_s, std::max(std::abs(line.bend) / line.slope_per_s, kLeastBend * interval_s),
                line.slope_per_s};
        if (u_s < kEnough * interval_s) {
            break;
        }
    }
    return best;
}

} // namespace

namespace {

// How long the edge stays within `reach` of the fraction on its slower side: what a value that is off by so much moves
// the crossing by. On a straight edge that is reach over slope; beside a halt or in a slow foot it is more.
double slower_side_s(const Edge& edge, std::size_t after, double fraction, double reach, double time_s)
{
    std::size_t first = after;
    while (first > 0 && edge.fraction(first - 1) > fraction - reach) {
        --first;
    }
    std::size_t last = after;
    while (last < edge.size() && edge.fraction(last) < fraction + reach) {
        ++last;
    }
    const auto reaches_s = [&](std::size_t i, double at) {
        const double step = edge.fraction(i) - edge.fraction(i - 1);
        const double share = step > 0.0 ? std::clamp((at - edge.fraction(i - 1)) / step, 0.0, 1.0) : 0.5;
        return edge.time(i - 1) + share * (edge.time(i) - edge.time(i - 1));
    };
    const double before_s = first > 0 ? time_s - reaches_s(first, fraction - reach) : 0.0;
    const double behind_s = last > 0 && last < edge.size() ? reaches_s(last, fraction + reach) - time_s : 0.0;
    return std::max(before_s, behind_s);
}

} // namespace

Crossing crossing_at(const Edge& edge, std::size_t after, double fraction)
{
    const Crossing plain = between_two(edge, after, fraction);
    const double step = edge.fraction(after) - edge.fraction(after - 1);
    Crossing crossing = edge.noise() <= kClear * step ? plain : through_piece(edge, after, fraction, plain);
    // Which samples are neighbours of the crossing, noise and the levels decide. On a straight edge that is noise over
    // slope; how much longer a slower side lasts is not known of the crossing.
    const double level_u =
        std::hypot((1.0 - fraction) * edge.levels().from_u_cmH2O, fraction * edge.levels().to_u_cmH2O) /
        std::abs(edge.levels().step());
    const double reach = kReach * std::hypot(edge.noise(), level_u);
    const double slower_s = slower_side_s(edge, after, fraction, reach, crossing.time_s);
    crossing.half_width_s = std::max(crossing.half_width_s, slower_s - reach / crossing.slope_per_s);
    return crossing;
}

std::optional<std::size_t> sustained_middle(const Edge& edge, std::size_t last_before)
{
    if (edge.levels().step() == 0.0 || edge.size() < 2) {
        return std::nullopt;
    }
    const auto left = end_of_stay(edge, std::min(last_before, edge.size() - 1));
    const auto reached = start_of_stay(edge, left.value_or(last_before));
    return reached && *reached > 0 ? reached : std::nullopt;
}

namespace {

constexpr double kOf10 = 1.5; // weights of the 10 % and 30 % points in the line drawn back to the level that is left
constexpr double kOf30 = 1.0 - kOf10;

// A sum of crossings with weights; the levels' own noise moves all of them.
class Combined {
public:
    explicit Combined(const EdgeLevels& levels) : levels_(levels) {}

    void add(double weight, double fraction, const Crossing& crossing)
    {
        instant_.time_s += weight * crossing.time_s;
        noise_s_ = std::hypot(noise_s_, weight * crossing.noise_u_s);
        bend_s_ = std::hypot(bend_s_, weight * crossing.half_width_s * std::numbers::inv_sqrt3);
        by_from_s_ += weight * (1.0 - fraction) / crossing.slope_per_s;
        by_to_s_ += weight * fraction / crossing.slope_per_s;
    }

    [[nodiscard]] Instant instant() const
    {
        const double step = std::abs(levels_.step());
        const double from_s = by_from_s_ * levels_.from_u_cmH2O / step;
        const double to_s = by_to_s_ * levels_.to_u_cmH2O / step;
        Instant instant = instant_;
        instant.noise_u_s = std::hypot(noise_s_, std::hypot(from_s, to_s));
        instant.sampling_u_s = bend_s_;
        return instant;
    }

private:
    EdgeLevels levels_;
    Instant instant_;
    double noise_s_ = 0.0, bend_s_ = 0.0, by_from_s_ = 0.0, by_to_s_ = 0.0;
};

Crossing last_before(const Edge& edge, std::size_t middle, double fraction)
{
    return crossing_at(edge, std::max<std::size_t>(beyond(edge, middle, fraction), 1), fraction);
}

std::size_t samples_from_to(const Edge& edge, std::size_t near, double from_s, double to_s)
{
    std::size_t first = near;
    std::size_t last = near;
    while (first > 0 && edge.time(first - 1) >= from_s) {
        --first;
    }
    while (last < edge.size() && edge.time(last) <= to_s) {
        ++last;
    }
    return last - first;
}

} // namespace

double onset_of(const Edge& edge, std::size_t middle)
{
    return kOf10 * last_before(edge, middle, 0.1).time_s + kOf30 * last_before(edge, middle, 0.3).time_s;
}

Transition transition_at(const Edge& edge, std::size_t middle)
{
    const Crossing at_10 = last_before(edge, middle, 0.1);
    const Crossing at_30 = last_before(edge, middle, 0.3);
    Transition transition;
    transition.from_cmH2O = edge.levels().from_cmH2O;
    transition.to_cmH2O = edge.levels().to_cmH2O;
    Combined onset(edge.levels());
    onset.add(kOf10, 0.1, at_10);
    onset.add(kOf30, 0.3, at_30);
    transition.onset = onset.instant();
    Combined mid(edge.levels());
    mid.add(1.0, 0.5, crossing_at(edge, middle, 0.5));
    transition.mid = mid.instant();
    const std::size_t after_90 = beyond(edge, middle, 0.9);
    if (after_90 > 0) {
        const Crossing at_90 = crossing_at(edge, after_90, 0.9);
        Combined whole(edge.levels());
        whole.add(-1.0, 0.1, at_10);
        whole.add(1.0, 0.9, at_90);
        const Instant length = whole.instant();
        transition.time_10_90_s = length.time_s;
        transition.time_10_90_u_s = std::hypot(length.noise_u_s, length.sampling_u_s);
        transition.samples_10_90 = samples_from_to(edge, middle, at_10.time_s, at_90.time_s);
    }
    return transition;
}

namespace {

constexpr double kBesideOther = 1.1; // of the difference: a rectangle's U is 0.95 of its half-width

double widened_u(double u_s, double one_s, double other_s)
{
    return std::hypot(u_s, kBesideOther * (one_s - other_s) * std::numbers::inv_sqrt3);
}

} // namespace

Transition widened(const Transition& reading, const Transition& other)
{
    Transition wide = reading;
    wide.onset.sampling_u_s = widened_u(wide.onset.sampling_u_s, wide.onset.time_s, other.onset.time_s);
    wide.mid.sampling_u_s = widened_u(wide.mid.sampling_u_s, wide.mid.time_s, other.mid.time_s);
    if (wide.time_10_90_s && other.time_10_90_s) {
        wide.time_10_90_u_s = widened_u(wide.time_10_90_u_s, *wide.time_10_90_s, *other.time_10_90_s);
    }
    return wide;
}

} // namespace zeroline::signal
