#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/asked_needs.hpp"
#include "gui/console/attempts_text.hpp"
#include "gui/console/guided_run.hpp"
#include "gui/console/result_text.hpp"
#include "gui/console/signing.hpp"
#include "gui/records/earlier.hpp"
#include "gui/register/delivery.hpp"
#include "gui/session/awake.hpp"
#include "gui/session/run_steps.hpp"

#include <CLI/CLI.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

using records::RecordFolder;
using session::Ending;

namespace {

void put_inputs(const RecordFolder& folder, const RunInputs& inputs, const VerifyOptions& options)
{
    folder.put(records::name::order, inputs.order.text);
    folder.put(records::name::instrument, inputs.instrument.text);
    if (inputs.bench) {
        folder.put(records::name::bench, inputs.bench->text);
    }
    if (inputs.procedure) {
        folder.put(records::name::procedure, inputs.procedure->text);
    }
    records::put_followed(folder, inputs.earlier, options.as_found(), inputs.replaces);
}

/// A run that was seen to its end, or stopped because it had seen enough, is a record; any other stays unfinished.
bool makes_a_record(Ending ending) { return ending == Ending::completed || ending == Ending::critical; }

/// Where the record of a run went; empty where it stays unfinished.
std::filesystem::path saved_record(const RecordFolder& folder, const VerifyOptions& options,
                                   const unit_register::Bench& bench, Terminal& terminal)
{
    const auto ask = options.yes ? Ask::simulated : Ask::person;
    auto evidence = records::load_record_evidence(folder.part());
    if (put_lacking(folder, evidence, {}, bench.file, terminal, ask)) {
        evidence = records::load_record_evidence(folder.part());
    }
    auto assessed = records::assess(evidence);
    if (put_disposition(folder, evidence, assessed, options.disposition, bench.file, terminal, ask)) {
        for (const auto& line : session::result_view(assessed.record_json, session::Reader::terminal).after) {
            std::cout << line.toStdString() << std::endl;
        }
    }
    const auto sealing = sign_and_seal(folder, evidence, assessed, options.signing, bench, terminal, ask);
    return sealing.missing.empty() ? sealing.folder : std::filesystem::path();
}

std::string where_it_is_kept(const RecordFolder& folder)
{
    return "Unfinished, kept in: " + folder.part().string() + " ('zeroline assess " + folder.part().string() +
           "' makes a record of it)";
}

ExitStatus conclude(const RecordFolder& folder, Ending ending, const VerifyOptions& options,
                    const unit_register::Bench& bench, Terminal& terminal)
{
    const auto evidence = records::load_record_evidence(folder.part());
    const auto assessed = records::assess(evidence);
    const auto result = session::result_view(assessed.record_json, session::Reader::terminal);
    std::cout << result_text(result, columns_for_results()) << std::flush;
    const bool whole = makes_a_record(ending) && !saved_record(folder, options, bench, terminal).empty();
    const auto known = records::own_keys(records::key_file(bench.file));
    if (const auto kept = records::kept_attempt(whole ? folder.folder() : folder.part())) {
        const auto attempts = attempts_text(records::attempts_beside(*kept, &known));
        std::cout << attempts << (attempts.empty() ? "" : "\n");
    }
    std::cout << (whole ? "Signed and sealed.\nRecord: " + folder.folder().string() : where_it_is_kept(folder))
              << std::endl;
    if (!makes_a_record(ending)) {
        terminal.say("The run is incomplete.");
        return ExitStatus::incomplete;
    }
    const auto status = status_of(result);
    return whole ? status : status_of(std::vector{status, ExitStatus::incomplete});
}

ExitStatus run_in(const RecordFolder& folder, const VerifyOptions& options, const RunInputs& inputs,
                  const unit_register::Bench& bench, Terminal& terminal)
{
    std::optional<GuidedRun> guided;
    auto ending = Ending::interrupted;
    try {
        put_inputs(folder, inputs, options);
        guided.emplace(options, inputs, folder, terminal);
        ending = guided->run();
    } catch (...) {
        if (guided) {
            guided->remind_of_what_is_left();
        }
        if (!guided || guided->readings() == 0) {
            folder.discard();
        } else {
            terminal.say("What was captured is kept in " + folder.part().string() + ".");
        }
        throw;
    }
    if (guided->readings() == 0) {
        folder.discard();
        terminal.say("No reading came in: nothing was saved.");
        return ExitStatus::incomplete;
    }
    if (ending == Ending::interrupted) {
        // Whoever ends a program waits for no result.
        std::cout << where_it_is_kept(folder) << std::endl;
        return ExitStatus::incomplete;
    }
    return conclude(folder, ending, options, bench, terminal);
}

ExitStatus verify(VerifyOptions options, const Request& request)
{
    Terminal terminal;
    const auto bench = request.registering();
    for (const auto& line : unit_register::deliver(bench, {}, bench_key(bench.file))) {
        terminal.say(line);
    }
    auto inputs = read_inputs(options, bench.file, terminal.can_ask());
    ask_for_sealing_needs(options, inputs, terminal);
    inputs.key = bench_key(bench.file)();
    inputs.registering = bench;
    const session::Awake awake("a unit is being verified");
    return run_in(RecordFolder::begin(options.out), options, inputs, bench, terminal);
}

} // namespace

void add_verify(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("verify", "the whole guided run, into a record folder");
    const auto options = std::make_shared<VerifyOptions>();
    add_line_options(*command, *options);
    command->add_option("--order", options->order, "work order")->type_name("FILE")->required();
    command
        ->add_option(
            "--procedure", options->procedure,
            "what is done, step by step: guided, pre-delivery, periodic, home-visit or a file (docs/procedures.md)")
        ->type_name("NAME|FILE");
    command->add_option("--out", options->out, "record folder to make")->type_name("FOLDER")->required();
    command
        ->add_option("--displayed", options->displayed, "what the unit displayed, such as day=+40/-40; else asked for")
        ->type_name("PRESET=+P/-P");
    command->add_option("--panel", options->panel, "panel file of the virtual bench: displayed values and settings")
        ->type_name("FILE");
    command->add_option("--operator", options->run_operator, "who runs it")->type_name("NAME");
    command->add_option("--place", options->place, "where it is run")->type_name("PLACE");
    command
        ->add_option("--environment", options->environment,
                     "air in the room, and how long the instrument has been on: '22.5C 1008hPa 41% 20min'")
        ->type_name("VALUES");
    command
        ->add_option("--check", options->checks,
                     "a checklist item, such as 'intake filter=ok' or 'hose=not-ok: a crack'; may be given again")
        ->type_name("ITEM=OUTCOME");
    command->add_option("--attempt", options->attempt, "number of this attempt (one more than those beside the record)")
        ->type_name("N");
    command->add_option("--replaces", options->replaces, "earlier attempt that failed because of the set-up")
        ->type_name("N");
    command->add_option("--cause", options->cause, "what in the set-up it was: zero, plug, hose or instrument")
        ->check(CLI::IsMember({"zero", "plug", "hose", "instrument"}));
    command->add_option("--evidence", options->evidence, "how that is known")->type_name("TEXT");
    add_signing_options(*command, options->signing);
    add_disposition_options(*command, options->disposition);
    command
        ->add_option("--as-found", options->as_found_folder,
                     "record of the unit as it was found, before something was done")
        ->type_name("FOLDER");
    command->add_option("--done", options->done_between, "what was done since")->type_name("TEXT");
    command
        ->add_option("--first-strength", options->first_strength,
                     "record in which this unit's strength was tested first; else looked for in the register")
        ->type_name("FOLDER");
    add_wait_option(*command, *options, "longest wait for the pressure in a step, and for an instrument that is gone");
    command->add_flag("--yes", options->yes, "confirms every prompt; on a pseudo-terminal only");
    command->footer(
        "Enter confirms a step, g goes on although something is off, b gives the unit back now, Ctrl-C ends here. "
        "'s REASON' leaves a step out, 'c ITEM=OUTCOME' notes a checklist item. What was captured is kept.");
    command->callback([&request, options] { request.act = [options, &request] { return verify(*options, request); }; });
}

} // namespace zeroline::console
