#include "analysis/verification/cycles.hpp"

#include <gtest/gtest.h>

namespace zeroline::verification {
namespace {

using signal::Phase;
using signal::PhaseKind;

/// "PIEPIEP": the first and the last phase of a span are cut by its ends.
std::vector<Phase> phases(const std::string& letters)
{
    std::vector<Phase> all;
    double now = 0.0;
    for (const char letter : letters) {
        Phase phase;
        phase.kind = letter == 'I'   ? PhaseKind::insufflation
                     : letter == 'E' ? PhaseKind::exsufflation
                                     : PhaseKind::pause;
        phase.entering.emplace();
        phase.entering->onset.time_s = now;
        now += 1.5;
        phase.leaving.emplace();
        phase.leaving->onset.time_s = now;
        all.push_back(phase);
    }
    all.front().cut_begin = true;
    all.front().entering.reset();
    all.back().cut_end = true;
    all.back().leaving.reset();
    return all;
}

Preset preset(std::vector<Step> sequence = Preset{}.sequence, double pause_s = 1.5)
{
    Preset preset;
    preset.insufflation = {40.0, 1.5};
    preset.exsufflation = {-40.0, 1.5};
    preset.pause.duration_s = pause_s;
    preset.sequence = std::move(sequence);
    return preset;
}

/// "IEP" a pair with its pause, "I-P" a half that lacks its exsufflation, "I.P" one that lacks nothing, "!" no pause.
std::string told(const Pairing& pairing)
{
    std::string out = pairing.reversed ? "reversed " : "";
    for (const auto& pair : pairing.pairs) {
        const char* hole = pair.lacks ? "-" : ".";
        out += pair.insufflation ? "I" : hole;
        out += pair.exsufflation ? "E" : hole;
        out += pair.pause ? (pair.rest_follows ? "R" : "P") : pair.lacks_pause ? "!" : "";
        out += " ";
    }
    return out.substr(0, out.size() - (out.empty() ? 0 : 1));
}

std::string paired(const std::string& letters, const Preset& by = preset(), SpanKind what = SpanKind::automatic)
{
    return told(pair_cycles(phases(letters), by, what));
}

TEST(Cycles, are_an_insufflation_directly_followed_by_an_exsufflation)
{
    EXPECT_EQ(paired("PIEPIEP"), "IEP IEP");
    EXPECT_EQ(paired("PIEPIEPIE"), "IEP IEP IE");
    EXPECT_EQ(paired("P"), "");
}

TEST(Cycles, say_which_half_did_not_come)
{
    EXPECT_EQ(paired("PIEPIPIEP"), "IEP I-P IEP");
    EXPECT_EQ(paired("PIEPEPIEP"), "IEP -EP IEP");
    EXPECT_EQ(paired("PIEIEP"), "IE! IEP");
}

TEST(Cycles, are_cut_by_the_ends_of_the_span_and_nothing_is_missing_there)
{
    EXPECT_EQ(paired("EPIEP"), ".EP IEP");
    EXPECT_EQ(paired("PIEPI"), "IEP I.");
}

TEST(Cycles, parted_by_a_zero_level_where_none_is_prescribed_are_halves)
{
    EXPECT_EQ(paired("PIEPIPEPIEP"), "IEP I-P -EP IEP");
    EXPECT_EQ(paired("PIPEPIPEP", preset({Step::insufflation, Step::pause, Step::exsufflation, Step::pause})),
              "IEP IEP");
}

TEST(Cycles, of_a_unit_that_exsufflates_first_are_paired_that_way)
{
    EXPECT_EQ(paired("PEIPEIPEIP"), "reversed IEP IEP IEP");
    EXPECT_EQ(paired("PEIEIEIP", preset(Preset{}.sequence, 0.0)), "reversed IE IE IEP");
    EXPECT_EQ(paired("PEIPEIP", preset({Step::exsufflation, Step::insufflation, Step::pause})), "IEP IEP")
        << "prescribed so";
}

TEST(Cycles, with_one_missing_insufflation_are_not_taken_for_reversed)
{
    EXPECT_EQ(paired("PIEPEPEPIEP"), "IEP -EP -EP IEP");
    EXPECT_EQ(paired("PEPIEIEP", preset(Preset{}.sequence, 0.0)), "-EP IE IEP");
}

TEST(Cycles, keep_the_pause_after_a_closing_insufflation)
{
    const auto closing = preset({Step::insufflation, Step::exsufflation, Step::insufflation, Step::pause});
    EXPECT_EQ(paired("PIEIPIEIP", closing), "IEP I. IEP I.");
}

TEST(Cycles, may_have_several_insufflations)
{
    const auto stacked = preset({Step::insufflation, Step::pause, Step::insufflation, Step::exsufflation, Step::pause});
    EXPECT_EQ(paired("PIPIEPIPIEP", stacked), "I.P IEP I.P IEP");
    EXPECT_EQ(paired("PIPIPIEP", stacked), "I.P I-P IEP") << "one more than the sequence has";
}

TEST(Cycles, of_a_hand_are_never_missing_and_never_reversed)
{
    EXPECT_EQ(paired("PEIPIPEP", preset(), SpanKind::manual), ".E I.P I.P .EP");
}

TEST(Cycles, have_a_rest_after_exactly_the_breaths_of_their_series)
{
    auto series = preset();
    series.series = Series{2, 3, 20.0};
    EXPECT_EQ(paired("PIEPIEPIEPIEPIEP", series), "IEP IER IEP IER IEP");
}

TEST(Cycles, of_a_span_that_begins_within_a_series_have_the_first_rest_where_one_that_long_comes)
{
    auto series = preset();
    series.series = Series{3, 3, 20.0};
    auto seen = phases("IEPIEPIEPIEPIEPIEP");
    for (std::size_t i = 5; i < seen.size(); ++i) {
        (i == 5 ? seen[i].leaving : seen[i].entering)->onset.time_s += 18.5;
        if (i > 5 && seen[i].leaving) {
            seen[i].leaving->onset.time_s += 18.5;
        }
    }
    EXPECT_EQ(told(pair_cycles(seen, series, SpanKind::automatic)), "IEP IER IEP IEP IER IEP");
    EXPECT_EQ(told(pair_cycles(phases("IEPIEPIEPIEPIEPIEP"), series, SpanKind::automatic)), "IEP IEP IEP IER IEP IEP")
        << "none that long: counted from the first breath seen whole";
}

TEST(Cycles, that_a_hand_stopped_at_the_end_lack_nothing)
{
    auto stopped = phases("PIEPIP");
    stopped[4].leaving->onset.time_s = stopped[4].entering->onset.time_s + 0.6;
    EXPECT_EQ(told(pair_cycles(stopped, preset(), SpanKind::automatic)), "IEP I.P");
    EXPECT_EQ(paired("PIEPIP"), "IEP I-P") << "it lasted as long as it is set to, and nothing came after it";
}

} // namespace
} // namespace zeroline::verification
