#pragma once

#include "gui/console/exit_status.hpp"
#include "gui/console/program.hpp"
#include "gui/register/delivery.hpp"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace zeroline::console {

/// What the parsed command line asks for.
struct Request {
    GlobalOptions global;
    std::function<ExitStatus()> act;

    /// --bench, else the bench file of the user's configuration folder; none where there is none.
    [[nodiscard]] std::optional<std::filesystem::path> bench() const;
    /// bench(), and the register of --register. Throws trace::InputError where that is none.
    [[nodiscard]] unit_register::Bench registering() const;
};

/// Each adds a command to the command line; parsing it sets Request::act.
void add_ports(CLI::App& app, Request& request);
void add_ready(CLI::App& app, Request& request);
void add_listen(CLI::App& app, Request& request);
void add_capture(CLI::App& app, Request& request);
void add_leak_test(CLI::App& app, Request& request);
void add_check_instrument(CLI::App& app, Request& request);
void add_verify(CLI::App& app, Request& request);
void add_assess(CLI::App& app, Request& request);
void add_recheck(CLI::App& app, Request& request);
void add_register(CLI::App& app, Request& request);
void add_sign(CLI::App& app, Request& request);
void add_key(CLI::App& app, Request& request);
void add_validate(CLI::App& app, Request& request);
void add_virtual_bench(CLI::App& app, Request& request);
void add_practise(CLI::App& app, Request& request);
void add_print(CLI::App& app, Request& request);
void add_export(CLI::App& app, Request& request);
void add_new(CLI::App& app, Request& request);

/// "zeroline 0.1.0 ..." and the libraries, a line each.
[[nodiscard]] std::string version_text();

} // namespace zeroline::console
