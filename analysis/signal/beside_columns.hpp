#pragma once

#include "analysis/signal/turner.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <utility>
#include <vector>

namespace zeroline::signal {

/// Values in time beside a few columns (constant, slope, tail ...), made once and asked for many waves: what the least
/// squares of a wave, steady or dying away, leave of the values beside some of the columns.
template <std::size_t K> class BesideColumns {
public:
    struct Row {
        double time_s = 0.0, value = 0.0;
        std::array<double, K> column{};
    };

    /// Each column is made a unit at right angles to as many of the first ones: those it may be used together with.
    BesideColumns(std::vector<Row> rows, std::size_t against) : rows_(std::move(rows))
    {
        for (std::size_t k = 0; k < K; ++k) {
            make_unit(k, std::min(k, against));
        }
        for (const Row& row : rows_) {
            squares_ += row.value * row.value;
        }
    }

    /// What a wave has in common with itself, the values and the columns.
    struct Wave {
        double ss = 0.0, sc = 0.0, cc = 0.0, sy = 0.0, cy = 0.0;
        std::array<double, K> sine{}, cosine{};
    };
    [[nodiscard]] Wave wave(Turner turner) const
    {
        Wave wave;
        for (const Row& row : rows_) {
            turner.turn_to(row.time_s);
            const double s = turner.sine();
            const double c = turner.cosine();
            wave.ss += s * s;
            wave.sc += s * c;
            wave.cc += c * c;
            wave.sy += s * row.value;
            wave.cy += c * row.value;
            for (std::size_t k = 0; k < K; ++k) {
                wave.sine[k] += s * row.column[k];
                wave.cosine[k] += c * row.column[k];
            }
        }
        return wave;
    }

    /// Sum of squares that columns leave.
    [[nodiscard]] double left(std::initializer_list<std::size_t> columns) const
    {
        double left = squares_;
        for (const std::size_t k : columns) {
            left -= share_[k] * share_[k];
        }
        return std::max(0.0, left);
    }

    /// ... that a wave leaves beside them, and how strong it is. Not solved where it cannot be told from them.
    struct Fit {
        double amplitude = 0.0, left = 0.0;
        bool solved = false;
    };
    [[nodiscard]] Fit fit(const Wave& wave, std::initializer_list<std::size_t> columns) const
    {
        constexpr double kIndependent = 1e-12; // of the squares' product: less is rounding
        double ss = wave.ss, sc = wave.sc, cc = wave.cc, sy = wave.sy, cy = wave.cy;
        for (const std::size_t k : columns) {
            ss -= wave.sine[k] * wave.sine[k];
            sc -= wave.sine[k] * wave.cosine[k];
            cc -= wave.cosine[k] * wave.cosine[k];
            sy -= wave.sine[k] * share_[k];
            cy -= wave.cosine[k] * share_[k];
        }
        const double determinant = ss * cc - sc * sc;
        if (!(determinant > kIndependent * (wave.ss + wave.cc) * (wave.ss + wave.cc))) {
            return {0.0, left(columns), false};
        }
        const double by_sine = (cc * sy - sc * cy) / determinant;
        const double by_cosine = (ss * cy - sc * sy) / determinant;
        return {std::hypot(by_sine, by_cosine), std::max(0.0, left(columns) - by_sine * sy - by_cosine * cy), true};
    }

private:
    void make_unit(std::size_t k, std::size_t against)
    {
        for (std::size_t other = 0; other < against; ++other) {
            double along = 0.0;
            for (const Row& row : rows_) {
                along += row.column[k] * row.column[other];
            }
            for (Row& row : rows_) {
                row.column[k] -= along * row.column[other];
            }
        }
        double squares = 0.0;
        for (const Row& row : rows_) {
            squares += row.column[k] * row.column[k];
        }
        for (Row& row : rows_) {
            row.column[k] *= squares > 0.0 ? 1.0 / std::sqrt(squares) : 0.0;
            share_[k] += row.column[k] * row.value;
        }
    }

    std::vector<Row> rows_;
    std::array<double, K> share_{}; // of the values along each column
    double squares_ = 0.0;
};

} // namespace zeroline::signal
