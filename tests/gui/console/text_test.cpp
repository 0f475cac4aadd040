// What is printed: tables, results, templates, times.

#include "gui/console/budget_text.hpp"
#include "gui/console/local_time.hpp"
#include "gui/console/result_text.hpp"
#include "gui/console/templates.hpp"
#include "gui/console/text_table.hpp"

#include "acquisition/trace/instrument.hpp"
#include "analysis/record/record.hpp"
#include "analysis/verification/bench_file.hpp"
#include "gui/records/json_file.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>
#include <ctime>
#include <sstream>

namespace {

using namespace zeroline;
using namespace zeroline::console;
using metrology::Outcome;
using testing::HasSubstr;
using testing::Not;

verification::WorkOrder an_order()
{
    verification::WorkOrder order;
    order.work_order = "WO-1";
    order.unit.asset = "RC-1";
    order.contact = "the desk";
    order.presets.emplace_back();
    order.presets.back().name = "day";
    return order;
}

session::ResultView seen(const verification::Assessment& assessment)
{
    const auto order = an_order();
    verification::Evidence evidence;
    evidence.order = &order;
    const nlohmann::json tree = record::to_json(evidence, assessment, {});
    return session::result_view(session::RecordTree(tree), session::Reader::terminal);
}

verification::Judgement a_judgement()
{
    verification::Judgement judgement;
    judgement.measurand = "exsufflation-pressure";
    judgement.preset = "day";
    judgement.against = "prescribed";
    judgement.unit = "cmH2O";
    judgement.prescribed = -40.0;
    judgement.mean = -33.2;
    judgement.worst = -33.12;
    judgement.expanded_uncertainty = 0.244;
    judgement.limits = {-42.0, -38.0};
    judgement.basis = "service manual, section 5";
    judgement.n = 5;
    judgement.verdict = Outcome::fail;
    return judgement;
}

TEST(TextTable, is_as_wide_as_its_longest_cells)
{
    TextTable table({"name", "value", "verdict"});
    table.add({"a", "10", "pass"});
    table.add({"longer", "7", "fail"});
    EXPECT_EQ(table.text(), "name    value  verdict\n"
                            "a          10  pass\n"
                            "longer      7  fail\n");
}

TEST(TextTable, counts_letters_and_not_bytes)
{
    TextTable table({"n\xC3\xA4me", "x"});
    table.add({"abcd", "y"});
    EXPECT_EQ(table.text(), "n\xC3\xA4me  x\nabcd  y\n");
}

TEST(TextTable, leaves_out_what_is_needed_least_until_it_fits)
{
    const auto a_table = [] {
        TextTable table({"name", "value", "limits", "verdict"});
        table.add({"pressure", "40.00", "38.00 to 42.00", "pass"});
        return table;
    };
    auto wide = a_table();
    EXPECT_THAT(wide.narrow_to(40, {"limits", "value"}), testing::IsEmpty()) << "8+2+5+2+14+2+7 letters have room";
    EXPECT_EQ(wide.text(), a_table().text());
    auto narrow = a_table();
    EXPECT_THAT(narrow.narrow_to(39, {"no such", "limits", "value"}), testing::ElementsAre("limits"));
    EXPECT_EQ(narrow.text(), "name      value  verdict\npressure  40.00  pass\n");
    auto narrowest = a_table();
    EXPECT_THAT(narrowest.narrow_to(1, {"limits", "value"}), testing::ElementsAre("limits", "value"));
    EXPECT_EQ(narrowest.text(), "name      verdict\npressure  pass\n");
}

TEST(ResultText, gives_way_at_80_columns_and_says_what_has_no_room)
{
    verification::Assessment assessment;
    auto judgement = a_judgement();
    judgement.measurand = "exsufflation-peak";
    judgement.set = -40.0;
    judgement.displayed = -40.0;
    assessment.judgements = {judgement, a_judgement()};
    const auto whole = result_text(seen(assessment));
    const auto narrow = result_text(seen(assessment), 80);
    EXPECT_THAT(whole, Not(HasSubstr("no room for")));
    EXPECT_THAT(whole, HasSubstr("displayed"));
    EXPECT_THAT(narrow, HasSubstr("no room for: set"));
    EXPECT_THAT(narrow, HasSubstr("-33.12")) << "what was measured stays";
    const auto table = narrow.substr(narrow.find("preset 'day'"), narrow.find("no room") - narrow.find("preset 'day'"));
    std::istringstream lines(table);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 80u) << line;
    }
    EXPECT_EQ(result_text(seen(assessment), 300), whole);
}

TEST(ResultText, says_first_what_was_not_tested_then_numbers_then_why)
{
    verification::Assessment assessment;
    assessment.verdict = Outcome::fail;
    assessment.not_tested = {"flow", "battery-duration"};
    assessment.judgements.push_back(a_judgement());
    assessment.reasons.push_back({"outside-limits", "exsufflation-pressure (day): reached -33.1 of -40."});
    const auto text = result_text(seen(assessment));
    EXPECT_LT(text.find("Not tested: flow, battery duration."), text.find("exsufflation pressure"));
    EXPECT_LT(text.find("exsufflation pressure"), text.find("FAIL"));
    EXPECT_LT(text.find("FAIL"), text.find("Exsufflation pressure (day): reached"));
    EXPECT_THAT(text, HasSubstr("-42.00 to -38.00"));
    EXPECT_THAT(text, HasSubstr("-33.12"));
    EXPECT_THAT(text, HasSubstr("Limits from: service manual, section 5"));
}

TEST(ResultText, a_pass_promises_no_more_than_was_seen)
{
    verification::Assessment assessment;
    assessment.verdict = assessment.unit_accuracy = Outcome::pass;
    const auto text = result_text(seen(assessment));
    EXPECT_THAT(text, HasSubstr("agreed with the prescription within the stated limits, on this occasion"));
    for (const auto* word : {"safe", "certified", "calibrated"}) {
        EXPECT_THAT(text, Not(HasSubstr(word)));
    }
}

TEST(ResultText, a_critical_result_names_whom_to_call)
{
    verification::Assessment assessment;
    assessment.verdict = Outcome::fail;
    assessment.critical = true;
    const auto text = result_text(seen(assessment));
    EXPECT_THAT(text, HasSubstr("Keep this unit out of use"));
    EXPECT_THAT(text, HasSubstr("the desk"));
}

verification::Finding a_critical_finding(const std::string& code, const std::string& text)
{
    verification::Finding finding;
    finding.code = code;
    finding.severity = verification::Severity::critical;
    finding.text = text;
    return finding;
}

TEST(ResultText, a_critical_result_without_a_value_blames_no_limit_and_comes_first)
{
    verification::Assessment assessment;
    assessment.verdict = assessment.unit_accuracy = Outcome::fail;
    assessment.critical = true;
    assessment.findings.push_back(a_critical_finding("reversed-order", "Exsufflation came first."));
    const auto text = result_text(seen(assessment));
    EXPECT_THAT(text, HasSubstr("CRITICAL: Keep this unit out of use. No value was judged; what is critical counts as "
                                "a fail. This run is kept.\nExsufflation came first.\n"));
    EXPECT_THAT(text, Not(HasSubstr("utside limits")));
    EXPECT_THAT(text, Not(HasSubstr("Check zero")));
    EXPECT_THAT(text, HasSubstr("no value was measured"));
}

TEST(ResultText, a_breath_does_not_blame_the_unit_and_is_told_once)
{
    verification::Assessment assessment;
    assessment.critical = true;
    assessment.findings.push_back(a_critical_finding("breathing", "It swings like a breath."));
    assessment.reasons.push_back({"possible-breathing", "It swings like a breath."});
    const auto text = result_text(seen(assessment));
    EXPECT_THAT(text, HasSubstr("run again with nobody connected"));
    EXPECT_THAT(text, Not(HasSubstr("out of use")));
    EXPECT_EQ(text.find("It swings"), text.rfind("It swings"));
}

TEST(ResultText, a_simulated_result_says_so_on_its_first_line_and_in_one_line)
{
    verification::Assessment assessment;
    assessment.origin = verification::Origin::simulated;
    EXPECT_EQ(result_text(seen(assessment)).find("SIMULATED"), 0u);
    EXPECT_THAT(one_line(seen(assessment)), HasSubstr("SIMULATED"));
}

TEST(ResultText, an_uncertainty_has_two_figures_that_count)
{
    verification::Assessment assessment;
    auto judgement = a_judgement();
    judgement.unit = "s";
    judgement.expanded_uncertainty = 0.00041;
    assessment.judgements.push_back(judgement);
    EXPECT_THAT(result_text(seen(assessment)), HasSubstr("0.00041"));
}

TEST(BudgetText, has_every_column_and_the_totals)
{
    verification::Assessment assessment;
    auto judgement = a_judgement();
    judgement.worst_cycle = 4;
    judgement.budget = {{"calibration", 0.3},
                        {"resolution", 0.4 * std::sqrt(3.0), metrology::Distribution::rectangular}};
    assessment.judgements.push_back(judgement);
    const auto text = budget_text(assessment);
    EXPECT_THAT(text, HasSubstr("exsufflation-pressure, preset day, against prescribed, cycle 4\n"));
    EXPECT_THAT(text, HasSubstr("  contribution   value   unit  distribution  divisor       u  sensitivity  |c| u, "
                                "cmH2O    share  dof"));
    EXPECT_THAT(text, HasSubstr("  resolution    0.6928  cmH2O   rectangular    1.732  0.4000            1        "
                                "0.4000   64.0 %  inf\n"));
    EXPECT_THAT(text, HasSubstr("0.5000  100.0 %  inf"));
    EXPECT_THAT(text, HasSubstr("result -33.1200 cmH2O, U = "));
    EXPECT_THAT(text, HasSubstr("(of the sum: one or two rectangles are larger than all the rest)"));
}

TEST(BudgetText, says_in_which_unit_an_input_is)
{
    verification::Assessment assessment;
    auto judgement = a_judgement();
    judgement.unit = "s";
    judgement.budget = {{"clock rate", 1e-4, metrology::Distribution::rectangular, 9.0, 1.5, "s/s"}};
    assessment.judgements.push_back(judgement);
    const auto text = budget_text(assessment);
    EXPECT_THAT(text, HasSubstr("0.000100   s/s"));
    EXPECT_THAT(text, HasSubstr("1.5  0.000087  100.0 %  9.0\n"));
    EXPECT_THAT(text, HasSubstr("Student t, 9.0 degrees of freedom"));
}

TEST(ResultText, what_was_not_measured_is_no_number)
{
    verification::Assessment assessment;
    auto judgement = a_judgement();
    judgement.worst.reset();
    judgement.mean.reset();
    judgement.expanded_uncertainty.reset();
    assessment.judgements.push_back(judgement);
    EXPECT_THAT(result_text(seen(assessment)), Not(HasSubstr("0.00  ")));
}

TEST(Templates, read_as_they_stand)
{
    const auto tree = [](Template which) { return records::parse_json(template_text(which)); };
    EXPECT_EQ(verification::parse_work_order(tree(Template::order)).presets.size(), 1u);
    EXPECT_EQ(trace::parse_instrument(tree(Template::instrument)).nominal_hz, 250.0);
    EXPECT_EQ(verification::parse_bench(tree(Template::bench)).organisation, "Example Respiratory Services (invented)");
}

TEST(Templates, the_bench_template_holds_the_built_in_house_figures)
{
    const auto bench = verification::parse_bench(records::parse_json(template_text(Template::bench)));
    const auto standard = verification::HouseProfile::standard();
    EXPECT_EQ(bench.house.tolerances.pressure->absolute, standard.tolerances.pressure->absolute);
    EXPECT_EQ(bench.house.tolerances.pressure->at_most, standard.tolerances.pressure->at_most);
    EXPECT_EQ(bench.house.tolerances.duration->relative, standard.tolerances.duration->relative);
    EXPECT_EQ(bench.house.tolerances.residual->absolute, standard.tolerances.residual->absolute);
    EXPECT_EQ(bench.house.zero_drift_cmH2O, standard.zero_drift_cmH2O);
    EXPECT_EQ(bench.duty.cycling_s, verification::Duty{}.cycling_s);
}

TEST(LocalTime, is_written_after_rfc_3339_with_its_offset)
{
    ::setenv("TZ", "TEST-01:30", 1); // POSIX: east of Greenwich is negative
    ::tzset();
    EXPECT_EQ(local_rfc3339(std::chrono::system_clock::from_time_t(0)), "1970-01-01T01:30:00+01:30");
    ::setenv("TZ", "TEST08", 1);
    ::tzset();
    EXPECT_EQ(local_rfc3339(std::chrono::system_clock::from_time_t(0)), "1969-12-31T16:00:00-08:00");
    ::unsetenv("TZ");
    ::tzset();
}

} // namespace
