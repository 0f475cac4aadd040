#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/new_file.hpp"
#include "gui/console/templates.hpp"
#include "gui/console/terminal.hpp"

#include <CLI/CLI.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

struct NewOptions {
    std::string what, out;
};

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
    throw trace::InputError("new", "'" + what + "'", "order, instrument or bench");
}

std::string what_to_do_next(Template which, const std::string& file)
{
    const auto made = file + " is made. Write your own values into it; then ";
    switch (which) {
    case Template::order:
        return made + "'zeroline ready --order " + file + "' checks it.";
    case Template::instrument:
        return made + "'zeroline listen --port PORT --instrument " + file + "' shows whether it fits the transducer.";
    case Template::bench:
        break;
    }
    return made + "name it to every command with --bench " + file +
           ", or keep it as ~/.config/zeroline/bench.json, where it is found without being named.";
}

ExitStatus write_template(const NewOptions& options)
{
    const auto which = template_named(options.what);
    const auto text = template_text(which);
    if (options.out.empty()) {
        std::cout << text;
        return ExitStatus::pass;
    }
    write_new_file(options.out, text);
    Terminal().say(what_to_do_next(which, options.out));
    return ExitStatus::pass;
}

} // namespace

void add_new(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand("new", "a template with remarks: order, instrument or bench");
    const auto options = std::make_shared<NewOptions>();
    command->add_option("WHAT", options->what, "order, instrument or bench")->required();
    command->add_option("--out", options->out, "file to make, with its folder; else it is printed")->type_name("FILE");
    command->callback([&request, options] { request.act = [options] { return write_template(*options); }; });
}

} // namespace zeroline::console
