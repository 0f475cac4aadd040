#include "gui/console/command.hpp"

#include "gui/console/local_time.hpp"
#include "gui/console/signature_text.hpp"
#include "gui/console/signing.hpp"
#include "gui/console/terminal.hpp"
#include "gui/records/addenda.hpp"
#include "gui/register/delivery.hpp"

#include <CLI/CLI.hpp>

#include <chrono>
#include <iostream>
#include <memory>

namespace zeroline::console {

namespace {

struct SignOptions {
    std::string folder, signer, role, meaning, correction, reason, remark;
};

ExitStatus sign(const SignOptions& options, const Request& request)
{
    const bool corrects = !options.correction.empty() || !options.reason.empty();
    records::Addendum addendum;
    addendum.kind = corrects ? "correction" : "review";
    addendum.signature = {options.signer, options.role, options.meaning,
                          local_rfc3339(std::chrono::system_clock::now())};
    if (addendum.signature.meaning.empty()) {
        addendum.signature.meaning = addendum.kind;
    }
    addendum.reason = options.reason;
    addendum.text = corrects ? options.correction : options.remark;
    const auto bench = request.registering();
    const auto key = bench_key(bench.file)();
    const auto place = records::add_addendum(options.folder, addendum, key);
    std::cout << addendum.kind << ' ' << signature_text(addendum.signature) << "\nAddendum: " << place.string() << '\n';
    unit_register::expect_record(bench, options.folder); // so that it waits where the register is out of reach
    for (const auto& line : unit_register::deliver(bench, options.folder, [&] { return key; })) {
        print_outcome({}, line);
    }
    return ExitStatus::pass;
}

} // namespace

void add_sign(CLI::App& app, Request& request)
{
    auto* command =
        app.add_subcommand("sign", "adds a review or a correction to a sealed record, which itself stays as it is");
    const auto options = std::make_shared<SignOptions>();
    command->add_option("FOLDER", options->folder, "record folder")->required();
    command->add_option("--signer", options->signer, "printed name of who signs")->required()->type_name("NAME");
    command->add_option("--role", options->role, "role of who signs")->type_name("ROLE");
    command->add_option("--meaning", options->meaning, "what the signature means (review)")->type_name("TEXT");
    command->add_option("--remark", options->remark, "a remark to a review")->type_name("TEXT");
    command->add_option("--correction", options->correction, "what the record should read")->type_name("TEXT");
    command->add_option("--reason", options->reason, "why it is corrected")->type_name("TEXT");
    command->callback([&request, options] { request.act = [options, &request] { return sign(*options, request); }; });
}

} // namespace zeroline::console
