#include "gui/print/page_painter.hpp"

#include "gui/print/offscreen.hpp"

#include <gtest/gtest.h>

#include <chrono>

namespace zeroline::print {
namespace {

class InkText : public testing::Test {
protected:
    Offscreen application_;
    Style style_;
};

TEST_F(InkText, breaks_at_blanks_and_a_word_that_is_too_long_anywhere)
{
    const QString text = QStringLiteral("a customer of ") + QString(70, u'W') + QStringLiteral(" and more");
    const double width = width_mm(QString(20, u'W'), style_);
    const auto lines = wrapped(text, width, style_);
    for (const auto& line : lines) {
        EXPECT_LE(width_mm(line, style_), width) << line.toStdString();
    }
    EXPECT_EQ(lines.join(QString()).remove(u' '), QString(text).remove(u' ')) << "nothing is lost";
    EXPECT_EQ(lines.front(), QStringLiteral("a customer of"));
    EXPECT_EQ(lines.at(1).size(), 20);
}

TEST_F(InkText, does_not_cut_a_letter_in_two)
{
    const QString lock = QString::fromUcs4(U"\U0001F512", 1);
    for (const auto& line : wrapped(lock.repeated(60), width_mm(lock, style_) * 2.5, style_)) {
        EXPECT_EQ(line.size() % 2, 0);
        EXPECT_FALSE(line.isEmpty());
    }
    EXPECT_EQ(wrapped(lock.repeated(3), 0.01, style_).size(), 3) << "narrower than any letter";
}

TEST_F(InkText, takes_time_by_the_length_of_a_word_and_not_by_its_cube)
{
    const auto began = std::chrono::steady_clock::now();
    const auto lines = wrapped(QString(20'000, u'x'), 80.0, style_);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
    EXPECT_GT(lines.size(), 100);
    EXPECT_LT(took.count(), 5.0) << "0.1 s on an idle machine; minutes when each letter less was measured whole";
}

TEST_F(InkText, a_mark_that_turns_letters_round_is_seen_on_paper)
{
    EXPECT_EQ(wrapped(QStringLiteral("\u202Eliaf"), 100.0, style_).front(), QStringLiteral("\\u202eliaf"));
}

} // namespace
} // namespace zeroline::print
