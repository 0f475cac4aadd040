#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace zeroline::signal {

/// A smooth curve through the samples of one side of an edge, in fractions of the step against time.
///
/// A polynomial of fifth degree whose bends are held by what edges do: an edge that takes T from 10 to 90 % bends, in
/// its second to fifth derivative, by some 4, 10, 30 and 100 over T^2 to T^5 (an exponential by 4.8, 10.6, 23 and 51;
/// ramps by nothing; S-shaped and second-order ones lie between). Where samples abound they decide alone; where they
/// are few the curve is as straight as they allow, and its uncertainty says what the bends may hide.
class LocalCurve {
public:
    static constexpr std::size_t kParameters = 7;
    static constexpr std::size_t kSizesOfBends = 3; ///< tried, and averaged by how well they explain the samples

    /// What one sample says.
    struct Point {
        double time_s = 0.0;
        double fraction = 0.0;
        double weight = 1.0; ///< of its square: what the variance of the others is of its own
    };

    /// `edge_s`: rough 10-90 % time; `noise`: standard deviation of a fraction. None below two points at different
    /// times.
    [[nodiscard]] static std::optional<LocalCurve> fit(std::span<const Point> points, double centre_s, double edge_s,
                                                       double noise);

    [[nodiscard]] double at(double time_s) const noexcept;
    [[nodiscard]] double slope_at(double time_s) const noexcept;
    /// Standard deviation of at().
    [[nodiscard]] double deviation_at(double time_s) const noexcept;

    /// The time nearest to `near_s` at which the curve crosses `fraction`, searched over `reach_s` to both sides; none
    /// where it does not, or where it does not rise there.
    [[nodiscard]] std::optional<double> crossing(double fraction, double near_s, double reach_s) const;

    /// Uncertainty of a weighted sum of crossing times.
    struct Spread {
        double noise_s = 0.0; ///< from the noise of the samples
        double bend_s = 0.0;  ///< from what the edge may do between the samples
    };
    struct Weighted {
        double time_s = 0.0;
        double weight = 1.0;
    };
    [[nodiscard]] Spread spread_of(std::span<const Weighted> crossings) const;

    /// Logarithm of the likelihood of the points, bends averaged over; what depends on their number alone left out.
    [[nodiscard]] double log_likelihood() const noexcept { return log_likelihood_; }

private:
    using Vector = std::array<double, kParameters>;
    using Matrix = std::array<Vector, kParameters>;
    /// The curve with the bends of one size.
    struct Candidate {
        Vector coefficients{};
        Matrix lower{}; // Cholesky's, of the normal equations with what is held added
        double log_evidence = 0.0;
        double share = 0.0;
    };

    [[nodiscard]] static std::optional<Candidate> candidate(const Matrix& normal, const Vector& right, double bends);
    void average();
    [[nodiscard]] Vector powers(double time_s) const noexcept;
    /// Variance of a weighted sum of the coefficients, and the part of it that the noise of the samples makes.
    struct Variance {
        double all = 0.0;
        double noise = 0.0;
    };
    [[nodiscard]] Variance variance_of(const Vector& weights) const;

    double centre_s_ = 0.0;
    double scale_s_ = 1.0;
    double log_likelihood_ = 0.0;
    Vector coefficients_{};
    std::array<Candidate, kSizesOfBends> candidates_{};
    Matrix normal_{};
};

} // namespace zeroline::signal
