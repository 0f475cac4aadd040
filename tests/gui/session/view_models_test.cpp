// What the window shows, without a window.

#include "gui/session/cycle_overlay.hpp"
#include "gui/session/findings_model.hpp"
#include "gui/session/judgement_model.hpp"
#include "gui/session/ports_model.hpp"
#include "gui/session/run_files.hpp"
#include "gui/session/run_marks.hpp"
#include "gui/session/shown_number.hpp"
#include "gui/session/soft_sound.hpp"
#include "tests/gui/session/played_run.hpp"

#include <QAbstractItemModelTester>
#include <QLocale>
#include <QtEndian>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace zeroline::session {
namespace {

using metrology::Outcome;
using testing::HasSubstr;
using Failing = QAbstractItemModelTester;

verification::Judgement pressure(const std::string& measurand, double mean, double worst, Outcome verdict)
{
    verification::Judgement made;
    made.measurand = measurand;
    made.preset = "day";
    made.against = "prescribed";
    made.unit = "cmH2O";
    made.prescribed = made.set = 40.0;
    made.limits = {38.0, 42.0};
    made.n = 5;
    made.mean = mean;
    made.worst = worst;
    made.worst_cycle = 3;
    made.expanded_uncertainty = 0.234;
    made.verdict = verdict;
    made.basis = "service manual";
    return made;
}

verification::Assessment judged(Outcome verdict)
{
    verification::Assessment assessment;
    assessment.verdict = assessment.unit_accuracy = verdict;
    auto judgement = pressure("insufflation-pressure", 37.0, 36.04, verdict);
    if (verdict == Outcome::fail)
        judgement.reason = verification::Reason{"outside-limits", "outside"};
    assessment.judgements.push_back(judgement);
    assessment.not_tested = {"flow", "strength-under-flow"};
    return assessment;
}

ResultView seen(const verification::Assessment& assessment) { return live_view(short_order(), assessment); }

std::string cell(const JudgementModel& model, int row, JudgementModel::Column column)
{
    const auto columns = JudgementModel::result_columns();
    const auto at = std::find(columns.begin(), columns.end(), column) - columns.begin();
    return model.index(row, static_cast<int>(at)).data().toString().toStdString();
}

class ViewModels : public testing::Test {
protected:
    void SetUp() override { QLocale::setDefault(QLocale::c()); }
    void TearDown() override { QLocale::setDefault(QLocale::c()); }
};

TEST_F(ViewModels, NumbersStandWithSignAndDecimalsOfTheLocale)
{
    EXPECT_EQ(shown(1234.5, 1), "1234.5");
    EXPECT_EQ(shown_signed(0.04, 1), "0.0");
    EXPECT_EQ(shown_signed(-0.04, 1), "0.0");
    EXPECT_EQ(shown_signed(39.95, 0), "+40");
    EXPECT_EQ(shown_short(1.5), "1.5");
    EXPECT_EQ(shown_short_signed(-40.0), "-40");
    QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany));
    EXPECT_EQ(shown(1234.5, 1), "1234,5");
    EXPECT_EQ(shown_short_signed(1.25), "+1,25");
}

TEST_F(ViewModels, TheTableShowsWhatIsPrescribedBeforeTheFirstCycle)
{
    JudgementModel model(JudgementModel::result_columns());
    const Failing tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    model.begin(short_order(), short_order().presets.front().name);
    EXPECT_EQ(model.rowCount(), 5);
    EXPECT_EQ(cell(model, 0, JudgementModel::measurand), "insufflation pressure in cmH2O");
    EXPECT_EQ(cell(model, 0, JudgementModel::prescribed), "+40");
    EXPECT_EQ(cell(model, 1, JudgementModel::prescribed), "-40");
    EXPECT_EQ(cell(model, 0, JudgementModel::verdict), "");
}

TEST_F(ViewModels, OnlyWhatIsOutsideALimitAsksForTheSetUpFirst)
{
    const auto asked = [](const verification::Assessment& assessment) {
        return seen(assessment).to_do.join(u' ').contains(QLatin1String("Check zero, plug and hose first"));
    };
    EXPECT_TRUE(asked(judged(Outcome::fail)));
    EXPECT_TRUE(asked(judged(Outcome::conditional_fail)));
    for (const auto outcome : {Outcome::pass, Outcome::conditional_pass, Outcome::incomplete}) {
        EXPECT_TRUE(seen(judged(outcome)).to_do.isEmpty());
    }
    auto critical = judged(Outcome::fail);
    critical.critical = true;
    EXPECT_FALSE(asked(critical)) << "it stays out of use whatever the cause";
}

TEST_F(ViewModels, AtHomeAUnitThatFailedIsReplacedBeforeItIsKeptApart)
{
    const auto says_replacement = [](verification::Occasion occasion, Outcome outcome) {
        auto order = short_order();
        order.occasion = occasion;
        order.contact = "service desk";
        const auto lines = live_view(order, judged(outcome)).to_do;
        return lines.join(u' ').contains(QLatin1String("arrange a replacement now (service desk)"));
    };
    EXPECT_TRUE(says_replacement(verification::Occasion::home_visit, Outcome::fail));
    EXPECT_FALSE(says_replacement(verification::Occasion::home_visit, Outcome::pass));
    EXPECT_FALSE(says_replacement(verification::Occasion::pre_delivery, Outcome::fail));
}

TEST_F(ViewModels, EachJudgementIsAWordASignAndATone)
{
    JudgementModel model(JudgementModel::result_columns());
    const Failing tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    model.show(seen(judged(Outcome::fail)), "day");
    EXPECT_EQ(cell(model, 0, JudgementModel::verdict), "\u2717 fail");
    EXPECT_EQ(cell(model, 0, JudgementModel::worst), "+36.04");
    EXPECT_EQ(cell(model, 0, JudgementModel::limits), "+38.00 to +42.00");
    const auto columns = JudgementModel::result_columns();
    const auto at = std::find(columns.begin(), columns.end(), JudgementModel::verdict) - columns.begin();
    EXPECT_EQ(model.index(0, static_cast<int>(at)).data(JudgementModel::ToneRole).toInt(),
              static_cast<int>(Tone::fail));
    model.show(seen(judged(Outcome::pass)), "day");
    EXPECT_EQ(cell(model, 0, JudgementModel::verdict), "\u2713 pass");
    model.set_columns(JudgementModel::detail_columns());
    EXPECT_EQ(model.columnCount(), static_cast<int>(JudgementModel::detail_columns().size()));
}

TEST_F(ViewModels, WhileCyclesComeTheTableSaysHowFarItHasGot)
{
    JudgementModel model(JudgementModel::result_columns());
    auto assessment = judged(Outcome::incomplete);
    assessment.judgements.front().n = 2;
    assessment.judgements.front().reason = verification::Reason{"too-few-cycles", "2 of 5"};
    model.show_live(seen(assessment), {}, "day", 5);
    EXPECT_EQ(cell(model, 0, JudgementModel::verdict), "so far \u2713, 2 of 5");
    EXPECT_EQ(model.card(0).tone, Tone::none) << "the colour of a pass comes with the verdict";
    model.show(seen(assessment), "day");
    EXPECT_EQ(cell(model, 0, JudgementModel::verdict), "? incomplete");
}

TEST_F(ViewModels, TheVerdictReadsInWordsWithOneSentenceWhy)
{
    EXPECT_EQ(seen(judged(Outcome::pass)).headline, "Within limits");
    EXPECT_EQ(seen(judged(Outcome::incomplete)).headline, "Incomplete");
    EXPECT_EQ(seen(judged(Outcome::fail)).headline, "Outside limits");
    EXPECT_EQ(seen(judged(Outcome::fail)).why.toStdString(),
              "Insufflation pressure (preset day): +36.04 of +40 cmH2O in cycle 3; the limits are +38.00 to +42.00.");
    auto critical = judged(Outcome::fail);
    critical.critical = true;
    EXPECT_EQ(seen(critical).headline, "Keep this unit out of use");
    EXPECT_FALSE(seen(critical).may_be_a_breath());
    critical.findings.push_back({"swapped-ports", verification::Severity::critical, {}, {}, {}, {}, {}, "Stop."});
    EXPECT_TRUE(seen(critical).may_be_a_breath());
    EXPECT_EQ(seen(critical).sign, "\u26A0");
    EXPECT_THAT(seen(critical).not_tested.toStdString(), HasSubstr("Not tested: flow, strength under flow."));
}

TEST_F(ViewModels, FindingsAndReasonsAreListedOnce)
{
    FindingsModel model;
    const Failing tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    auto assessment = judged(Outcome::fail);
    assessment.findings.push_back(
        {"over-pressure", verification::Severity::critical, {}, {}, {}, {}, {}, "Looks like this because that."});
    assessment.reasons = {{"house-tolerance", "House limits."},
                          {"house-tolerance", "House limits."},
                          {"outside-limits", "insufflation-pressure (day): outside"}};
    model.show(seen(assessment));
    EXPECT_EQ(model.rowCount(), 3);
    EXPECT_EQ(model.index(0, 0).data().toString(), "\u26A0 critical: Looks like this because that.");
    EXPECT_EQ(model.index(0, 0).data(FindingsModel::CodeRole).toString(), "over-pressure");
    EXPECT_TRUE(model.index(1, 0).data().toString().startsWith(QChar(0x2717))) << "then what makes it fail";
    EXPECT_EQ(model.index(2, 0).data(FindingsModel::ToneRole).toInt(), static_cast<int>(Tone::none));
    model.show(ResultView{});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(model.index(0, 0).data().toString(), "Nothing stood out.") << "an empty page would leave one in doubt";
    model.clear();
    EXPECT_EQ(model.rowCount(), 0);
}

TEST_F(ViewModels, TheVirtualBenchIsAlwaysAmongThePortsAndMarkedAsSimulated)
{
    PortsModel model;
    const Failing tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    const int listed = model.rowCount();
    ASSERT_GE(listed, 1);
    EXPECT_THAT(model.index(listed - 1, 0).data().toString().toStdString(), HasSubstr("simulated"));
    EXPECT_EQ(model.path_at(listed - 1), PortsModel::kVirtualBench);
    model.offer("/dev/pts/77");
    EXPECT_EQ(model.rowCount(), listed + 1);
    EXPECT_EQ(model.row_of("/dev/pts/77"), listed - 1);
    model.offer({});
    EXPECT_EQ(model.rowCount(), listed);
    EXPECT_EQ(model.row_of("/dev/pts/77"), -1);
}

signal::Phase phase(signal::PhaseKind kind, double from_s, double to_s)
{
    signal::Phase made;
    made.kind = kind;
    made.first_time_s = from_s;
    made.last_time_s = to_s;
    return made;
}

/// Two presets with limits of their own, a cycle of each.
struct TwoPresets {
    verification::WorkOrder order = short_order();
    verification::Assessment assessment = judged(Outcome::pass);
    TwoPresets()
    {
        order.presets.push_back(order.presets.front());
        order.presets.back().name = "night";
        auto night = pressure("insufflation-pressure", 25.0, 25.0, Outcome::pass);
        night.preset = "night";
        night.limits = {23.0, 27.0};
        assessment.judgements.push_back(night);
        for (const auto& [preset, start_s] : {std::pair{"day", 10.0}, {"night", 20.0}}) {
            verification::Cycle cycle;
            cycle.preset = preset;
            cycle.start_s = start_s;
            cycle.judged = true;
            cycle.insufflation = phase(signal::PhaseKind::insufflation, start_s, start_s + 1.5);
            cycle.exsufflation = phase(signal::PhaseKind::exsufflation, start_s + 1.5, start_s + 3.0);
            assessment.cycles.push_back(cycle);
        }
    }
    PhaseLimits limits(double zero_cmH2O = 0.0) const
    {
        return {assessment, order, verification::HouseProfile::standard(), zero_cmH2O};
    }
};

TEST_F(ViewModels, EachPhaseOfEachPresetHasABandOfItsOwnWhereThatPhaseIs)
{
    const TwoPresets two;
    const auto limits = two.limits(0.25);
    EXPECT_EQ(limits.of("day", signal::PhaseKind::insufflation)->low_cmH2O, 38.25);
    EXPECT_EQ(limits.of("night", signal::PhaseKind::insufflation)->high_cmH2O, 27.25);
    EXPECT_FALSE(limits.of("day", signal::PhaseKind::exsufflation).has_value()) << "nothing is judged yet";
    EXPECT_FALSE(limits.of("dawn", signal::PhaseKind::insufflation).has_value());
    const auto bands = two.limits().seen(two.assessment);
    ASSERT_EQ(bands.size(), 2U);
    EXPECT_EQ(bands[0].from_s, 10.0);
    EXPECT_EQ(bands[0].to_s, 11.5);
    EXPECT_EQ(bands[0].band.high_cmH2O, 42.0);
    EXPECT_EQ(bands[1].from_s, 20.0);
    EXPECT_EQ(bands[1].band.high_cmH2O, 27.0) << "the night's own limits, not those of the first preset";
}

TEST_F(ViewModels, AOneSidedLimitIsOpenAtTheOtherSide)
{
    TwoPresets two;
    two.assessment.judgements.front().limits = {38.0, std::nullopt};
    const auto band = two.limits().of("day", signal::PhaseKind::insufflation);
    ASSERT_TRUE(band.has_value());
    EXPECT_EQ(band->low_cmH2O, 38.0);
    EXPECT_TRUE(std::isinf(band->high_cmH2O));
}

TEST_F(ViewModels, TheBandOfThePhaseThatGoesOnIsFollowedByThoseExpectedNext)
{
    TwoPresets two;
    auto& preset = two.order.presets.front();
    preset.insufflation.duration_s = 1.5;
    preset.exsufflation.duration_s = 1.5;
    auto low = pressure("exsufflation-pressure", -40.0, -40.0, Outcome::pass);
    low.limits = {-42.0, -38.0};
    two.assessment.judgements.push_back(low);
    const auto bands = two.limits().now_and_next(preset, signal::PhaseKind::insufflation, 100.0, 101.0, 104.0);
    using When = PhaseBand::When;
    ASSERT_GE(bands.size(), 3U);
    EXPECT_EQ(bands[0].when, When::now);
    EXPECT_EQ(bands[0].from_s, 100.0);
    EXPECT_EQ(bands[0].to_s, 101.0);
    EXPECT_EQ(bands[1].when, When::expected);
    EXPECT_EQ(bands[1].to_s, 101.5) << "the rest of the same phase";
    EXPECT_EQ(bands[2].from_s, 101.5);
    EXPECT_EQ(bands[2].to_s, 103.0);
    EXPECT_EQ(bands[2].band.low_cmH2O, -42.0);
    for (const auto& band : bands)
        EXPECT_LE(band.to_s, 104.0);
}

TEST_F(ViewModels, BandsOfTheOverlayStandWhereTheFirstJudgedCycleHasThem)
{
    const TwoPresets two;
    const auto bands = overlaid_bands(two.limits().seen(two.assessment), two.assessment, "night");
    ASSERT_EQ(bands.size(), 1U);
    EXPECT_EQ(bands[0].from_s, 0.0);
    EXPECT_EQ(bands[0].to_s, 1.5);
}

TEST_F(ViewModels, TheMedianOfLaidOverCyclesIsTheMiddleOne)
{
    trace::Trace trace;
    verification::Assessment assessment;
    for (int i = 0; i < 3; ++i) {
        verification::Cycle cycle;
        cycle.index = i + 1;
        cycle.preset = "day";
        cycle.judged = true;
        cycle.start_s = 10.0 * i;
        cycle.exsufflation.emplace();
        cycle.exsufflation->last_time_s = cycle.start_s + 2.0;
        assessment.cycles.push_back(cycle);
    }
    for (int i = 0; i < 300; ++i) {
        trace.time_s.push_back(0.1 * i);
        trace.pressure_cmH2O.push_back(i < 100 ? 1.0 : i < 200 ? 5.0 : 2.0);
    }
    const auto laid = overlay(trace, assessment, "day");
    ASSERT_EQ(laid.cycles.size(), 3U);
    ASSERT_FALSE(laid.median.empty());
    for (const auto& sample : laid.median) {
        if (sample.time_s > 0.0) {
            EXPECT_EQ(sample.pressure_cmH2O, 2.0) << sample.time_s;
        }
    }
}

TEST_F(ViewModels, OrdersFromFormsArePutThroughTheSameChecks)
{
    auto order = records::load_work_order(ZEROLINE_SOURCE_DIR "/fixtures/demonstration/order.json").meaning;
    EXPECT_EQ(order_from_text(text_of(order)).meaning.work_order, order.work_order);
    order.presets.front().insufflation.pressure_cmH2O = 400.0;
    EXPECT_ANY_THROW(static_cast<void>(order_from_text(text_of(order))));
}

/// RIFF WAVE, PCM: the sizes in the header (Microsoft and IBM, 1991; from memory).
TEST_F(ViewModels, ToneIsASoundFileOfTheLengthItsHeaderSays)
{
    for (const auto kind : {SoftSound::Kind::step, SoftSound::Kind::seen, SoftSound::Kind::attention}) {
        const auto wave = SoftSound::wave(kind);
        ASSERT_GT(wave.size(), 44);
        EXPECT_EQ(wave.left(4), "RIFF");
        EXPECT_EQ(wave.mid(8, 4), "WAVE");
        EXPECT_EQ(qFromLittleEndian<quint32>(wave.constData() + 4), static_cast<quint32>(wave.size() - 8));
        EXPECT_EQ(qFromLittleEndian<quint32>(wave.constData() + 40), static_cast<quint32>(wave.size() - 44));
        qint16 loudest = 0;
        for (qsizetype i = 44; i + 1 < wave.size(); i += 2)
            loudest = std::max(loudest, qFromLittleEndian<qint16>(wave.constData() + i));
        EXPECT_LT(loudest, 32767 / 5) << "soft";
        EXPECT_GT(loudest, 32767 / 50);
    }
}

} // namespace
} // namespace zeroline::session
