#include "analysis/signal/oscillation.hpp"
#include "analysis/signal/oscillation_fit.hpp"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace zeroline::signal {
namespace {

constexpr double kBetterThanOthers = 0.3; // it leaves no more than this part of what bends, or exponentials, leave
constexpr double kFewestPeriods = 0.75;   // in the longest phase: less of one is a bend
constexpr double kSurelyOf = 0.02;        // standard uncertainty that its frequency may have, as a part of it
constexpr double kDecays = 0.25;          // envelope's change over half the window, as a natural logarithm

// The phases of a series, fitted with one frequency and each its own constant, sine and cosine.
class Series {
public:
    Series(std::span<const Samples> stretches, double noise_cmH2O)
    {
        for (const Samples& one : stretches) {
            windows_.push_back(window_of(one));
            const OscillationWindow& window = windows_.back();
            shortest_s_ = std::min(shortest_s_, window.span_s);
            longest_s_ = std::max(longest_s_, window.span_s);
            const double variance = noise_cmH2O * noise_cmH2O / window.group;
            const auto points = static_cast<double>(window.size());
            by_noise_ += variance * (points - kFitted);
            by_noise_u_ = std::hypot(by_noise_u_, variance * std::sqrt(2.0 * points));
            variance_ = std::max(variance_, variance);
            about_line_ += window.about_line;
        }
    }

    /// Whether the phases move by more than noise at all.
    [[nodiscard]] bool moves() const { return about_line_ * (1.0 - kExplains) > by_noise_; }

    /// To be called before anything is asked at a frequency.
    void prepare()
    {
        beside_settling_.reserve(windows_.size());
        for (const OscillationWindow& window : windows_) {
            beside_settling_.emplace_back(window);
        }
    }

    /// Where the least is left: from three quarters of a period in the longest phase to two in the shortest.
    [[nodiscard]] double best_hz() const
    {
        const double step_hz = 0.05 / longest_s_;
        const double to_hz = std::min(kHighestOscillation_hz, 2.0 / shortest_s_);
        double best_hz = 0.0;
        double least = about_line_;
        for (double hz = std::max(kLowestOscillation_hz, kFewestPeriods / longest_s_); hz <= to_hz; hz += step_hz) {
            if (const double left = left_at(hz); left < least) {
                least = left;
                best_hz = hz;
            }
        }
        if (best_hz <= 0.0) {
            return 0.0;
        }
        constexpr int kBits = 20; // a millionth of the frequency
        const auto narrowed = boost::math::tools::brent_find_minima([this](double hz) { return left_at(hz); },
                                                                    best_hz - step_hz, best_hz + step_hz, kBits);
        return narrowed.first * longest_s_ < kFewestPeriods ? 0.0 : narrowed.first;
    }

    /// Standard uncertainty of a frequency where the least is left: what is left rises by the noise's variance.
    [[nodiscard]] double u_hz(double hz) const
    {
        const double step_hz = 0.01 / longest_s_;
        const double bend = (left_at(hz - step_hz) - 2.0 * left_at(hz) + left_at(hz + step_hz)) / (step_hz * step_hz);
        return bend > 0.0 ? std::sqrt(2.0 * variance_ / bend) : hz;
    }

    /// Whether bends, or what settling edges leave, move by so much more than noise that a sinusoid can be told from
    /// them.
    [[nodiscard]] bool more_than_settling()
    {
        by_bends_ = by_tails_ = -by_noise_;
        for (const OscillationWindow& window : windows_) {
            by_bends_ += left_by_bend(window);
            by_tails_ += left_by_tail(window);
        }
        return kSurely * by_noise_u_ < kBetterThanOthers * std::min(by_bends_, by_tails_);
    }

    /// Whether a sinusoid leaves no more than as much again as the noise (a slow ring leaves many times that), and what
    /// a settling phase does leaves more.
    [[nodiscard]] bool told_from_settling(double hz) const
    {
        const double beyond_noise = std::max(0.0, left_at(hz) - by_noise_);
        const double unexplained = beyond_noise + kSurely * by_noise_u_;
        return beyond_noise < by_noise_ && unexplained < kBetterThanOthers * std::min(by_bends_, by_tails_);
    }

    /// Whether a ring in most phases would explain them as well: what an edge leaves swings at one frequency, too.
    [[nodiscard]] bool rings(double hz) const
    {
        double left = 0.0;
        std::size_t decaying = 0;
        for (const OscillationWindow& window : windows_) {
            const Decay decay = decay_of(window, refined(window, hz));
            left += decay.left;
            decaying += static_cast<std::size_t>(std::abs(decay.over_half) > kDecays);
        }
        return 2 * decaying > windows_.size() && left < left_at(hz) + kSurely * by_noise_u_;
    }

private:
    static constexpr double kSurely = 2.0;
    static constexpr double kFitted = 4.0; // in each phase

    [[nodiscard]] double left_at(double hz) const
    {
        double left = 0.0;
        for (const BesideSettling& window : beside_settling_) {
            left += window.left(hz);
        }
        return left;
    }

    std::vector<OscillationWindow> windows_;
    std::vector<BesideSettling> beside_settling_;
    double shortest_s_ = std::numeric_limits<double>::infinity();
    double longest_s_ = 0.0;
    double about_line_ = 0.0;
    double by_noise_ = 0.0; // what noise alone leaves, and its standard deviation
    double by_noise_u_ = 0.0;
    double variance_ = 0.0; // of a point
    double by_bends_ = 0.0; // what those leave beyond noise
    double by_tails_ = 0.0;
};

} // namespace

std::optional<SharedOscillation> find_shared_oscillation(std::span<const Samples> stretches, double noise_cmH2O,
                                                         std::optional<double> seen_hz)
{
    if (stretches.size() < 2) {
        return std::nullopt;
    }
    Series series(stretches, noise_cmH2O);
    if (!series.moves() || (!seen_hz && !series.more_than_settling())) {
        return std::nullopt;
    }
    series.prepare();
    const double best_hz = series.best_hz();
    const double u_hz = best_hz > 0.0 ? series.u_hz(best_hz) : 0.0;
    if (!(best_hz >= kLowestOscillation_hz) || !(u_hz < kSurelyOf * best_hz)) {
        return std::nullopt;
    }
    const bool believed = seen_hz ? std::abs(best_hz - *seen_hz) < kAlikeFrequency * *seen_hz
                                  : series.told_from_settling(best_hz) && !series.rings(best_hz);
    return believed ? std::optional(SharedOscillation{best_hz, u_hz}) : std::nullopt;
}

} // namespace zeroline::signal
