#include "gui/console/program.hpp"

#include "acquisition/trace/input_error.hpp"
#include "acquisition/trace/visible_text.hpp"
#include "gui/console/command.hpp"
#include "gui/console/interrupt.hpp"
#include "gui/console/safe_output.hpp"
#include "gui/records/bench_file.hpp"

#include <CLI/CLI.hpp>
#include <QLocale>

#include <exception>
#include <iostream>
#include <new>
#include <poll.h>
#include <unistd.h>

namespace zeroline::console {

namespace {

int as_number(ExitStatus status) { return static_cast<int>(status); }

void add_commands(CLI::App& app, Request& request)
{
    app.description("Shows whether a mechanical insufflation-exsufflation unit delivers what was prescribed.");
    app.set_version_flag("--version", version_text, "version of the program and of its libraries");
    app.add_option("--bench", request.global.bench_file, "bench file: organisation and house rules")->type_name("FILE");
    app.add_option("--register", request.global.place,
                   "register of units: a file or postgresql://USER@HOST/DATABASE; else that of the bench file, else "
                   "register.db beside the bench's key")
        ->type_name("PLACE");
    app.add_option("--language", request.global.language,
                   "language of the window and of what is printed, en or de; commands in a terminal speak English")
        ->check(CLI::IsMember({"en", "de"}))
        ->type_name("LANGUAGE");
    // Before the commands are added: they inherit it, and so global options may stand after the command.
    app.fallthrough();
    // A word that is no command is then named; that none stands there is seen afterwards.
    app.require_subcommand(0, 1);
    add_ports(app, request);
    add_ready(app, request);
    add_listen(app, request);
    add_capture(app, request);
    add_leak_test(app, request);
    add_check_instrument(app, request);
    add_verify(app, request);
    add_assess(app, request);
    add_print(app, request);
    add_export(app, request);
    add_recheck(app, request);
    add_register(app, request);
    add_sign(app, request);
    add_key(app, request);
    add_validate(app, request);
    add_virtual_bench(app, request);
    add_practise(app, request);
    add_new(app, request);
    app.footer(
        "Exit status: 0 pass or done, 1 fail or a difference, 2 the command or its input is wrong, 3 incomplete, "
        "4 conditional pass.");
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

/// Who reads the results has seen enough of them, as `head` has after ten lines.
bool reader_has_gone()
{
    pollfd results{STDOUT_FILENO, POLLOUT, 0};
    return ::poll(&results, 1, 0) > 0 && (results.revents & (POLLERR | POLLHUP)) != 0;
}

/// Results that could not be written are no results, unless nobody wants them.
int written(int status)
{
    std::cout.flush();
    if (std::cout.good() || reader_has_gone()) {
        return status;
    }
    std::cerr << "zeroline: standard output cannot be written\n";
    return as_number(ExitStatus::wrong_input);
}

int parse_and_act(CLI::App& app, const Request& request, const OpenWindow& open_window, int argc, char** argv)
{
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) {
            return written(app.exit(error));
        }
        std::cerr << "zeroline: " << first_line(error.what()) << "; see 'zeroline --help'\n";
        return as_number(ExitStatus::wrong_input);
    }
    if (!request.act && open_window) {
        return open_window(request.global);
    }
    if (!request.act) {
        throw trace::InputError("zeroline", "no command", "one of those that 'zeroline --help' lists");
    }
    survive_full_disk_and_closed_pipe();
    QLocale::setDefault(QLocale::c()); // results are fit for scripts: a point, whatever the locale
    return written(as_number(request.act()));
}

} // namespace

std::optional<std::filesystem::path> Request::bench() const
{
    const auto& file = global.bench_file;
    return file.empty() ? records::usual_bench_file() : std::optional<std::filesystem::path>(file);
}

unit_register::Bench Request::registering() const { return {bench(), unit_register::given_register(global.place)}; }

int run_program(int argc, char** argv, const OpenWindow& open_window)
{
    const SafeOutput results(std::cout);
    const SafeOutput words(std::cerr);
    try {
        CLI::App app;
        Request request;
        add_commands(app, request);
        return parse_and_act(app, request, open_window, argc, argv);
    } catch (const trace::InputError& error) {
        std::cerr << "zeroline: " << trace::visible_on_one_line(error.what()) << '\n';
    } catch (const std::bad_alloc&) {
        std::cerr << "zeroline: this computer has not enough memory left for that\n";
    } catch (const std::exception& error) {
        std::cerr << "zeroline: " << first_line(error.what()) << '\n';
    }
    return as_number(ExitStatus::wrong_input);
}

} // namespace zeroline::console
