#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/new_file.hpp"
#include "gui/console/templates.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/procedure_file.hpp"

#include <CLI/CLI.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

struct NewOptions {
    std::string what, out, like = "guided";
};

/// `occasion`: which of the procedures that the program carries.
std::string_view procedure_named(const std::string& occasion)
{
    const auto* const shipped = records::shipped_procedure(occasion);
    if (shipped == nullptr) {
        throw trace::InputError("--like", "'" + occasion + "'", "one of " + records::names_of_shipped_procedures());
    }
    return shipped->text;
}

Template template_named(const std::string& what)
{
    if (what == "order") {
        return Template::order;
    }
    if (what == "instrument") {
        return Template::instrument;
    }
    if (what == "bench") {
        return Template::bench;
    }
    throw trace::InputError("new", "'" + what + "'", "order, instrument, bench or procedure");
}

std::string what_to_do_next(const NewOptions& options)
{
    const auto& file = options.out;
    if (options.what == "instrument") {
        return "'zeroline listen --port PORT --instrument " + file + "' shows whether it fits the transducer.";
    }
    if (options.what == "bench") {
        return "name it to every command with --bench " + file +
               ", or keep it as zeroline/bench.json in $XDG_CONFIG_HOME (~/.config where that is not set), where it is "
               "found without being named.";
    }
    return "'zeroline ready --" + options.what + " " + file + "' checks it.";
}

ExitStatus write_template(const NewOptions& options)
{
    const bool procedure = options.what == "procedure";
    const auto text = procedure ? procedure_named(options.like) : template_text(template_named(options.what));
    if (options.out.empty()) {
        std::cout << text;
        return ExitStatus::pass;
    }
    write_new_file(options.out, text);
    Terminal().say(options.out + " is made. Write your own values into it; then " + what_to_do_next(options));
    return ExitStatus::pass;
}

} // namespace

void add_new(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("new", "a file to start from: order, instrument, bench or procedure");
    const auto options = std::make_shared<NewOptions>();
    command->add_option("WHAT", options->what, "order, instrument, bench or procedure")->required();
    command->add_option("--out", options->out, "file to make, with its folder; else it is printed")->type_name("FILE");
    command
        ->add_option("--like", options->like,
                     "procedure to start from: guided (what is run without one), pre-delivery, periodic or home-visit")
        ->type_name("NAME");
    command->callback([&request, options] { request.act = [options] { return write_template(*options); }; });
}

} // namespace zeroline::console
