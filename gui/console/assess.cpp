#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/attempts_text.hpp"
#include "gui/console/budget_text.hpp"
#include "gui/console/result_text.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <atomic>
#include <iostream>
#include <map>
#include <memory>
#include <thread>

namespace zeroline::console {

namespace fs = std::filesystem;
using records::RecordFolder;
using trace::InputError;

namespace {

struct AssessOptions {
    std::vector<std::string> folders;
    std::string order, trace, instrument, run, out;
    bool as_json = false;
    bool budget = false;
};

std::optional<fs::path> given(const std::string& text)
{
    return text.empty() ? std::nullopt : std::optional<fs::path>(text);
}

std::string on_one_line(const std::string& record_json)
{
    return nlohmann::ordered_json::parse(record_json).dump() + "\n";
}

std::string as_text(const records::LoadedEvidence& evidence, const records::Assessed& assessed,
                    const AssessOptions& options)
{
    if (options.as_json) {
        return assessed.record_json;
    }
    auto text = result_text(evidence.order.meaning, assessed.assessment);
    if (options.budget) {
        text += "\n" + budget_text(assessed.assessment);
    }
    return text;
}

void save(const AssessOptions& options, const records::LoadedEvidence& evidence, const records::Assessed& assessed)
{
    const auto folder = RecordFolder::begin(options.out);
    try {
        records::put_evidence(folder, evidence, options.trace);
        folder.put(records::name::record, assessed.record_json);
        folder.finish();
    } catch (...) {
        folder.discard();
        throw;
    }
    std::cerr << "record: " << folder.folder().string() << '\n';
}

ExitStatus assess_trace(const AssessOptions& options, const Request& request)
{
    const auto evidence = records::load_evidence({.order = options.order,
                                                  .trace = options.trace,
                                                  .instrument = given(options.instrument),
                                                  .run = given(options.run),
                                                  .bench = request.bench()});
    const auto assessed = records::assess(evidence);
    if (!options.out.empty()) {
        save(options, evidence, assessed);
    }
    std::cout << as_text(evidence, assessed, options);
    return status_of(assessed.assessment);
}

/// What became of one folder: its line, or its whole text where it is the only one.
struct Outcome {
    ExitStatus status = ExitStatus::wrong_input;
    std::string text;
    std::string trouble;
    std::optional<records::KeptAttempt> attempt;
};

bool same_record(const std::string& saved, const std::string& computed)
{
    if (saved == computed) {
        return true;
    }
    // Another build may word or round differently in its own name only.
    auto one = nlohmann::json::parse(saved, nullptr, false);
    auto other = nlohmann::json::parse(computed);
    if (!one.is_object()) {
        return false;
    }
    one.erase("software");
    other.erase("software");
    return one == other;
}

std::string complete(const fs::path& part, const std::string& record_json)
{
    const auto folder = RecordFolder::take_up(part);
    folder.put(records::name::record, record_json);
    folder.finish();
    return folder.folder().string();
}

records::KeptAttempt attempt_of(const fs::path& path, const records::LoadedEvidence& evidence,
                                const verification::Assessment& assessment)
{
    const auto& order = evidence.order.meaning;
    const bool simulated = assessment.origin == verification::Origin::simulated;
    const auto verdict = metrology::worse(assessment.verdict, assessment.unit_accuracy);
    const auto replaces = evidence.run ? evidence.run->meaning.replaces : std::nullopt;
    return {path, order.work_order, order.unit.asset, simulated, {assessment.attempt, verdict, replaces}};
}

Outcome assess_record(const fs::path& path, const AssessOptions& options, bool alone)
{
    const auto evidence = records::load_record_evidence(path);
    const auto assessed = records::assess(evidence);
    Outcome outcome{status_of(assessed.assessment), {}, {}, attempt_of(path, evidence, assessed.assessment)};
    std::string became = path.string();
    std::string remark;
    if (RecordFolder::is_part(path)) {
        became = complete(path, assessed.record_json);
        remark = "completed";
    } else {
        const auto saved = records::read_file(path / records::name::record);
        const bool same = same_record(saved, assessed.record_json);
        remark = same ? "same as saved" : "differs from the record saved";
        outcome.status = same ? outcome.status : ExitStatus::fail;
    }
    const auto line = one_line(evidence.order.meaning, assessed.assessment) + "  " + became + "  " + remark + "\n";
    if (options.as_json) {
        outcome.text = alone ? assessed.record_json : on_one_line(assessed.record_json);
    } else {
        outcome.text = alone || options.budget ? as_text(evidence, assessed, options) + line : line;
    }
    return outcome;
}

Outcome try_record(const fs::path& path, const AssessOptions& options, bool alone)
{
    try {
        return assess_record(path, options, alone);
    } catch (const InputError& error) {
        return {ExitStatus::wrong_input, {}, error.what(), {}};
    } catch (const std::exception& error) {
        return {ExitStatus::wrong_input, {}, path.string() + ": " + error.what(), {}};
    }
}

std::vector<Outcome> assess_all(const AssessOptions& options)
{
    std::vector<Outcome> outcomes(options.folders.size());
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
        for (std::size_t i = next++; i < outcomes.size(); i = next++) {
            outcomes[i] = try_record(options.folders[i], options, outcomes.size() == 1);
        }
    };
    const std::size_t cores = std::max(1u, std::thread::hardware_concurrency());
    std::vector<std::thread> threads;
    for (std::size_t i = 1; i < std::min(cores, outcomes.size()); ++i) {
        threads.emplace_back(work);
    }
    work();
    for (auto& thread : threads) {
        thread.join();
    }
    return outcomes;
}

std::string totals(const std::vector<Outcome>& outcomes)
{
    const auto count = [&](ExitStatus status) {
        return std::to_string(std::count_if(outcomes.begin(), outcomes.end(),
                                            [&](const Outcome& outcome) { return outcome.status == status; }));
    };
    return std::to_string(outcomes.size()) + " records: " + count(ExitStatus::pass) + " pass, " +
           count(ExitStatus::conditional_pass) + " conditional pass, " + count(ExitStatus::fail) +
           " fail or different, " + count(ExitStatus::incomplete) + " incomplete, " + count(ExitStatus::wrong_input) +
           " unreadable\n";
}

ExitStatus assess_folders(const AssessOptions& options)
{
    const auto outcomes = assess_all(options);
    std::vector<ExitStatus> statuses;
    std::vector<records::KeptAttempt> attempts;
    for (const auto& outcome : outcomes) {
        std::cout << outcome.text;
        if (!outcome.trouble.empty()) {
            std::cout.flush();
            std::cerr << "zeroline: " << outcome.trouble << '\n';
        }
        statuses.push_back(outcome.status);
        if (outcome.attempt) {
            attempts.push_back(*outcome.attempt);
        }
    }
    if (outcomes.size() > 1 && !options.as_json) {
        std::cout << totals(outcomes) << all_attempts_text(attempts);
    }
    return status_of(statuses);
}

ExitStatus assess(const AssessOptions& options, const Request& request)
{
    const bool from_files = !options.order.empty() || !options.trace.empty() || !options.instrument.empty() ||
                            !options.run.empty() || !options.out.empty();
    if (!options.folders.empty()) {
        if (from_files) {
            throw InputError("assess", "record folders beside --order, --trace, --instrument, --run or --out",
                             "either record folders, or --order and --trace");
        }
        return assess_folders(options);
    }
    if (options.order.empty() || options.trace.empty()) {
        throw InputError("assess", options.order.empty() ? "no --order" : "no --trace",
                         "--order and --trace, or record folders");
    }
    return assess_trace(options, request);
}

} // namespace

void add_assess(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("assess", "judges a saved trace, or record folders again");
    const auto options = std::make_shared<AssessOptions>();
    command->add_option("FOLDER", options->folders, "record folders, or unfinished ones (FOLDER.part)");
    command->add_option("--order", options->order, "work order")->type_name("FILE");
    command->add_option("--trace", options->trace, "trace")->type_name("FILE.csv");
    command->add_option("--instrument", options->instrument, "instrument file")->type_name("FILE");
    command->add_option("--run", options->run, "run log")->type_name("FILE");
    command->add_option("--out", options->out, "record folder to make")->type_name("FOLDER");
    command->add_flag("--json", options->as_json, "print the record itself");
    command->add_flag("--budget", options->budget, "print the uncertainty budgets");
    command->callback([&request, options] { request.act = [options, &request] { return assess(*options, request); }; });
}

} // namespace zeroline::console
