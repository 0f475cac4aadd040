#pragma once

#include "gui/register/database.hpp"
#include "gui/session/result_words.hpp"

#include <QDate>
#include <QString>

#include <optional>
#include <vector>

namespace zeroline::session {

/// One quantity at one visit: the mean as found less what it was compared with; without that the mean itself.
struct TrendVisit {
    QDate day;
    double error = 0.0;
    std::optional<double> expanded_uncertainty;
    std::optional<double> lower, upper; ///< limits of that visit, less what it was compared with
    Tone tone = Tone::none;             ///< of its judgement
    QString sign;
};

/// How one quantity of a unit went over its visits, the oldest first; never empty.
struct UnitTrend {
    QString name; ///< "insufflation pressure (day)"
    QString unit;
    int decimals = 2;
    std::vector<TrendVisit> visits;
    std::optional<double> centre, lowest, highest; ///< of the individuals chart (XmR); from two visits on
    QString drift; ///< what the line through the visits says, with its uncertainty; empty below four visits
};

/// Of unit_register::UnitRegister::figures_of(), calibrations_of() or gauge_checks_of(). Pressures come first,
/// quantities without a limit last.
[[nodiscard]] std::vector<UnitTrend> trends_of(const unit_register::Rows& figures);

/// When to check next, in words: the day of the interval, and a sooner one where a quantity may reach its limit before.
struct NextCheck {
    QString words;      ///< empty: neither is known
    QString because_of; ///< name of the trend that asks for a sooner one; empty: none does
};
[[nodiscard]] NextCheck next_check_of(const unit_register::Rows& figures, const QDate& today);

} // namespace zeroline::session
