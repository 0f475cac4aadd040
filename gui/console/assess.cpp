#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "analysis/record/record.hpp"
#include "gui/console/attempts_text.hpp"
#include "gui/console/budget_text.hpp"
#include "gui/console/in_order.hpp"
#include "gui/console/result_text.hpp"
#include "gui/console/signing.hpp"
#include "gui/records/earlier.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/journal_check.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/record_folder.hpp"
#include "gui/records/sources.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using records::RecordFolder;
using trace::InputError;

namespace {

struct AssessOptions {
    std::vector<std::string> folders;
    std::string order, trace, instrument, run, out, reason;
    SigningOptions signing;
    DispositionOptions disposition;
    LackingOptions lacking;
    bool as_json = false;
    bool budget = false;
};

std::optional<fs::path> given(const std::string& text)
{
    return text.empty() ? std::nullopt : std::optional<fs::path>(text);
}

std::string on_one_line(const std::string& record_json)
{
    return records::parse_ordered_json(record_json).dump() + "\n";
}

session::ResultView view_of(const records::Assessed& assessed)
{
    return session::result_view(assessed.record_json, session::Reader::terminal);
}

std::string as_text(const records::Assessed& assessed, const AssessOptions& options)
{
    if (options.as_json) {
        return assessed.record_json;
    }
    auto text = result_text(view_of(assessed), columns_for_results());
    if (options.budget) {
        text += "\n" + budget_text(assessed.assessment);
    }
    return text;
}

struct Saved {
    ExitStatus status;
    fs::path folder; ///< where it stands now, sealed or not
};

/// Judges a record in the making, signs and seals it. Not sealed is incomplete at best.
Saved complete(const RecordFolder& folder, const AssessOptions& options, const Request& request, Ask ask,
               std::string* text)
{
    Terminal terminal;
    auto evidence = records::load_record_evidence(folder.part());
    (void)request.registering(); // says what is wrong with it before anything is changed
    if (put_lacking(folder, evidence, options.lacking, request.bench(), terminal, ask)) {
        evidence = records::load_record_evidence(folder.part());
    }
    auto assessed = records::assess(evidence);
    (void)put_disposition(folder, evidence, assessed, options.disposition, request.bench(), terminal, ask);
    const auto sealing =
        sign_and_seal(folder, evidence, assessed, options.signing, request.registering(), terminal, ask);
    auto status = status_of(view_of(assessed));
    if (!sealing.missing.empty()) {
        status = status_of(std::vector{status, ExitStatus::incomplete});
    }
    if (text != nullptr) {
        const auto sealed =
            sealing.missing.empty() ? records::assess(records::load_record_evidence(sealing.folder)) : assessed;
        *text = as_text(sealed, options);
    }
    return {status, sealing.folder};
}

Ask whom_to_ask() { return Terminal().can_ask() ? Ask::person : Ask::nobody; }

ExitStatus save(const AssessOptions& options, const records::EvidenceFiles& files,
                const records::LoadedEvidence& evidence, const Request& request)
{
    const auto folder = records::begin_from_files(options.out, files, evidence);
    std::string text;
    const auto saved = complete(folder, options, request, whom_to_ask(), &text);
    std::cerr << "record: " << saved.folder.string() << '\n';
    std::cout << text;
    return saved.status;
}

ExitStatus assess_trace(const AssessOptions& options, const Request& request)
{
    const records::EvidenceFiles files{.order = options.order,
                                       .trace = options.trace,
                                       .instrument = given(options.instrument),
                                       .run = given(options.run),
                                       .bench = request.bench()};
    const auto evidence = records::load_evidence(files);
    if (evidence.trace.size() == 0) {
        throw trace::InputError(options.trace, "no row has a reading", "rows with a time and a pressure");
    }
    if (!options.out.empty()) {
        return save(options, files, evidence, request);
    }
    const auto assessed = records::assess(evidence);
    std::cout << as_text(assessed, options);
    return status_of(view_of(assessed));
}

/// A record made again from the trace of an earlier one, with another instrument file: a new record that names it.
ExitStatus recalculate(const AssessOptions& options, const Request& request)
{
    const auto folder = records::begin_from_record(options.out, options.folders.front(), options.instrument,
                                                   options.reason, bench_key(request.bench()));
    std::string text;
    const auto saved = complete(folder, options, request, whom_to_ask(), &text);
    std::cerr << "record: " << saved.folder.string() << '\n';
    std::cout << text;
    return saved.status;
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
    try {
        auto one = records::parse_json(saved);
        auto other = records::parse_json(computed);
        one.erase("software");
        other.erase("software");
        return one == other;
    } catch (const std::exception&) {
        return false; // what was saved is no record
    }
}

/// What cannot be read is compared as it stands.
int method_of(const std::string& saved)
{
    try {
        return record::method_of(records::parse_json(saved));
    } catch (const InputError&) {
        return record::kMethod;
    }
}

records::KeptAttempt attempt_of(const fs::path& path, const records::LoadedEvidence& evidence,
                                const verification::Assessment& assessment, const Request& request)
{
    // What it follows stands in its files; the rest as it was judged now.
    auto kept = records::kept_attempt(path).value_or(records::KeptAttempt{});
    kept.folder = path;
    kept.work_order = evidence.order.meaning.work_order;
    kept.asset = evidence.order.meaning.unit.asset;
    kept.simulated = assessment.origin == verification::Origin::simulated;
    kept.attempt.number = assessment.attempt;
    kept.attempt.verdict = metrology::worse(assessment.verdict, assessment.unit_accuracy);
    const auto known = records::own_keys(records::key_file(request.bench()));
    records::weigh(kept, records::OpenFolder::at(path), &known);
    return kept;
}

std::string folder_line(const session::ResultView& view, const fs::path& folder, const std::string& remark)
{
    return trace::visible_on_one_line(one_line(view) + "  " + folder.string() + "  " + remark) + "\n";
}

Outcome assess_part(const fs::path& path, const AssessOptions& options, const Request& request, bool alone)
{
    std::string text;
    const auto part = RecordFolder::take_up(path);
    records::fill_from_sources(part, bench_key(request.bench()));
    for (const auto& said : settle_with_journal(part, records::known_beside(records::key_file(request.bench())))) {
        Terminal().say(part.part().string() + ": " + said);
    }
    const auto saved = complete(part, options, request, alone ? whom_to_ask() : Ask::nobody, &text);
    const auto evidence = records::load_record_evidence(saved.folder);
    const auto assessed = records::assess(evidence);
    const auto* remark = RecordFolder::is_part(saved.folder) ? "not sealed" : "completed";
    const auto line = folder_line(view_of(assessed), saved.folder, remark);
    const auto attempt = attempt_of(saved.folder, evidence, assessed.assessment, request);
    if (options.as_json) {
        return {saved.status, alone ? text : on_one_line(text), {}, attempt};
    }
    return {saved.status, alone || options.budget ? text + line : line, {}, attempt};
}

Outcome assess_record(const fs::path& path, const AssessOptions& options, const Request& request, bool alone)
{
    const auto evidence = records::load_record_evidence(path);
    const auto assessed = records::assess(evidence);
    const auto saved = records::OpenFolder::at(path).read(records::name::record);
    const int method = method_of(saved);
    const bool same = method < record::kMethod || same_record(saved, assessed.record_json);
    const auto remark =
        method < record::kMethod
            ? "measured by method " + std::to_string(method) + ", judged again by " + std::to_string(record::kMethod)
            : std::string(same ? "same as saved" : "differs from the record saved");
    const auto view = view_of(assessed);
    Outcome outcome{
        same ? status_of(view) : ExitStatus::fail, {}, {}, attempt_of(path, evidence, assessed.assessment, request)};
    const auto line = folder_line(view, path, remark);
    if (options.as_json) {
        outcome.text = alone ? assessed.record_json : on_one_line(assessed.record_json);
    } else {
        outcome.text = alone || options.budget ? as_text(assessed, options) + line : line;
    }
    return outcome;
}

Outcome try_record(const fs::path& path, const AssessOptions& options, const Request& request, bool alone)
{
    try {
        return RecordFolder::is_part(path) ? assess_part(path, options, request, alone)
                                           : assess_record(path, options, request, alone);
    } catch (const InputError& error) {
        return {ExitStatus::wrong_input, {}, error.what(), {}};
    } catch (const std::exception& error) {
        return {ExitStatus::wrong_input, {}, path.string() + ": " + error.what(), {}};
    }
}

std::vector<Outcome> assess_all(const AssessOptions& options, const Request& request)
{
    const auto count = options.folders.size();
    return work_in_order<Outcome>(
        count, [&](std::size_t i) { return try_record(options.folders[i], options, request, count == 1); },
        [](const Outcome& outcome) { print_outcome(outcome.text, outcome.trouble); });
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

ExitStatus assess_folders(const AssessOptions& options, const Request& request)
{
    const auto outcomes = assess_all(options, request);
    std::vector<ExitStatus> statuses;
    std::vector<records::KeptAttempt> attempts;
    for (const auto& outcome : outcomes) {
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

bool is_recalculation(const AssessOptions& options)
{
    return options.folders.size() == 1 && !options.instrument.empty() && !options.out.empty() &&
           options.order.empty() && options.trace.empty() && options.run.empty();
}

ExitStatus assess(const AssessOptions& options, const Request& request)
{
    const bool from_files = !options.order.empty() || !options.trace.empty() || !options.instrument.empty() ||
                            !options.run.empty() || !options.out.empty();
    if (is_recalculation(options)) {
        return recalculate(options, request);
    }
    if (!options.folders.empty()) {
        if (from_files) {
            throw InputError("assess", "record folders beside --order, --trace, --instrument, --run or --out",
                             "either record folders, or --order and --trace, or one record folder with --instrument, "
                             "--reason and --out");
        }
        return assess_folders(options, request);
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
    command->add_option("--reason", options->reason, "why a record is made again with another instrument file")
        ->type_name("TEXT");
    add_signing_options(*command, options->signing);
    add_disposition_options(*command, options->disposition);
    add_lacking_options(*command, options->lacking);
    command->add_flag("--json", options->as_json, "print the record itself");
    command->add_flag("--budget", options->budget, "print the uncertainty budgets");
    command->callback([&request, options] { request.act = [options, &request] { return assess(*options, request); }; });
}

} // namespace zeroline::console
