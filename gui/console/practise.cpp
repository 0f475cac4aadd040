#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/guided_run.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/result_text.hpp"
#include "gui/console/templates.hpp"
#include "gui/console/typed_values.hpp"
#include "gui/records/json_file.hpp"
#include "gui/session/practice.hpp"
#include "gui/session/run_files.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <iostream>
#include <memory>

namespace zeroline::console {

using records::RecordFolder;
using session::PracticeTask;
using session::Reader;

namespace {

struct PracticeOptions {
    std::string order, instrument, procedure, seed;
};

/// Everything stands in the bench's own folder for passing files, and the journal is signed by a key that is thrown
/// away.
struct PracticeRun {
    PracticeTask task;
    std::shared_ptr<session::SimulatedBench> bench;
    VerifyOptions options;
    RunInputs inputs;
};

records::Read<verification::WorkOrder> order_of(const PracticeOptions& options)
{
    return session::practice_order(
        options.order.empty() ? verification::parse_work_order(records::parse_json(template_text(Template::order)))
                              : records::load_work_order(options.order).meaning);
}

PracticeTask task_of(const PracticeOptions& options, const verification::WorkOrder& order)
{
    constexpr double largest = 9007199254740992.0; // every whole number up to it is a double
    return options.seed.empty()
               ? session::draw_task(order)
               : session::draw_task(order,
                                    static_cast<std::uint64_t>(number_typed(options.seed, "--seed", 0.0, largest)));
}

PracticeRun made_ready(const PracticeOptions& options, bool can_ask)
{
    const auto order = order_of(options);
    const auto instrument = options.instrument.empty()
                                ? session::instrument_from_text(std::string(template_text(Template::instrument)))
                                : records::load_instrument(options.instrument);
    PracticeRun made;
    made.task = task_of(options, order.meaning);
    made.bench = std::make_shared<session::SimulatedBench>(order.meaning, instrument.meaning, made.task.faults(),
                                                           made.task.seed);
    const auto place = made.bench->passing_folder().parent_path();
    records::write_file_whole(place / "order.json", order.text);
    records::write_file_whole(place / "instrument.json", instrument.text);
    made.options.order = place / "order.json";
    made.options.instrument = place / "instrument.json";
    made.options.procedure = options.procedure;
    made.options.port = made.bench->port();
    made.options.panel = made.bench->panel_file();
    made.options.out = made.bench->passing_folder();
    made.options.run_operator = session::kPracticeMark;
    made.options.place = session::kPracticeMark;
    made.inputs = read_inputs(made.options, std::nullopt, can_ask);
    made.inputs.key = records::SigningKey::make();
    made.inputs.practice = made.bench;
    return made;
}

/// Asks until one of the answers is typed; none: nobody is there any more.
std::optional<std::string> asked_answer(Terminal& terminal)
{
    const auto answers = session::practice_answers(Reader::terminal);
    for (std::size_t i = 0; i < answers.size(); ++i) {
        terminal.say("  " + std::to_string(i) + "  " + (answers[i].code.empty() ? "" : answers[i].code + ": ") +
                     answers[i].does.toStdString());
    }
    while (const auto line = terminal.ask("What was it? [a number, or the word before the colon]", [] {})) {
        const auto is_meant = [&](const auto& answer) {
            const auto number = std::to_string(&answer - answers.data());
            return *line == number || (!answer.code.empty() && *line == answer.code);
        };
        const auto meant = std::find_if(answers.begin(), answers.end(), is_meant);
        if (meant != answers.end()) {
            return meant->code;
        }
        terminal.say("'" + *line + "' is none of them: a number from 0 to " + std::to_string(answers.size() - 1) + ".");
    }
    return std::nullopt;
}

ExitStatus reviewed(const RecordFolder& folder, const PracticeTask& task, Terminal& terminal)
{
    const auto assessed = records::assess(records::load_record_evidence(folder.part()));
    const auto answer = asked_answer(terminal);
    if (!answer) {
        terminal.say("No answer: nothing is told, and nothing is kept.");
        return ExitStatus::incomplete;
    }
    auto result = session::result_view(assessed.record_json, Reader::terminal);
    session::mark_as_practice(result, session::practice_told(task, *answer, result, Reader::terminal),
                              Reader::terminal);
    std::cout << result_text(result, columns_for_results());
    std::cout << "Practice: nothing is kept." << std::endl;
    return session::judge_guess(task, *answer) == session::Guess::wrong ? ExitStatus::fail : ExitStatus::pass;
}

ExitStatus practise(const PracticeOptions& options)
{
    Terminal terminal;
    const auto made = made_ready(options, terminal.can_ask());
    const auto folder = RecordFolder::begin(made.options.out);
    folder.put(records::name::order, made.inputs.order.text);
    folder.put(records::name::instrument, made.inputs.instrument.text);
    if (made.inputs.procedure) {
        folder.put(records::name::procedure, made.inputs.procedure->text);
    }
    GuidedRun guided(made.options, made.inputs, folder, terminal);
    const auto ending = guided.run();
    if (ending == session::Ending::interrupted || guided.readings() == 0) {
        terminal.say("Practice broken off: nothing is kept.");
        return ExitStatus::incomplete;
    }
    return reviewed(folder, made.task, terminal);
}

} // namespace

void add_practise(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand(
        "practise", "a run on the virtual bench with a fault that nobody tells; say what it was, then see; no record");
    const auto options = std::make_shared<PracticeOptions>();
    command->add_option("--order", options->order, "work order the unit is set up for")->type_name("FILE");
    command->add_option("--instrument", options->instrument, "instrument that is simulated")->type_name("FILE");
    command->add_option("--procedure", options->procedure, "what is done, as for 'verify'")->type_name("NAME|FILE");
    command->add_option("--seed", options->seed, "the same seed, the same task; else nobody knows")->type_name("N");
    command->footer("Exit status: 0 right, or one that looks alike; 1 something else; 3 broken off.");
    command->callback([&request, options] { request.act = [options] { return practise(*options); }; });
}

} // namespace zeroline::console
