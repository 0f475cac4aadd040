#pragma once

#include <QString>
#include <QStringList>

#include <string>

namespace zeroline::print {

/// The words of the copy for the person at home: no terms of the trade. %1, %2 ... are put in.
struct HomeWords {
    QString title, checked_on, next_due, by, unit, simulated, imported;
    /// The result, large.
    QString agreed, close, outside, not_as_set, not_in_order, incomplete, again, out_of_use;
    /// And what to do.
    QString agreed_more, close_more, outside_more, not_as_set_more, not_in_order_more, incomplete_more, again_more,
        out_of_use_more;
    QString settings, setting, breath_in, breath_out, rest, prescribed, measured, in_figures, out_figures, seconds;
    QString not_told, not_told_more;
    QString call, call_more, no_contact;
    QString by_hand, by_hand_lines; ///< five lines, one below the other
    QString set_otherwise, page, not_seen, given_back, not_given_back, held;
};

/// In German for "de" and its regions, else in English.
[[nodiscard]] const HomeWords& home_words(const std::string& language);

} // namespace zeroline::print
