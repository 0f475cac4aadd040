#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/out_file.hpp"
#include "gui/console/record_csv.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/json_file.hpp"
#include "gui/records/recheck.hpp"
#include "gui/records/record_folder.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

using trace::InputError;

struct ExportOptions {
    std::string folder, what = "trace", out;
};

/// What was saved is what is shown; a run that nobody finished is judged as it stands.
nlohmann::ordered_json record_of(const records::OpenFolder& folder, const records::LoadedEvidence& evidence)
{
    if (!folder.has_file(records::name::record)) {
        return records::parse_ordered_json(records::assess(evidence).record_json);
    }
    return records::reading(folder.shown(records::name::record),
                            [&] { return records::parse_ordered_json(folder.read(records::name::record)); });
}

std::string table_named(const std::string& what, const records::OpenFolder& folder,
                        const records::LoadedEvidence& evidence)
{
    if (what == "trace") {
        return trace_csv(evidence.trace);
    }
    if (what == "judgements") {
        return judgements_csv(record_of(folder, evidence));
    }
    if (what == "cycles") {
        return cycles_csv(record_of(folder, evidence));
    }
    throw InputError("--what", "'" + what + "'", "trace, judgements or cycles");
}

/// A trace has no place of its own for what has to be known of it.
void say_what_it_is(const records::LoadedEvidence& evidence, bool sealed)
{
    Terminal terminal;
    if (!sealed) {
        terminal.say("This record was never sealed: it is evidence of nothing.");
    }
    if (evidence.origin == verification::Origin::simulated) {
        terminal.say("This record is SIMULATED: no real unit was measured.");
    }
}

ExitStatus export_table(const ExportOptions& options)
{
    if (!options.out.empty()) {
        refuse_inside_record(options.out);
        refuse_taken(options.out);
    }
    const auto folder = records::OpenFolder::at(options.folder);
    const auto check = records::check_to_show(folder);
    const auto evidence = records::load_record_evidence(folder);
    const auto table = table_named(options.what, folder, evidence);
    say_what_it_is(evidence, check.sealed);
    if (options.out.empty()) {
        std::cout << table;
    } else {
        records::write_file_whole(options.out, table);
    }
    return ExitStatus::pass;
}

} // namespace

void add_export(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("export", "trace, judgements or cycles of a record as CSV, for other programs");
    const auto options = std::make_shared<ExportOptions>();
    command->add_option("FOLDER", options->folder, "record folder, or an unfinished one (FOLDER.part)")->required();
    command->add_option("--what", options->what, "trace (the default), judgements or cycles")->type_name("WHAT");
    command->add_option("--out", options->out, "file to make; else it is printed")->type_name("FILE.csv");
    command->callback([&request, options] { request.act = [options] { return export_table(*options); }; });
}

} // namespace zeroline::console
