#include "gui/window/theme.hpp"

#include "tests/gui/window/driven_window.hpp"

#include "gui/charts/picture.hpp"
#include "gui/window/page_parts.hpp"
#include "gui/window/tone_colours.hpp"

#include <QLineEdit>

#include <gtest/gtest.h>

namespace zeroline::window {
namespace {

class EveryScheme : public testing::TestWithParam<Scheme> {
protected:
    const Colours colours_ = colours_of(GetParam());
};

/// WCAG 2.1, 1.4.3 (level AA): 4.5 for writing.
TEST_P(EveryScheme, HasWritingThatStandsOutFromAllItStandsOn)
{
    for (const auto& ground : {colours_.ground, colours_.card, colours_.under, colours_.edge}) {
        EXPECT_GE(contrast(colours_.ink, ground), 4.5) << ground.name().toStdString();
    }
    for (const auto& ground : {colours_.ground, colours_.card}) {
        EXPECT_GE(contrast(colours_.quiet, ground), 4.5) << ground.name().toStdString();
    }
    EXPECT_GE(contrast(colours_.on_accent, colours_.accent), 4.5);
}

/// WCAG 2.1, 1.4.11 (level AA): 3 for the outline of what can be used, and for the ring of the focus.
TEST_P(EveryScheme, HasOutlinesAndAFocusThatCanBeSeen)
{
    for (const auto& ground : {colours_.ground, colours_.card}) {
        EXPECT_GE(contrast(colours_.line, ground), 3.0) << ground.name().toStdString();
        EXPECT_GE(contrast(colours_.accent, ground), 3.0) << ground.name().toStdString();
    }
    // The ring of the one thing to do stands between it and the card, and its words are underlined.
    EXPECT_GE(contrast(colours_.ink, colours_.card), 3.0);
}

TEST_P(EveryScheme, ReadsAsItselfAndGivesTheTraceAContrastOfItsOwn)
{
    const auto palette = palette_of(colours_);
    EXPECT_EQ(scheme_for(palette), GetParam());
    const auto look = charts::look_of(palette, QFont());
    EXPECT_GE(contrast(look.trace, look.ground), 4.5);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        EXPECT_GE(contrast(palette.color(QPalette::Disabled, role), palette.color(QPalette::Window)), 4.5)
            << "what was signed is still read where it can no longer be changed";
    }
}

/// Qt's style sheets draw the hint in a field at half of the colour of writing where they are told that colour.
TEST_P(EveryScheme, HasHintsInFieldsThatCanBeRead)
{
    auto& application = window::application();
    const auto before = QApplication::palette();
    dress(application, GetParam());
    QLineEdit field;
    field.setProperty("field", true);
    field.setPlaceholderText(QStringLiteral("role"));
    field.show();
    field.ensurePolished();
    auto hint = field.palette().color(QPalette::PlaceholderText);
    const auto share = hint.alphaF();
    const auto mixed = [&](float over, float under) {
        return static_cast<double>(share * over + (1.0F - share) * under);
    };
    const auto& ground = colours_.card;
    hint = QColor::fromRgbF(static_cast<float>(mixed(hint.redF(), ground.redF())),
                            static_cast<float>(mixed(hint.greenF(), ground.greenF())),
                            static_cast<float>(mixed(hint.blueF(), ground.blueF())));
    EXPECT_GE(contrast(hint, ground), 4.5);
    dress(application, scheme_for(before));
}

INSTANTIATE_TEST_SUITE_P(OfTheWindow, EveryScheme, testing::Values(Scheme::light, Scheme::dark, Scheme::high_contrast));

TEST(Scheme, IsTheOneThatWasChosenOrThatOfTheDesktop)
{
    const QPalette bright(QColor(0xEF, 0xEF, 0xEF));
    const QPalette night(QColor(0x2B, 0x2B, 0x2B));
    EXPECT_EQ(scheme_of({}, bright), Scheme::light);
    EXPECT_EQ(scheme_of({}, night), Scheme::dark);
    EXPECT_EQ(scheme_of(QStringLiteral("light"), night), Scheme::light);
    EXPECT_EQ(scheme_of(QStringLiteral("dark"), bright), Scheme::dark);
    EXPECT_EQ(scheme_of(QStringLiteral("contrast"), bright), Scheme::high_contrast);
}

} // namespace
} // namespace zeroline::window
