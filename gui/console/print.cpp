#include "gui/console/command.hpp"

#include "acquisition/trace/input_error.hpp"
#include "gui/console/out_file.hpp"
#ifdef ZEROLINE_WITH_PRINT
#include "gui/print/pages.hpp"
#include "gui/records/key_list.hpp"
#endif

#include <CLI/CLI.hpp>

#include <iostream>
#include <memory>

namespace zeroline::console {

namespace fs = std::filesystem;
using trace::InputError;

namespace {

struct PrintOptions {
    std::string folder, out, what = "record", paper = "a4", language;
};

#ifdef ZEROLINE_WITH_PRINT

using Write = void (*)(const fs::path&, const fs::path&, const print::PageOptions&);

Write page_named(const std::string& what)
{
    if (what == "record") {
        return print::write_record_page;
    }
    if (what == "label") {
        return print::write_label;
    }
    if (what == "home") {
        return print::write_home_page;
    }
    if (what == "tag") {
        return print::write_tag;
    }
    throw InputError("--what", "'" + what + "'", "record, label, tag or home");
}

print::Paper paper_named(const std::string& paper)
{
    if (paper == "a4" || paper == "A4") {
        return print::Paper::a4;
    }
    if (paper == "letter" || paper == "Letter") {
        return print::Paper::letter;
    }
    throw InputError("--paper", "'" + paper + "'", "a4 or letter");
}

std::string name_without_slash(const std::string& folder)
{
    const auto clean = fs::absolute(folder).lexically_normal();
    return clean.has_filename() ? clean.filename().string() : clean.parent_path().filename().string();
}

fs::path place_of(const PrintOptions& options)
{
    const fs::path out = !options.out.empty()
                             ? fs::path(options.out)
                             : fs::path(name_without_slash(options.folder) + "-" + options.what + ".pdf");
    refuse_inside_record(out);
    refuse_taken(out);
    return out;
}

ExitStatus print_pages(const PrintOptions& options, const Request& request)
{
    const auto write = page_named(options.what);
    const auto paper = paper_named(options.paper);
    const auto out = place_of(options);
    const auto known = records::own_keys(records::key_file(request.bench()));
    write(options.folder, out, {.paper = paper, .language = options.language, .signatures = {}, .known = &known});
    std::cout << out.string() << '\n';
    return ExitStatus::pass;
}

#else

ExitStatus print_pages(const PrintOptions&, const Request&)
{
    throw InputError("print", "this program was built without the printed record",
                     "one that was built with ZEROLINE_WINDOW=ON");
}

#endif

} // namespace

void add_print(CLI::App& app, Request& request)
{
    auto* command = app.add_subcommand(
        "print",
        "the printed record, the label, the tag of a unit kept out of use, or the copy for the person at home");
    const auto options = std::make_shared<PrintOptions>();
    command->add_option("FOLDER", options->folder, "record folder")->required();
    command->add_option("--out", options->out, "file to make; else one in the current folder")->type_name("FILE.pdf");
    command->add_option("--what", options->what, "record (the default), label, tag or home")->type_name("WHAT");
    command->add_option("--paper", options->paper, "a4 (the default) or letter")->type_name("PAPER");
    command->callback([&request, options] {
        // The same record gives the same page on every machine: the system's language is not asked.
        options->language = request.global.language.empty() ? "en" : request.global.language;
        request.act = [&request, options] { return print_pages(*options, request); };
    });
}

} // namespace zeroline::console
