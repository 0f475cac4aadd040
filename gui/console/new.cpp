#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/templates.hpp"
#include "gui/records/record_folder.hpp"

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

ExitStatus write_template(const NewOptions& options)
{
    const auto text = template_text(template_named(options.what));
    if (options.out.empty()) {
        std::cout << text;
        return ExitStatus::pass;
    }
    std::error_code none;
    if (std::filesystem::symlink_status(options.out, none).type() != std::filesystem::file_type::not_found) {
        throw trace::InputError(options.out, "is there already",
                                "a file that does not exist yet; nothing is overwritten");
    }
    if (const auto folder = std::filesystem::path(options.out).parent_path(); !folder.empty()) {
        std::filesystem::create_directories(folder, none); // what hinders it, writing will name
    }
    records::write_file_whole(options.out, text);
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
