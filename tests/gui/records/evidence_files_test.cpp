#include "gui/records/evidence_files.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/records/bench_file.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/panel_file.hpp"
#include "gui/records/record_folder.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <unistd.h>

namespace {

using namespace zeroline;
using testing::HasSubstr;
using verification::Origin;
namespace fs = std::filesystem;

class EvidenceFilesTest : public testing::Test {
protected:
    EvidenceFilesTest()
    {
        write("order.json", R"({"schema": "zeroline/work-order/1", "work_order": "WO-1", "occasion": "periodic",
            "unit": {"asset": "RC-1", "serial": "K1", "model": "m"}, "prescription": {"reference": "RX", "presets": [
            {"name": "day", "insufflation": {"pressure": 40, "duration": 1}, "exsufflation": {"pressure": -40, "duration": 1},
             "pause": {"duration": 1}}]}, "decision_rule": "simple", "cycles": 3})");
        write("trace.csv", cycling_trace());
    }

    static std::string cycling_trace()
    {
        std::string text = "time_s,pressure_cmH2O\n";
        for (int i = 0; i < 3000; ++i) {
            const double level[] = {40.0, -40.0, 0.0};
            const double pressure = i < 600 ? 0.0 : level[(i / 100) % 3] + 0.05 * std::sin(0.7 * i);
            text += std::to_string(i / 100.0) + "," + std::to_string(pressure) + "\n";
        }
        return text;
    }
    void write(const std::string& name, const std::string& text) const { std::ofstream(here_ / name) << text; }
    void write_run(const std::string& origin) const
    {
        write("run.json", R"({"schema": "zeroline/run/1", "origin": ")" + origin +
                              R"(", "spans": [{"what": "automatic", "preset": "day", "from_s": 5, "to_s": 29}]})");
    }
    [[nodiscard]] records::EvidenceFiles files() const
    {
        return {here_ / "order.json", here_ / "trace.csv", std::nullopt, here_ / "run.json", std::nullopt};
    }

    TemporaryFolder here_;
};

TEST_F(EvidenceFilesTest, a_trace_from_elsewhere_is_never_captured_here)
{
    write_run("captured-here");
    EXPECT_EQ(records::load_evidence(files()).origin, Origin::imported);
    write_run("simulated");
    EXPECT_EQ(records::load_evidence(files()).origin, Origin::simulated);
    auto without_run = files();
    without_run.run.reset();
    EXPECT_EQ(records::load_evidence(without_run).origin, Origin::imported);
}

TEST_F(EvidenceFilesTest, saving_an_imported_trace_does_not_make_it_captured_here_later)
{
    write_run("captured-here");
    const auto evidence = records::load_evidence(files());
    const auto folder = records::RecordFolder::begin(here_ / "record");
    records::put_evidence(folder, evidence, here_ / "trace.csv");
    folder.finish();
    EXPECT_EQ(records::load_record_evidence(here_ / "record").origin, Origin::imported);
    EXPECT_EQ(records::read_file(here_ / "record" / "order.json"), records::read_file(here_ / "order.json"));
    EXPECT_EQ(records::read_file(here_ / "record" / "trace.csv"), records::read_file(here_ / "trace.csv"));
}

TEST_F(EvidenceFilesTest, the_same_evidence_gives_the_same_record_to_the_last_byte)
{
    write_run("imported");
    const auto first = records::assess(records::load_evidence(files()));
    const auto second = records::assess(records::load_evidence(files()));
    EXPECT_EQ(first.record_json, second.record_json);
    EXPECT_EQ(nlohmann::json::parse(first.record_json)["schema"], "zeroline/record/1");
    EXPECT_EQ(nlohmann::json::parse(first.record_json)["origin"], "imported");
}

TEST_F(EvidenceFilesTest, the_house_rules_in_force_travel_with_the_record)
{
    write_run("imported");
    write("bench.json", R"({"schema": "zeroline/bench/1", "organisation": "workshop", "key_file": "secret.key",
        "register": "somewhere", "house": {"approved_by": "the lead", "limits": {"zero_offset": 0.9}}})");
    auto with_bench = files();
    with_bench.bench = here_ / "bench.json";
    const auto evidence = records::load_evidence(with_bench);
    const auto folder = records::RecordFolder::begin(here_ / "record");
    records::put_evidence(folder, evidence, here_ / "trace.csv");
    folder.finish();
    const auto kept = records::read_file(here_ / "record" / "bench.json");
    EXPECT_THAT(kept, HasSubstr("the lead"));
    EXPECT_THAT(kept, Not(HasSubstr("secret.key"))) << "the desk's own matters stay at home";
    const auto again = records::load_record_evidence(here_ / "record");
    EXPECT_EQ(again.view().house.zero_offset_cmH2O, 0.9);
    EXPECT_EQ(records::assess(evidence).record_json, records::assess(again).record_json);
}

TEST_F(EvidenceFilesTest, trouble_in_any_file_names_that_file)
{
    write("run.json", R"({"schema": "zeroline/run/1", "spans": [{"what": "automatic", "preset": "day", "from_s": 5,
        "to_s": 99}]})");
    try {
        static_cast<void>(records::load_evidence(files()));
        FAIL() << "a span outside the trace";
    } catch (const trace::InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr((here_ / "run.json").string() + ": /spans/0"));
    }
}

TEST_F(EvidenceFilesTest, a_folder_without_order_or_trace_is_no_record)
{
    fs::remove(here_ / "order.json");
    EXPECT_THROW(static_cast<void>(records::load_record_evidence(here_.path())), trace::InputError);
    EXPECT_THROW(static_cast<void>(records::load_record_evidence(here_ / "nowhere")), trace::InputError);
}

TEST_F(EvidenceFilesTest, a_panel_tells_what_a_simulated_unit_shows_and_is_set_to)
{
    write("panel.json",
          R"({"schema": "zeroline/panel/1", "asset": "RC-1", "doing": "at rest", "preset": "day", "presets":
        {"day": {"set": {"insufflation": {"pressure": 35}, "trigger": "off"},
                 "displayed": {"insufflation": 36, "exsufflation": null, "shows": "live"}}}})");
    const auto order = records::load_work_order(here_ / "order.json").meaning;
    const auto panel = records::load_panel(here_ / "panel.json", order);
    EXPECT_EQ(panel.set.at("day").insufflation_pressure, 35.0);
    ASSERT_EQ(panel.displayed.size(), 1u);
    EXPECT_EQ(panel.displayed.front().insufflation_cmH2O, 36.0);
    EXPECT_FALSE(panel.displayed.front().exsufflation_cmH2O);
}

TEST_F(EvidenceFilesTest, the_usual_bench_file_is_the_one_of_the_users_configuration)
{
    ::setenv("XDG_CONFIG_HOME", here_.path().c_str(), 1);
    EXPECT_FALSE(records::usual_bench_file());
    fs::create_directory(here_ / "zeroline");
    write("zeroline/bench.json", "{}");
    EXPECT_EQ(records::usual_bench_file(), here_ / "zeroline" / "bench.json");
    ::unsetenv("XDG_CONFIG_HOME");
}

} // namespace
